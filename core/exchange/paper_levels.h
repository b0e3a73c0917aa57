#pragma once
// From the level cells of a paper key to a lever; inner to core/exchange.
#include <map>
#include <string>
#include <vector>

#include "core/domain/plan.h"
#include "core/exchange/paper_csv.h"

namespace likeleaf::exchange {

struct PaperLevelCell {
  std::string text;
  std::string where;
};

struct PaperLevels {
  Lever lever;
  std::map<std::string, std::size_t> index;  ///< from a cell's text to the level
};

/// Numbers where all cells are numbers of one unit (or of the lever that the options name), else labels. Two texts of
/// one number ("88 °C", "88,0 °C") are one level. Refused: fewer than two levels, a cell that the named lever does not
/// take, a present way that is none of the levels.
Result<PaperLevels> read_levels(const std::vector<PaperLevelCell>& cells, const PaperOptions& options);

}  // namespace likeleaf::exchange
