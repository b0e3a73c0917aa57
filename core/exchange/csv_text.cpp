#include "core/exchange/csv_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/number_text.h"
#include "core/base/utf8.h"
#include "core/exchange/atomic_file.h"

namespace likeleaf::exchange {
namespace {

bool looks_like_formula(std::string_view cell) {
  return !cell.empty() && std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
}

std::string quoted(std::string_view cell) {
  std::string out = "\"";
  for (const char c : cell) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

/// The separator that the head uses most; a comma when there is only one column.
char find_separator(std::string_view bytes) {
  int commas = 0, semicolons = 0, tabs = 0;
  bool in_quotes = false;
  for (const char c : bytes) {
    if (c == '"') in_quotes = !in_quotes;
    if (in_quotes) continue;
    if (c == '\n' || c == '\r') {
      if (commas + semicolons + tabs > 0) break;
      continue;
    }
    commas += c == ',';
    semicolons += c == ';';
    tabs += c == '\t';
  }
  if (semicolons > commas && semicolons >= tabs) return ';';
  if (tabs > commas && tabs > semicolons) return '\t';
  return ',';
}

void trim(std::string& cell) {
  const auto is_space = [](char c) { return c == ' ' || c == '\t'; };
  while (!cell.empty() && is_space(cell.back())) cell.pop_back();
  cell.erase(cell.begin(), std::find_if_not(cell.begin(), cell.end(), is_space));
}

/// Walks the bytes once, cell by cell.
class Scanner {
 public:
  Scanner(std::string_view bytes, const CsvTable& table) : rest_(bytes), table_(table) {}
  [[nodiscard]] bool done() const { return rest_.empty(); }

  Result<CsvRow> row() {
    CsvRow row;
    row.line = line_;
    for (;;) {
      std::string cell;
      if (auto read = one_cell(cell, static_cast<int>(row.cells.size())); !read) return tl::unexpected(read.error());
      row.cells.push_back(std::move(cell));
      if (rest_.empty()) return good_text(std::move(row));
      if (rest_.front() == table_.separator) {
        rest_.remove_prefix(1);
        continue;
      }
      end_line();
      return good_text(std::move(row));
    }
  }

 private:
  void end_line() {
    if (rest_.starts_with("\r\n"))
      rest_.remove_prefix(2);
    else
      rest_.remove_prefix(1);
    ++line_;
  }
  [[nodiscard]] bool at_cell_end() const {
    return rest_.empty() || rest_.front() == table_.separator || rest_.front() == '\n' || rest_.front() == '\r';
  }
  void take_character(std::string& cell) {
    if (rest_.front() == '\n') ++line_;
    cell += rest_.front();
    rest_.remove_prefix(1);
  }
  /// Separators are ASCII, so a cell is well-formed exactly when its own bytes are.
  Result<CsvRow> good_text(CsvRow row) const {
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      if (!valid_utf8(row.cells[i]) || row.cells[i].find('\0') != std::string::npos)
        return fail(ErrorKind::malformed, "text encoding", {}, "UTF-8 (in the spreadsheet: save as CSV UTF-8)",
                    csv_place(table_, row.line, static_cast<int>(i)));
    return row;
  }
  Result<void> one_cell(std::string& cell, int column) {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    if (!rest_.empty() && rest_.front() == '"') return quoted_cell(cell, column);
    while (!at_cell_end()) take_character(cell);
    trim(cell);
    return {};
  }
  Result<void> quoted_cell(std::string& cell, int column) {
    const int begun = line_;
    rest_.remove_prefix(1);
    for (;;) {
      if (rest_.empty())
        return fail(ErrorKind::malformed, "quote", shown_value(cell), "a closing quote",
                    csv_place(table_, begun, column));
      if (rest_.front() == '"') {
        rest_.remove_prefix(1);
        if (rest_.empty() || rest_.front() != '"') break;
      }
      take_character(cell);
    }
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    if (!at_cell_end())
      return fail(ErrorKind::malformed, "quote", shown_value(cell), "nothing between a closing quote and the next cell",
                  csv_place(table_, line_, column));
    return {};
  }

  std::string_view rest_;
  const CsvTable& table_;
  int line_ = 1;
};

bool is_empty_row(const CsvRow& row) {
  return std::all_of(row.cells.begin(), row.cells.end(), [](const std::string& cell) { return cell.empty(); });
}

std::string separator_name(char separator) {
  return separator == ',' ? "commas" : separator == ';' ? "semicolons" : "tabs";
}

/// Rows of a spreadsheet may end in empty cells; those are cut, everything else must be as wide as the head.
Result<void> fit_width(CsvRow& row, const CsvTable& table) {
  const std::size_t width = table.head.cells.size();
  while (row.cells.size() > width && row.cells.back().empty()) row.cells.pop_back();
  if (row.cells.size() == width) return {};
  std::string allowed =
      fmt::format("{} cells between {}, as in the first line", width, separator_name(table.separator));
  if (table.separator == ',' && row.cells.size() > width)
    allowed += " (a decimal comma needs quotes around the number, or semicolons between the cells)";
  return fail(ErrorKind::malformed, "row", fmt::format("{} cells", row.cells.size()), allowed,
              csv_place(table, row.line, -1));
}

}  // namespace

CsvWriter& CsvWriter::plain(std::string_view cell) {
  if (!first_) out_ += ',';
  first_ = false;
  if (cell.find_first_of(",\"\r\n") != std::string_view::npos)
    out_ += quoted(cell);
  else
    out_ += cell;
  return *this;
}

CsvWriter& CsvWriter::text(std::string_view cell) {
  if (!looks_like_formula(cell)) return plain(cell);
  return plain("'" + std::string(cell));
}

CsvWriter& CsvWriter::number(std::int64_t value) {
  return plain(fmt::format("{}", value));
}

CsvWriter& CsvWriter::scaled(std::int64_t value, int decimals) {
  std::uint64_t size = value < 0 ? 0 - static_cast<std::uint64_t>(value) : static_cast<std::uint64_t>(value);
  std::uint64_t one = 1;
  for (int i = 0; i < decimals; ++i) one *= 10;
  std::string digits = fmt::format("{}{}", value < 0 ? "-" : "", size / one);
  if (size % one != 0) {
    digits += fmt::format(".{:0{}}", size % one, decimals);
    while (digits.back() == '0') digits.pop_back();
  }
  return plain(digits);
}

void CsvWriter::end_row() {
  out_ += "\r\n";
  first_ = true;
}

void CsvWriter::row(const std::vector<std::string_view>& plain_cells) {
  for (const auto cell : plain_cells) plain(cell);
  end_row();
}

std::string csv_place(const CsvTable& table, int line, int column) {
  std::string place = fmt::format("{}, line {}", table.file, line);
  if (column < 0) return place;
  place += fmt::format(", column {}", column + 1);
  if (static_cast<std::size_t>(column) < table.head.cells.size())
    place += fmt::format(" ({})", shown_value(table.head.cells[static_cast<std::size_t>(column)]));
  return place;
}

Result<CsvTable> read_csv(std::string_view bytes, std::string_view file) {
  CsvTable table;
  table.file = std::string(file);
  if (bytes.size() > csv_size_limit)
    return fail(ErrorKind::too_large, "size", size_text(bytes.size()), "at most " + size_text(csv_size_limit),
                table.file);
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
    return fail(ErrorKind::malformed, "text encoding", "UTF-16", "UTF-8 (in the spreadsheet: save as CSV UTF-8)",
                table.file);
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  table.separator = find_separator(bytes);
  Scanner scanner(bytes, table);
  while (!scanner.done()) {
    auto row = scanner.row();
    if (!row) return tl::unexpected(row.error());
    if (is_empty_row(*row)) continue;
    if (table.head.cells.empty()) {
      table.head = std::move(*row);
      while (table.head.cells.back().empty()) table.head.cells.pop_back();
      continue;
    }
    if (auto fits = fit_width(*row, table); !fits) return tl::unexpected(fits.error());
    table.rows.push_back(std::move(*row));
  }
  if (table.head.cells.empty())
    return fail(ErrorKind::missing, "first line", {}, "a first line with the names of the columns", table.file);
  return table;
}

}  // namespace likeleaf::exchange
