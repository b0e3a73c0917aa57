#include "core/evidence/verdict.h"

#include <algorithm>
#include <cmath>

#include "core/evidence/decide.h"
#include "core/stats/describe.h"
#include "core/stats/next_pairs.h"

namespace likeleaf::evidence {
namespace {

int whole_pairs(const Analysis& analysis) {
  int halves = 0;
  for (const auto& pair : analysis.tasted) halves += pair.halves;
  return (halves + 1) / 2;
}

void fill_numbers(const Analysis& analysis, const Differences& differences, AttributeFinding& finding) {
  finding.margin = analysis.margin.value();
  finding.brew_pairs = static_cast<int>(analysis.brew_pairs());
  finding.tasted_pairs = whole_pairs(analysis);
  finding.both_orders = analysis.pairs.both_orders;
  finding.estimate = analysis.estimate;
  finding.engine = analysis.engine;
  finding.method = analysis.method;
  finding.p_moved = analysis.p_moved;
  finding.p_held = analysis.p_held;
  finding.missing = differences.missing;
  finding.cut_off = differences.cut_off;
  finding.out_of_range_share = analysis.out_of_range_share;
  finding.lots = analysis.unlike_lots;
  finding.assessors = analysis.unlike_assessors;
  if (analysis.blocked == OpenReason::no_spread) finding.p_moved = finding.p_held = std::nullopt;
  if (analysis.empty()) return;
  if (analysis.fit.state == stats::TState::fitted) {
    finding.se = analysis.fit.se;
    if (analysis.engine == Engine::t) finding.df = analysis.fit.df;
  }
  const auto spread = stats::describe(analysis.pairs.values.d, analysis.pairs.values.d_den);
  if (spread) finding.sd_brew_pairs = spread->sd;
}

void fill_decision(const Decision& decision, const FamilyMember& member, AttributeFinding& finding) {
  finding.deciding = member.deciding;
  finding.word = decision.word;
  finding.open_reason = decision.reason;
  finding.enough_to_matter = decision.enough_to_matter;
  finding.small_real_shift = decision.small_real_shift;
  finding.sensitivity_shown = decision.word == Word::held && (member.sensitivity_by_yardstick || decision.moved_passed);
  finding.p_moved_holm = decision.moved_adjusted;
  finding.alpha_moved = decision.moved_level;
  finding.p_held_holm = decision.held_adjusted;
  finding.alpha_held = decision.held_level;
  if (decision.drawn) finding.interval = decision.drawn->interval;
}

Result<void> fill_interval_95(const Analysis& analysis, const FamilySettings& settings, const Work& work,
                              bool both_ends, AttributeFinding& finding) {
  if (!finding.interval) return {};
  constexpr double alpha = 0.05;
  if (!both_ends && std::abs(finding.interval->level - (1 - alpha)) < 1e-12) {
    finding.interval_95 = finding.interval;
    return {};
  }
  const auto drawn = draw(analysis, analysis.engine, alpha, settings.shuffle_seed, work);
  if (!drawn) return tl::unexpected(drawn.error());
  if (*drawn) finding.interval_95 = (*drawn)->interval;
  return {};
}

/// Brew pairs in all for power 0.8, at the levels at which the attribute failed. The SD is the one that gives this
/// standard error with this number of brew pairs, so that unequal lots are allowed for.
Result<void> fill_needed(const Analysis& analysis, const Differences& differences, AttributeFinding& finding) {
  const bool wanted = finding.open_reason == OpenReason::not_shown || finding.open_reason == OpenReason::cut_off;
  if (!finding.deciding || finding.word != Word::open || !wanted) return {};
  if (!finding.se || !finding.alpha_moved || !finding.alpha_held) return {};
  const double sd = *finding.se * std::sqrt(static_cast<double>(finding.brew_pairs));
  const auto seen = stats::pairs_for_difference(analysis.estimate, sd, *finding.alpha_moved);
  if (!seen) return tl::unexpected(seen.error());
  const auto one_margin = stats::pairs_for_difference(finding.margin, sd, *finding.alpha_moved);
  if (!one_margin) return tl::unexpected(one_margin.error());
  const auto to_hold = stats::pairs_for_equivalence(0, sd, finding.margin, *finding.alpha_held);
  if (!to_hold) return tl::unexpected(to_hold.error());
  finding.pairs_if_seen = *seen;
  finding.pairs_if_margin = *one_margin;
  finding.pairs_to_hold = *to_hold;
  // Worth it as long as one of the three lies within twice the plan.
  const int twice = 2 * static_cast<int>(differences.brew_pair_lot.size());
  const auto within = [&](const std::optional<int>& needed) { return needed && *needed <= twice; };
  finding.not_worth_it = !within(*seen) && !within(*one_margin) && !within(*to_hold);
  return {};
}

Result<AttributeFinding> fill(const FamilyMember& member, const Judged& judged, const FamilySettings& settings,
                              const Work& work) {
  AttributeFinding finding;
  const auto& analysis = judged.analysis;
  fill_numbers(analysis, member.differences, finding);
  fill_decision(judged.decision, member, finding);
  const auto steps = [&]() -> Result<void> {
    if (auto done = fill_interval_95(analysis, settings, work, member.other_end.has_value(), finding); !done)
      return done;
    if (auto done = fill_needed(analysis, member.differences, finding); !done) return done;
    if (auto done = fill_lean(analysis, finding); !done) return done;
    return fill_parts(analysis, member.differences, finding);
  };
  if (const auto done = steps(); !done) return tl::unexpected(done.error());
  auto checks = annex_checks(analysis, settings.shuffle_seed, work);
  if (!checks) return tl::unexpected(checks.error());
  finding.checks = *checks;
  return finding;
}

}  // namespace

Result<std::vector<AttributeFinding>> judge(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                            std::stop_token stop, const Progress& progress) {
  Memo memo;
  return judge(family, settings, Work{std::move(stop), memo}, progress);
}

Result<std::vector<AttributeFinding>> judge(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                            const Work& work, const Progress& progress) {
  for (const auto& member : family)
    if (member.margin <= 0) return fail(ErrorKind::bad_value, "margin", std::to_string(member.margin), "above 0");
  const auto first_half = progress ? Progress([&](double share) { progress(share / 2); }) : Progress{};
  const auto judged = decide(family, settings, Intervals::drawn, work, first_half);
  if (!judged) return tl::unexpected(judged.error());
  std::vector<AttributeFinding> result;
  for (std::size_t i = 0; i < family.size(); ++i) {
    if (work.stop.stop_requested()) return fail(ErrorKind::cancelled);
    auto finding = fill(family[i], (*judged)[i], settings, work);
    if (!finding) return tl::unexpected(finding.error());
    result.push_back(std::move(*finding));
    if (progress) progress(0.5 + 0.5 * static_cast<double>(i + 1) / static_cast<double>(family.size()));
  }
  return result;
}

}  // namespace likeleaf::evidence
