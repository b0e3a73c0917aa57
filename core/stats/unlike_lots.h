#pragma once
// Do the lots answer differently? (methods.md section 2, "Depends")
#include <cstdint>
#include <optional>
#include <span>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/rational.h"

namespace likeleaf::stats {

enum class UnlikeState {
  asked,         ///< p holds
  not_asked,     ///< one lot (one assessor): there is no question
  one_pair_each  ///< one brew pair in every lot: ask unlike_lots_one_pair, "leaf or pot: not told apart"
};

inline constexpr std::uint64_t most_ways = 400'000;  ///< enumerated up to here
inline constexpr std::uint64_t lot_draws = 100'000;  ///< drawn above it

struct UnlikeLots {
  UnlikeState state = UnlikeState::not_asked;
  double p = 1;                       ///< share of ways with Σ S²/n at least as large as seen
  std::optional<Fraction> exact;      ///< when all ways were listed
  std::optional<std::uint64_t> ways;  ///< number of ways to hand out the brew pairs; nothing above 10¹⁸
  std::uint64_t draws = 0;            ///< 0 when listed; else p = (b + 1)/(draws + 1)
  std::optional<double> f;            ///< mean square between over within lots, for the annex; nothing without spread
  std::optional<double> smallest_p;   ///< the smallest p these sizes can ever give (for the plan)
};

/// Brew pairs handed to the lots in all ways, sizes kept, Σ S²/n in exact fractions. Ways that differ by the names of
/// lots of equal size only have the same Σ and are listed once, so that more trials get an exact p (six lots of two:
/// 10 395 instead of 7 484 400); up to most_ways of these are listed, above that lot_draws are drawn. Errors: missing,
/// too_large, cancelled.
Result<UnlikeLots> unlike_lots(const Weighted& values, std::uint64_t seed, const std::stop_token& stop = {},
                               const Progress& progress = {});

/// The smallest p that lots of these sizes can give: 1 over the number of ways, times the ways that are the same but
/// for the names of lots of equal size (three lots of two: 0.067). Nothing when there are fewer than two lots or more
/// than 10¹⁸ ways; 1 when every lot has one.
std::optional<double> smallest_lots_p(std::span<const std::int32_t> sizes);

enum class CrossState {
  fitted,
  no_spread,  ///< nothing left after lot, assessor and order
  too_few     ///< one lot, one assessor, or no degrees of freedom left
};

/// One brew pair a lot: F of lot over lot × assessor.
struct LotsByAssessor {
  CrossState state = CrossState::too_few;
  double f = 0, p = 1;
  int df_lots = 0, df_cross = 0;
  double ms_lots = 0, ms_cross = 0;  ///< mean squares; of lot given assessor and order where sheets are missing
  std::vector<double> sheets;        ///< sheets of each lot
};

/// Least squares of D on lot, assessor and order (±1, where both occur), F of lot by what it adds to the rest. A repeat
/// serving and its twin count half each. brew_pair indexes lots here: 0 … lots − 1. Errors: missing, bad_value.
Result<LotsByAssessor> unlike_lots_one_pair(std::span<const TastedPair> tasted, std::int32_t lots, std::int64_t grid);

}  // namespace likeleaf::stats
