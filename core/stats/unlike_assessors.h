#pragma once
// Do the assessors answer differently? (methods.md section 2, "Depends")
#include <cstdint>
#include <optional>
#include <span>
#include <stop_token>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/rational.h"
#include "core/stats/unlike_lots.h"

namespace likeleaf::stats {

inline constexpr std::uint64_t assessor_draws = 20'000;

struct UnlikeAssessors {
  UnlikeState state =
      UnlikeState::not_asked;  ///< asked or not_asked (fewer than two assessors, or no brew pair with two)
  double p = 1;
  std::optional<Fraction> exact;  ///< when all arrangements were listed (up to most_ways)
  std::uint64_t draws = 0;        ///< 0 when listed; else p = (b + 1)/(draws + 1)
};

/// What is left of D after the brew pair's d_g and the lean to the first cup (in a brew pair with one order only, d_g
/// carries the lean already), labels shuffled inside each brew pair, statistic Σ S²/n over assessors; all whole
/// numbers. Missing sheets are allowed; a repeat serving and its twin are one cell, their mean. The leftovers are
/// rounded to a coarser grid only where the exact one would leave 128 bits. Errors: missing, bad_value, too_large,
/// cancelled.
Result<UnlikeAssessors> unlike_assessors(std::span<const TastedPair> tasted, std::int64_t grid, std::uint64_t seed,
                                         const std::stop_token& stop = {}, const Progress& progress = {});

}  // namespace likeleaf::stats
