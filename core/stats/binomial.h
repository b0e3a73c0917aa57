#pragma once
// Exact binomial inference; no normal approximation anywhere.
#include <optional>

#include "core/base/result.h"

namespace likeleaf::stats {

/// Two-sided sign test of `positive` against `negative` (zeros left out by the caller): twice the smaller tail, at
/// most 1. Also McNemar's exact test of discordant pairs. Errors: bad_value for a negative count, missing when both are
/// 0.
Result<double> sign_test(int positive, int negative);

struct ShareInterval {
  double lower = 0, upper = 1;
};
/// Clopper and Pearson (1934, Biometrika 26), confidence 1 − alpha, alpha/2 on each side. Errors: bad_value unless
/// 0 ≤ x ≤ n, n ≥ 1 and 0 < alpha < 1.
Result<ShareInterval> clopper_pearson(int x, int n, double alpha);

/// Smallest x with P(X ≥ x) ≤ alpha under chance; nothing when even n of n does not reach it. Errors: bad_value unless
/// n ≥ 1, 0 < chance < 1 and 0 < alpha < 1.
Result<std::optional<int>> minimum_number(int n, double chance, double alpha);

}  // namespace likeleaf::stats
