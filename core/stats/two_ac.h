#pragma once
// Choices "less, can't tell, more" by the 2-AC model (Christensen, Lee, Brockhoff 2012, Food Quality and Preference
// 24): P(less) = Φ((−τ − d)/√2), P(can't tell) = Φ((τ − d)/√2) − P(less). For the annex, "as if answers were
// independent".
#include <optional>

#include "core/base/result.h"

namespace likeleaf::stats {

enum class TwoAcState {
  fitted,            ///< tau and d_prime hold
  nobody_less,       ///< no "less": d′ has no upper end (tau and d_prime absent)
  nobody_more,       ///< no "more": d′ has no lower end (tau and d_prime absent)
  nobody_could_tell  ///< only "can't tell": nothing to estimate (tau and d_prime absent)
};

struct TwoAc {
  TwoAcState state = TwoAcState::fitted;
  int less = 0, cannot_tell = 0, more = 0;
  double share_less = 0, share_cannot_tell = 0, share_more = 0;
  std::optional<double> tau, d_prime;
  double lr = 0;  ///< likelihood ratio statistic of d′ = 0; finite in every state
  double p = 1;   ///< χ² with 1 df
};

/// Errors: bad_value for a negative count, missing when all three are 0.
Result<TwoAc> two_ac(int less, int cannot_tell, int more);

}  // namespace likeleaf::stats
