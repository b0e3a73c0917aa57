#pragma once
// Two one-sided tests (Schuirmann 1987, J Pharmacokinet Biopharm 15) by either engine.
#include <cstdint>
#include <optional>
#include <stop_token>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/sign_flip.h"
#include "core/stats/t_engine.h"

namespace likeleaf::stats {

struct Equivalence {
  double p_lower = 1;                                             ///< of effect ≤ −margin
  double p_upper = 1;                                             ///< of effect ≥ +margin
  double p = 1;                                                   ///< the larger of the two
  std::optional<Fraction> p_lower_exact, p_upper_exact, p_exact;  ///< flips counted in whole numbers only
};

/// Flips of d_g + margin (one-sided, greater) and of d_g − margin (less). margin > 0 in the unit of d_g. Errors:
/// bad_value unless margin > 0, and those of sign_flip.
Result<Equivalence> flip_equivalence(const Weighted& values, const Rational& margin, std::uint64_t seed,
                                     const std::stop_token& stop = {}, const Progress& progress = {});
/// Nothing unless the state is fitted and margin > 0.
std::optional<Equivalence> t_equivalence(const TFit& fit, double margin);

}  // namespace likeleaf::stats
