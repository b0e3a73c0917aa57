#pragma once
// The interval of the flip test: every shift that the test does not reject.
#include <cstdint>
#include <optional>
#include <stop_token>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/rational.h"
#include "core/stats/sign_flip.h"

namespace likeleaf::stats {

struct FlipInterval {
  double lower = 0, upper = 0;
  Rational lower_exact, upper_exact;  ///< the weighted subset means at the ends; under draws, of the patterns drawn
  FlipMethod method = FlipMethod::exact_counts;
  double alpha = 0.05;
};

/// All shifts δ for which the two-sided flip test of d_g − δ has p > alpha (confidence 1 − alpha); its ends are
/// weighted means of subsets of the brew pairs. Nothing when 2^G is too small for the level. Exact, except: sorted
/// halves (21 brew pairs or more whose table would be too large) give the ends to 1e-9; where sign_flip draws, and
/// above 40 such brew pairs, the same draws as there are inverted. Errors: missing, bad_value unless 0 < alpha < 1,
/// too_large, cancelled.
Result<std::optional<FlipInterval>> flip_interval(const Weighted& values, double alpha, std::uint64_t seed,
                                                  const std::stop_token& stop = {}, const Progress& progress = {});

}  // namespace likeleaf::stats
