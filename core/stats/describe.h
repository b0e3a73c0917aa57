#pragma once
#include <cstdint>
#include <optional>
#include <span>

#include "core/base/result.h"

namespace likeleaf::stats {

struct Description {
  std::size_t n = 0;
  double mean = 0;
  std::optional<double> sd;  ///< n − 1 in the denominator; nothing when n is 1
  double lowest = 0, lower_quartile = 0, median = 0, upper_quartile = 0, highest = 0;  ///< quartiles: R's type 7
};

/// Summary of doubles. Errors: missing when empty, bad_value when a value is not finite.
Result<Description> describe(std::span<const double> values);
/// The same of whole numbers that stand for value/den; all sums are exact. Errors: missing, bad_value when den < 1,
/// too_large when the sum of squares leaves 128 bits.
Result<Description> describe(std::span<const std::int64_t> values, std::int64_t den);

}  // namespace likeleaf::stats
