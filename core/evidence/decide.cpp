#include "core/evidence/decide.h"

#include <algorithm>
#include <cmath>

#include "core/evidence/cup_values.h"
#include "core/stats/holm.h"

namespace likeleaf::evidence {
namespace {

constexpr double noted_level = 0.05;  // "also noted" is always drawn at 95 %

/// Both families of one round, by the place of the member; members that do not decide have none.
struct Families {
  std::vector<std::optional<stats::HolmItem>> moved, held;
};

using Pick = std::optional<double> Analysis::*;

/// A member that cannot be tested stays in its family with p = 1: leaving it out would make the others easier.
Result<std::vector<std::optional<stats::HolmItem>>> family_of(const std::vector<FamilyMember>& family,
                                                              const std::vector<Analysis>& analyses, Pick pick,
                                                              double alpha) {
  std::vector<double> p;
  for (std::size_t i = 0; i < family.size(); ++i)
    if (family[i].deciding) p.push_back(analyses[i].blocked == OpenReason::none ? (analyses[i].*pick).value_or(1) : 1);
  std::vector<std::optional<stats::HolmItem>> result(family.size());
  if (p.empty()) return result;
  const auto items = stats::holm(p, alpha);
  if (!items) return tl::unexpected(items.error());
  std::size_t next = 0;
  for (std::size_t i = 0; i < family.size(); ++i)
    if (family[i].deciding) result[i] = (*items)[next++];
  return result;
}

bool every_lot_inside(const Analysis& analysis) {
  return std::all_of(analysis.lots.begin(), analysis.lots.end(),
                     [&](const Part& lot) { return std::abs(lot.shrunken) < analysis.margin.value(); });
}

/// Tested in the order Depends, Held, Moved, Open.
void choose_word(const Analysis& analysis, const stats::HolmItem& moved, const stats::HolmItem& held,
                 Decision& result) {
  result.moved_passed = moved.passed;
  if (analysis.blocked != OpenReason::none) {
    result.word = Word::open;
    result.reason = analysis.blocked;
  } else if (analysis.unlike_lots.shown || analysis.unlike_assessors.shown) {
    result.word = Word::depends;
  } else if (held.passed && every_lot_inside(analysis)) {
    result.word = Word::held;
    result.small_real_shift = moved.passed;
  } else if (moved.passed) {
    result.word = Word::moved;
  } else {
    result.word = Word::open;
    result.reason = OpenReason::not_shown;
  }
}

/// The alpha of the interval that goes with a word, so that the picture never contradicts it.
double drawn_alpha(Word word, double moved_level, double held_level) {
  switch (word) {
    case Word::moved:
    case Word::depends:
      return moved_level;
    case Word::held:
      return 2 * held_level;
    case Word::open:
      return std::min(moved_level, 2 * held_level);
    case Word::noted:
      break;
  }
  return noted_level;
}

bool can_be_drawn(const Analysis& analysis) {
  return analysis.engine != Engine::describe && analysis.blocked != OpenReason::no_spread &&
         analysis.blocked != OpenReason::nothing_left;
}

Result<Decision> decide_one(const Analysis& analysis, const std::optional<stats::HolmItem>& moved,
                            const std::optional<stats::HolmItem>& held, std::uint64_t seed, Intervals intervals,
                            const Work& work) {
  Decision result;
  double alpha = noted_level;
  if (moved && held) {
    choose_word(analysis, *moved, *held, result);
    alpha = drawn_alpha(result.word, moved->alpha_i, held->alpha_i);
    result.moved_level = moved->alpha_i;
    result.held_level = held->alpha_i;
    if (analysis.p_moved && analysis.blocked == OpenReason::none) result.moved_adjusted = moved->adjusted;
    if (analysis.p_held && analysis.blocked == OpenReason::none) result.held_adjusted = held->adjusted;
  } else {
    result.reason = analysis.blocked;
  }
  if (intervals == Intervals::left_out || !can_be_drawn(analysis)) return result;
  auto drawn = draw(analysis, analysis.engine, alpha, seed, work);
  if (!drawn) return tl::unexpected(drawn.error());
  result.drawn = *drawn;
  result.enough_to_matter = result.word == Word::moved && result.drawn && result.drawn->beyond_margin;
  return result;
}

struct Round {
  std::vector<Analysis> analyses;
  std::vector<Decision> decisions;
};

Result<Round> one_round(const std::vector<FamilyMember>& family, const FamilySettings& settings, CutOff end,
                        Intervals intervals, const Work& work, const Progress& progress) {
  Round round;
  AnalysisSettings each{family_level(family, settings), settings.policy == EnginePolicy::automatic, true,
                        settings.shuffle_seed, settings.only_engine};
  for (const auto& member : family) {
    if (work.stop.stop_requested()) return fail(ErrorKind::cancelled);
    each.ask_parts = member.deciding;
    each.level = member.deciding ? family_level(family, settings) : noted_level;
    const auto& source = end == CutOff::high_end && member.other_end ? *member.other_end : member.differences;
    auto analysis = analyse(source, grid_units(source.scale), member.margin, each, work);
    if (!analysis) return tl::unexpected(analysis.error());
    round.analyses.push_back(std::move(*analysis));
    if (progress) progress(static_cast<double>(round.analyses.size()) / static_cast<double>(family.size()));
  }
  const auto moved = family_of(family, round.analyses, &Analysis::p_moved, settings.alpha);
  if (!moved) return tl::unexpected(moved.error());
  const auto held = family_of(family, round.analyses, &Analysis::p_held, settings.alpha);
  if (!held) return tl::unexpected(held.error());
  for (std::size_t i = 0; i < family.size(); ++i) {
    auto decision = decide_one(round.analyses[i], (*moved)[i], (*held)[i], settings.shuffle_seed, intervals, work);
    if (!decision) return tl::unexpected(decision.error());
    round.decisions.push_back(*decision);
  }
  return round;
}

bool same_sign(double a, double b) {
  return (a > 0) == (b > 0) && (a < 0) == (b < 0);
}

/// One word over both ends of the cut-off finish times; the interval covers both, so that no end looks settled that is
/// not.
Decision over_both_ends(const Decision& low, const Decision& high, double estimate_low, double estimate_high) {
  Decision result = low;
  const bool alike = low.word == high.word && (low.word != Word::moved || same_sign(estimate_low, estimate_high));
  if (!alike) {
    result.word = Word::open;
    result.reason = OpenReason::cut_off;
  }
  result.moved_passed = low.moved_passed && high.moved_passed;
  result.enough_to_matter = alike && low.enough_to_matter && high.enough_to_matter;
  result.small_real_shift = alike && low.small_real_shift && high.small_real_shift;
  if (low.drawn && high.drawn) {
    auto& shown = result.drawn->interval;
    shown.low = std::min(shown.low, high.drawn->interval.low);
    shown.high = std::max(shown.high, high.drawn->interval.high);
    shown.level = std::max(shown.level, high.drawn->interval.level);
  }
  return result;
}

}  // namespace

double family_level(const std::vector<FamilyMember>& family, const FamilySettings& settings) {
  const auto deciding = std::count_if(family.begin(), family.end(), [](const auto& member) { return member.deciding; });
  return settings.alpha / static_cast<double>(std::max<std::ptrdiff_t>(1, deciding));
}

Result<std::vector<Judged>> decide(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                   Intervals intervals, const Work& work, const Progress& progress) {
  auto low = one_round(family, settings, CutOff::low_end, intervals, work, progress);
  if (!low) return tl::unexpected(low.error());
  const bool both_ends =
      std::any_of(family.begin(), family.end(), [](const auto& m) { return m.other_end.has_value(); });
  if (both_ends) {
    // All at one end, then all at the other: Holm can carry the difference over to attributes without a cut-off time.
    const auto high = one_round(family, settings, CutOff::high_end, intervals, work, {});
    if (!high) return tl::unexpected(high.error());
    for (std::size_t i = 0; i < family.size(); ++i)
      low->decisions[i] =
          over_both_ends(low->decisions[i], high->decisions[i], low->analyses[i].estimate, high->analyses[i].estimate);
  }
  std::vector<Judged> result;
  for (std::size_t i = 0; i < family.size(); ++i) result.push_back({std::move(low->analyses[i]), low->decisions[i]});
  return result;
}

}  // namespace likeleaf::evidence
