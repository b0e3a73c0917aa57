#pragma once
// Lean to the first cup: by how much what is sipped first is scored higher.
#include <cstdint>
#include <optional>
#include <span>

#include "core/base/result.h"
#include "core/stats/brew_pairs.h"

namespace likeleaf::stats {

enum class LeanState {
  fitted,         ///< se, df, p hold
  no_spread,      ///< every brew pair leans by exactly the same amount
  one_brew_pair,  ///< estimate only
  no_brew_pair    ///< no brew pair has both orders: nothing can be said
};

struct Lean {
  LeanState state = LeanState::no_brew_pair;
  std::size_t brew_pairs = 0;  ///< those with both orders
  Rational exact;              ///< mean over them of (mean D with B first − mean D with A first)/2
  double estimate = 0;
  double se = 0;
  int df = 0;
  double p = 1;
  double lower = 0, upper = 0;  ///< t interval at 1 − alpha; equal to the estimate unless fitted
  /// (mean of all D with B first − mean of all D with A first)/2 over all sheets; nothing when an order never occurs.
  /// Equals the estimate when every brew pair is balanced; otherwise a brew pair's own luck gets into it.
  std::optional<double> pooled;
};

/// Errors: missing without a tasted pair, bad_value for a bad grid, weight or alpha, too_large.
Result<Lean> lean_to_first_cup(std::span<const TastedPair> tasted, std::int64_t grid, double alpha);

}  // namespace likeleaf::stats
