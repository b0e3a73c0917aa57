#pragma once
// The exact test of the verdict: under "the levels make no difference" the sign of each brew pair's d_g was settled by
// the draw at the bench, so all 2^G sign patterns were equally likely (Fisher 1935, The Design of Experiments, ch. 3).
#include <cstdint>
#include <optional>
#include <span>
#include <stop_token>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/rational.h"

namespace likeleaf::stats {

enum class FlipMethod {
  exact_counts,  ///< all patterns counted in whole numbers (G ≤ 62)
  exact_shares,  ///< all patterns, shares added as doubles (G > 62; good to about 12 digits)
  draws          ///< 10⁶ random patterns, (b + 1)/(m + 1)
};

/// One probability; `exact` is there under exact_counts.
struct Share {
  double p = 1;
  std::optional<Fraction> exact;
};

struct SignFlip {
  std::size_t groups = 0;  ///< G, the values that were flipped
  FlipMethod method = FlipMethod::exact_counts;
  std::uint64_t draws = 0;  ///< 0 unless method is draws
  Share two_sided;          ///< share of patterns with |sum| at least as large as seen; zeros stay in
  Share greater;            ///< share with a sum at least as large as seen
  Share less;               ///< share with a sum at most as large as seen
};

inline constexpr std::uint64_t flip_draws = 1'000'000;

/// Flips whole numbers one by one; the statistic is their sum. A table over the sums when that is small, else sorted
/// halves merged up to 34 values, else draws. `seed` matters to draws only. Errors: missing when empty, too_large when
/// Σ|v| > 2⁶⁰, cancelled.
Result<SignFlip> sign_flip(std::span<const std::int64_t> values, std::uint64_t seed, const std::stop_token& stop = {},
                           const Progress& progress = {});
/// Flips brew pairs; the statistic is Σ w·d, the mean over lots of the lots' means.
Result<SignFlip> sign_flip(const Weighted& values, std::uint64_t seed, const std::stop_token& stop = {},
                           const Progress& progress = {});

/// 2/2^G: the smallest two-sided p that G brew pairs can give (1 for G = 0).
double smallest_flip_p(std::size_t groups);

}  // namespace likeleaf::stats
