#include "core/evidence/analysis.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "core/stats/equivalence.h"
#include "core/stats/flip_interval.h"
#include "core/stats/sign_flip.h"
#include "core/stats/unlike_assessors.h"
#include "core/stats/unlike_lots.h"

namespace likeleaf::evidence {
namespace {

constexpr std::size_t fewest_brew_pairs = 3;
constexpr double parts_level = 0.05;
constexpr double most_out_of_range = 1.0 / 3;

std::vector<stats::TastedPair> tasted_pairs(const Differences& differences) {
  std::vector<stats::TastedPair> result;
  result.reserve(differences.values.size());
  for (const auto& v : differences.values) result.push_back({v.brew_pair, v.assessor, v.d, v.b_first, v.half_weight});
  std::sort(result.begin(), result.end(), [](const auto& x, const auto& y) {
    return std::tie(x.brew_pair, x.assessor, x.b_first, x.d, x.halves) <
           std::tie(y.brew_pair, y.assessor, y.b_first, y.d, y.halves);
  });
  return result;
}

bool exact_reaches(const Analysis& analysis, const AnalysisSettings& settings) {
  const std::size_t g = analysis.brew_pairs();
  return analysis.pairs.both_orders && g >= fewest_brew_pairs && stats::smallest_flip_p(g) <= settings.level;
}

/// The rule that the plan sealed, on the brew pairs that are left.
void choose_engine(Analysis& analysis, const AnalysisSettings& settings) {
  const bool t_possible =
      settings.t_allowed && analysis.brew_pairs() >= fewest_brew_pairs &&
      (analysis.fit.state == stats::TState::fitted || analysis.fit.state == stats::TState::no_spread);
  if (settings.only_engine) {
    analysis.engine = *settings.only_engine == Engine::t && !t_possible ? Engine::describe : *settings.only_engine;
  } else {
    analysis.engine = exact_reaches(analysis, settings) ? Engine::exact : t_possible ? Engine::t : Engine::describe;
  }
  if (analysis.engine != Engine::describe) return;
  analysis.blocked =
      analysis.fit.state == stats::TState::describe_only ? OpenReason::order_confounded : OpenReason::cannot_decide;
}

std::string exact_method(const stats::SignFlip& flip) {
  if (flip.method == stats::FlipMethod::draws)
    return fmt::format("{} drawn flips of {} brew pairs", flip.draws, flip.groups);
  if (flip.groups > 20) return fmt::format("exact flips of {} brew pairs (2^{})", flip.groups, flip.groups);
  return fmt::format("exact flips of {} brew pairs ({})", flip.groups, std::int64_t{1} << flip.groups);
}

Result<void> test_exactly(Analysis& analysis, std::uint64_t seed, const Work& work) {
  const auto flip = work.memo.sign_flip(analysis.pairs.values, seed, work.stop);
  if (!flip) return tl::unexpected(flip.error());
  const auto held = work.memo.flip_equivalence(analysis.pairs.values, analysis.margin, seed, work.stop);
  if (!held) return tl::unexpected(held.error());
  analysis.estimate = stats::estimate(analysis.pairs.values);
  analysis.p_moved = flip->two_sided.p;
  analysis.p_held = held->p;
  analysis.method = exact_method(*flip);
  return {};
}

void test_by_t(Analysis& analysis) {
  analysis.estimate = analysis.fit.estimate;
  if (analysis.fit.state != stats::TState::fitted) return;
  analysis.p_moved = analysis.fit.p;
  if (const auto held = stats::t_equivalence(analysis.fit, analysis.margin.value())) analysis.p_held = held->p;
  analysis.method =
      fmt::format("t with {} {} of freedom{}", analysis.fit.df, analysis.fit.df == 1 ? "degree" : "degrees",
                  analysis.fit.model == stats::TModel::with_lean ? ", lean to the first cup taken out" : "");
}

/// What stands in the way of any word but Open, strongest first.
void find_blocks(Analysis& analysis, const Differences& differences) {
  const auto pairs = static_cast<double>(differences.values.size());
  analysis.out_of_range_share = (differences.faint + differences.strong) / pairs;
  if (analysis.out_of_range_share > most_out_of_range)
    analysis.blocked = differences.faint >= differences.strong ? OpenReason::too_faint : OpenReason::too_strong;
  else if (analysis.engine != Engine::describe &&
           (stats::no_spread(analysis.pairs.values) || analysis.fit.state == stats::TState::no_spread))
    analysis.blocked = OpenReason::no_spread;
}

/// methods.md 2, Depends: far from the whole, and of another sign or on the other side of the margin.
bool differs_enough(double part, double whole, double margin) {
  if (std::abs(part - whole) < margin) return false;
  return part * whole < 0 || (std::abs(part) < margin) != (std::abs(whole) < margin);
}

std::vector<std::string> different_parts(const std::vector<Part>& parts, const std::vector<std::string>& names,
                                         const Analysis& analysis) {
  std::vector<std::string> result;
  for (const auto& part : parts)
    if (differs_enough(part.shrunken, analysis.estimate, analysis.margin.value()))
      result.push_back(names[static_cast<std::size_t>(part.index)]);
  return result;
}

bool one_brew_pair_each(const stats::Weighted& values) {
  return values.lots > 1 && values.size() == static_cast<std::size_t>(values.lots);
}

/// Lot × assessor, for trials with one brew pair a lot; brew pairs stand for lots there.
Result<stats::LotsByAssessor> cross_table(const Analysis& analysis) {
  std::vector<stats::TastedPair> by_lot = analysis.tasted;
  const auto& order = analysis.pairs.brew_pair;
  for (auto& pair : by_lot) {
    const auto place = std::find(order.begin(), order.end(), pair.brew_pair) - order.begin();
    pair.brew_pair = analysis.pairs.values.lot[static_cast<std::size_t>(place)];
  }
  return stats::unlike_lots_one_pair(by_lot, analysis.pairs.values.lots, analysis.grid);
}

Result<void> work_out_lots(Analysis& analysis, const Differences& differences, const AnalysisSettings& settings,
                           const Work& work) {
  const auto& values = analysis.pairs.values;
  auto& unlike = analysis.unlike_lots;
  std::optional<stats::LotsByAssessor> cross;
  if (one_brew_pair_each(values)) {
    auto table = cross_table(analysis);
    if (!table) return tl::unexpected(table.error());
    cross = *table;
  }
  const auto shrunken = cross ? stats::shrunken_lots(values, *cross) : stats::shrunken_lots(values);
  if (!shrunken) return tl::unexpected(shrunken.error());
  // Shrunken towards the engine's own estimate: where an order is lacking it is not the plain mean.
  for (const auto& item : shrunken->items)
    analysis.lots.push_back({analysis.pairs.lot[static_cast<std::size_t>(item.index)], item.own,
                             analysis.estimate + item.factor * (item.own - analysis.estimate)});
  unlike.asked = settings.ask_parts && values.lots > 1;
  unlike.leaf_or_pot = unlike.asked && cross.has_value();
  if (!unlike.asked) return {};
  const auto names = different_parts(analysis.lots, differences.lots, analysis);
  if (cross) {
    if (cross->state == stats::CrossState::fitted) unlike.p = cross->p;
  } else if (!names.empty()) {
    const auto test = work.memo.unlike_lots(values, settings.seed, work.stop);
    if (!test) return tl::unexpected(test.error());
    if (test->state == stats::UnlikeState::asked) unlike.p = test->p;
  }
  unlike.shown = unlike.p && *unlike.p <= parts_level && !names.empty();
  if (unlike.shown) unlike.names = names;
  return {};
}

Result<void> work_out_assessors(Analysis& analysis, const Differences& differences, const AnalysisSettings& settings,
                                const Work& work) {
  const auto shrunken = stats::shrunken_assessors(analysis.tasted, analysis.grid, analysis.estimate);
  if (!shrunken) return tl::unexpected(shrunken.error());
  for (const auto& item : shrunken->items) analysis.assessors.push_back({item.index, item.own, item.value});
  auto& unlike = analysis.unlike_assessors;
  unlike.asked = settings.ask_parts && shrunken->items.size() > 1;
  if (!unlike.asked) return {};
  const auto names = different_parts(analysis.assessors, differences.assessors, analysis);
  if (names.empty()) return {};
  const auto test = work.memo.unlike_assessors(analysis.tasted, analysis.grid, settings.seed, work.stop);
  if (!test) return tl::unexpected(test.error());
  if (test->state == stats::UnlikeState::asked) unlike.p = test->p;
  unlike.shown = unlike.p && *unlike.p <= parts_level;
  if (unlike.shown) unlike.names = names;
  return {};
}

}  // namespace

Result<Analysis> analyse(const Differences& differences, std::int64_t grid, std::int64_t margin,
                         const AnalysisSettings& settings, const Work& work) {
  Analysis result;
  result.grid = grid;
  const auto exact_margin = stats::rational(margin, grid);
  if (!exact_margin) return tl::unexpected(exact_margin.error());
  result.margin = *exact_margin;
  result.tasted = tasted_pairs(differences);
  if (result.tasted.empty()) {
    result.blocked = OpenReason::nothing_left;
    return result;
  }
  const std::vector<std::int32_t> lot_of(differences.brew_pair_lot.begin(), differences.brew_pair_lot.end());
  auto pairs = stats::brew_pairs(result.tasted, lot_of, grid);
  if (!pairs) return tl::unexpected(pairs.error());
  result.pairs = std::move(*pairs);
  const auto fit = stats::t_fit(result.pairs.values);
  if (!fit) return tl::unexpected(fit.error());
  result.fit = *fit;
  result.estimate = stats::estimate(result.pairs.values);
  choose_engine(result, settings);
  find_blocks(result, differences);
  if (result.engine == Engine::exact && settings.tested) {
    if (const auto done = test_exactly(result, settings.seed, work); !done) return tl::unexpected(done.error());
  } else if (result.engine == Engine::t) {
    test_by_t(result);
  }
  if (const auto done = work_out_lots(result, differences, settings, work); !done) return tl::unexpected(done.error());
  if (const auto done = work_out_assessors(result, differences, settings, work); !done)
    return tl::unexpected(done.error());
  return result;
}

Result<std::optional<Drawn>> draw(const Analysis& analysis, Engine engine, double alpha, std::uint64_t seed,
                                  const Work& work) {
  const double m = analysis.margin.value();
  if (analysis.empty()) return std::nullopt;
  if (engine == Engine::t) {
    const auto interval = stats::t_interval(analysis.fit, alpha);
    if (!interval) return std::nullopt;
    return Drawn{{interval->lower, interval->upper, 1 - alpha}, interval->lower > m || interval->upper < -m};
  }
  if (engine != Engine::exact) return std::nullopt;
  const auto interval = work.memo.flip_interval(analysis.pairs.values, alpha, seed, work.stop);
  if (!interval) return tl::unexpected(interval.error());
  if (!*interval) return std::nullopt;
  const auto& ends = **interval;
  const bool beyond = ends.lower_exact > analysis.margin || ends.upper_exact < stats::negate(analysis.margin);
  return Drawn{{ends.lower, ends.upper, 1 - alpha}, beyond};
}

}  // namespace likeleaf::evidence
