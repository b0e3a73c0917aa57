#pragma once
// What is left of each D after its brew pair and the lean to the first cup, by brew pair and assessor, as whole
// numbers; for the test and the shrunken estimates of assessors.
#include <cstdint>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/brew_pairs.h"

namespace likeleaf::stats {

struct Leftovers {
  struct Cell {
    std::size_t assessor = 0;  ///< place in `assessors`
    std::int64_t value = 0;    ///< in 1/den
  };
  std::vector<std::int32_t> assessors;   ///< the caller's indices, ascending
  std::vector<std::vector<Cell>> pairs;  ///< one entry a brew pair, cells by assessor
  std::vector<std::int64_t> cells;       ///< number of cells of each assessor
  std::vector<std::int64_t> factor;      ///< L/cells with L their least common multiple
  long double den = 1;                   ///< whole unless the values were rounded
};

/// Σ over assessors of (sum of values)²·factor stays inside 128 bits, and any sum of values inside 62, whatever the
/// labels. Errors: missing, bad_value, too_large.
Result<Leftovers> leftovers(std::span<const TastedPair> tasted, std::int64_t grid);

}  // namespace likeleaf::stats
