#pragma once
// Shrunken estimates of lots and assessors: est + f(mean − est), f = σ²between / (σ²between + σ²within/n), variances by
// analysis of variance, σ²between not below 0, f = 0 when both are 0 (methods.md section 2).
#include <cstdint>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/unlike_lots.h"

namespace likeleaf::stats {

struct Shrunken {
  std::int32_t index = 0;  ///< lot number as in Weighted, or the caller's assessor index
  double own = 0;          ///< its own mean (assessors: est + mean of what is left after brew pair and lean)
  double factor = 0;       ///< f, 0 to 1
  double value = 0;        ///< est + f(own − est)
};

struct ShrunkenSet {
  std::vector<Shrunken> items;  ///< by index
  double variance_between = 0, variance_within = 0;
};

/// Lots by the d_g, with own n and n₀ where numbers differ. One lot, or one brew pair in every lot: every factor is 0
/// (for the latter use the next). Errors: missing.
Result<ShrunkenSet> shrunken_lots(const Weighted& values);
/// One brew pair a lot: within is lot × assessor over the number of assessors. Factors are 0 unless cross is fitted or
/// without spread. Errors: missing, bad_value when cross is of another number of lots.
Result<ShrunkenSet> shrunken_lots(const Weighted& values, const LotsByAssessor& cross);
/// Assessors over brew pairs, about the estimate of `values` (made from the same tasted pairs). Errors: those of
/// unlike_assessors.
Result<ShrunkenSet> shrunken_assessors(std::span<const TastedPair> tasted, std::int64_t grid, double estimate);

}  // namespace likeleaf::stats
