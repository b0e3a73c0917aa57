#pragma once
// "How many brew pairs would settle it?" Normal differences with estimated SD; noncentral t and direct integration.
#include <optional>

#include "core/base/result.h"

namespace likeleaf::stats {

inline constexpr int most_next_pairs = 5000;

/// Power of the two-sided one-sample t test of n brew pairs at level alpha if the truth is delta and the SD of the d_g
/// is sd. Errors: bad_value unless n ≥ 2, sd > 0, 0 < alpha < 1 and all finite.
Result<double> difference_power(int n, double delta, double sd, double alpha);
/// Power of the two one-sided tests, each at level alpha, at ±margin. Errors likewise, and margin > 0.
Result<double> equivalence_power(int n, double delta, double sd, double margin, double alpha);

/// Smallest n ≥ 3 with at least the power; nothing when it is above most_next_pairs (always so for delta = 0).
Result<std::optional<int>> pairs_for_difference(double delta, double sd, double alpha, double power = 0.8);
/// Likewise; nothing when |delta| ≥ margin.
Result<std::optional<int>> pairs_for_equivalence(double delta, double sd, double margin, double alpha,
                                                 double power = 0.8);

}  // namespace likeleaf::stats
