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
/// halves merged up to 40 values, else draws. `seed` matters to draws only. Errors: missing when empty, too_large when
/// Σ|v| > 2⁶⁰, cancelled.
Result<SignFlip> sign_flip(std::span<const std::int64_t> values, std::uint64_t seed, const std::stop_token& stop = {},
                           const Progress& progress = {});
/// Flips brew pairs; the statistic is Σ w·d, the mean over lots of the lots' means.
Result<SignFlip> sign_flip(const Weighted& values, std::uint64_t seed, const std::stop_token& stop = {},
                           const Progress& progress = {});

/// 2/2^G: the smallest two-sided p that G brew pairs can give (1 for G = 0).
double smallest_flip_p(std::size_t groups);

struct FlipInterval {
  double lower = 0, upper = 0;
  Rational lower_exact, upper_exact;  ///< the weighted subset means at the ends; under draws, of the patterns drawn
  FlipMethod method = FlipMethod::exact_counts;
  double alpha = 0.05;
};

/// All shifts δ for which the two-sided flip test of d_g − δ has p > alpha (confidence 1 − alpha); its ends are
/// weighted means of subsets of the brew pairs. Nothing when 2^G is too small for the level. Exact, except: sorted
/// halves (21 to 40 brew pairs whose table would be too large) give the ends to 1e-9; above 40 such brew pairs the same
/// draws as in sign_flip are inverted. Errors: missing, bad_value unless 0 < alpha < 1, too_large, cancelled.
Result<std::optional<FlipInterval>> flip_interval(const Weighted& values, double alpha, std::uint64_t seed,
                                                  const std::stop_token& stop = {}, const Progress& progress = {});

}  // namespace likeleaf::stats
