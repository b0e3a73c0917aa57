#pragma once
// The two paper tables as rows of values; inner to core/exchange (paper_csv.h is the door).
#include <optional>
#include <string>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/score.h"
#include "core/domain/serving.h"
#include "core/exchange/csv_text.h"

namespace likeleaf::exchange {

/// Which columns of a table hold what, by the order in which they were asked for.
Result<std::vector<std::size_t>> find_columns(const CsvTable& table,
                                              const std::vector<std::vector<std::string>>& names);

struct PaperKeyRow {
  BlindCode code;
  std::string lot;
  int brew_pair = 1;
  std::string level;
  int line = 1;
};

struct PaperMark {
  BlindCode code;
  std::string assessor;
  std::string attribute;  ///< id
  std::string field;      ///< of a sheet
  std::optional<Mark> mark;
  std::optional<BlindCode> first_cup;  ///< the code that was sipped first
  std::optional<bool> this_first;      ///< or: whether this row's code was
  int line = 1;
};

/// The built-in attribute that a cell names, by id or name, whatever the case; for the bands of a register the field is
/// "aroma_register.top", "aroma register top" or "top notes". The error lists what is built in.
struct PaperField {
  const Attribute* attribute = nullptr;
  std::string field;
};
Result<PaperField> paper_field(std::string_view cell, const std::string& where);

Result<std::vector<PaperKeyRow>> read_key_rows(const CsvTable& table);
Result<std::vector<PaperMark>> read_mark_rows(const CsvTable& table);

/// Lower case, and one space for any '_', '-' and space: "Brew_Pair" is "brew pair".
std::string plain_name(std::string_view text);

}  // namespace likeleaf::exchange
