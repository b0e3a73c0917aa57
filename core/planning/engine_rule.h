#pragma once
// Which engine a plan will be decided by (methods.md section 2): shown before the seal, never chosen after.
#include "core/domain/plan.h"

namespace likeleaf {

struct EngineForecast {
  enum class Kind { exact, t, describe } kind = Kind::describe;
  int brew_pairs = 0;            ///< G: of one contrast over all lots, whole brew pairs
  int claims = 0;                ///< k: deciding attributes; times the contrasts where there are several
  bool both_orders = false;      ///< every brew pair is tasted in both orders: two tasters or more share it
  bool exact_possible = false;   ///< both orders occur and 2/2^G ≤ alpha/k
  int brew_pairs_for_exact = 0;  ///< the fewest G with 2/2^G ≤ alpha/k; 0 when nothing is to be decided
  int fewest_brew_pairs = 0;     ///< below this t does not decide either
  EnginePolicy policy = EnginePolicy::automatic;
  double smallest_p = 1;  ///< 2/2^G: the least that flips of whole brew pairs can reach
  double asked_p = 0;     ///< alpha/k: what it has to reach; 0 when nothing is to be decided
  bool operator==(const EngineForecast&) const = default;
};

/// Pure; reads any draft. Own brews and lone tasters leave a brew pair with one order, so the t rule on brew pairs with
/// the order as a covariate decides there, from four brew pairs on. Fewer than three decide nothing.
EngineForecast engine_forecast(const Plan& plan);

/// Smallest p with which lots (sizes kept, labels free) can be told apart: 1 over the number of ways to split
/// lots × pairs_of_a_lot brew pairs into lots. 1 for fewer than two lots or two pairs a lot.
double smallest_p_between_lots(int lots, int pairs_of_a_lot);

}  // namespace likeleaf
