#pragma once
// A finished paper trial from two tables, so that a house with old sheets can start today.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/acts/trial_import.h"
#include "core/base/clock.h"
#include "core/base/result.h"

namespace likeleaf::exchange {

/// An attribute that the house had decided on beforehand. Without any, all attributes are also noted.
struct PaperDeciding {
  std::string attribute;               ///< id or name, as in the table
  std::optional<std::int64_t> margin;  ///< as in Attribute::margin; nothing: the attribute's own
};

/// What the two tables do not say.
struct PaperOptions {
  int number = 1;
  std::string house;
  std::string question;            ///< empty: one is made from what changes
  std::optional<LeverKind> lever;  ///< nothing: found from the levels' units, else "other"
  std::string lever_name;          ///< what changes, for "other"
  std::string present_way;         ///< the level that is the house's way now, as in the key; empty: the key's first
  std::vector<PaperDeciding> deciding;
  std::optional<Temperature> tasting_temperature;
  Moment tasted;    ///< when it was tasted: every time of the trial. The same day must be given again
                    ///< for a second import to change nothing
  Registers known;  ///< of the book: its lots (by code) and assessors (by alias) are used
  std::string sheets_file = "sheets.csv";  ///< names for error messages
  std::string key_file = "key.csv";
};

/// Sheets: a table with the columns code, assessor, attribute, value, first cup. One row a mark; `value` as typed in a
/// sheet ("7.5", "7,5", "<3", "not tasted", empty for a blank); `first cup` is the code that was sipped first, or yes
/// or no for this row's code, at least once for each assessor and pair. Key: code, lot, brew pair, level; an assessor's
/// two codes of one brew pair are a pair. Levels with a unit ("88 °C", "45 s", "4 g") become numbers, others stay
/// labels; three and more levels are allowed, each pair holding the reference and one other. Other columns are not
/// looked at.
///
/// The result is an unmasked trial, every sheet locked, marked as a paper import: nothing was sealed beforehand. Its
/// ids follow from the tables. The whole of it is read or nothing; errors name file, line, column, value and what is
/// allowed.
Result<TrialImport> read_paper(std::string_view sheets_csv, std::string_view key_csv, const PaperOptions& options);

}  // namespace likeleaf::exchange
