#pragma once
// Comma-separated text, out (RFC 4180, one dialect) and in (what spreadsheets write).
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace likeleaf::exchange {

/// A file of a folder of tables: its name and its bytes.
struct CsvFile {
  std::string name;
  std::string text;
  bool operator==(const CsvFile&) const = default;
};

/// Writes RFC 4180: UTF-8, commas, CRLF, quotes where they are needed. Machine text: '.' and the plain minus sign.
class CsvWriter {
 public:
  /// Text that people typed. A cell that a spreadsheet would take for a formula (it begins with = + - @, tab or return)
  /// gets an apostrophe in front.
  CsvWriter& text(std::string_view cell);
  /// Numbers and words of our own: written as they are, never guarded.
  CsvWriter& plain(std::string_view cell);
  CsvWriter& number(std::int64_t value);
  /// A whole number of 10^-decimals: scaled(-15, 1) is -1.5; no zeros at the end.
  CsvWriter& scaled(std::int64_t value, int decimals);
  CsvWriter& blank() { return plain({}); }
  void end_row();
  void row(const std::vector<std::string_view>& plain_cells);
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  std::string out_;
  bool first_ = true;
};

struct CsvRow {
  std::vector<std::string> cells;  ///< white space around them removed unless quoted
  int line = 1;                    ///< where the row begins in the file, 1-based
};

struct CsvTable {
  std::string file;      ///< its name, for error messages
  char separator = ',';  ///< found: comma, semicolon or tab
  CsvRow head;
  std::vector<CsvRow> rows;  ///< empty lines left out; every row as wide as the head
};

inline constexpr std::uint64_t csv_size_limit = 32ull * 1024 * 1024;

/// Reads a whole table: a byte order mark, CRLF or LF, quotes with doubled quotes, and comma, semicolon or tab between
/// cells (found in the head). Refused, with file, line and column named: UTF-16, bytes that are not UTF-8, an open
/// quote, text behind a closing quote, rows wider or narrower than the head, a file without a head, and files over 32
/// MiB.
Result<CsvTable> read_csv(std::string_view bytes, std::string_view file);

/// "sheets.csv, line 4, column 3 (value)"; column counts from 0 and is left out below 0.
std::string csv_place(const CsvTable& table, int line, int column);

}  // namespace likeleaf::exchange
