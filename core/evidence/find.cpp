#include "core/evidence/find.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/acts/one_variable_as_brewed.h"
#include "core/evidence/cup_values.h"
#include "core/evidence/decide.h"
#include "core/evidence/find_parts.h"
#include "core/stats/describe.h"

namespace likeleaf::evidence {
namespace {

/// One attribute of one contrast while the findings are put together.
struct Item {
  const PlanAttribute* planned = nullptr;
  const Attribute* attribute = nullptr;
  Contrast contrast;
};

std::vector<Item> items_of(const SealedPlan& sealed, const std::vector<Contrast>& contrasts) {
  std::vector<Item> result;
  for (const auto& contrast : contrasts)
    for (const auto& planned : sealed.plan.attributes)
      if (const auto* attribute = find_attribute(sealed.attributes, planned.attribute))
        result.push_back({&planned, attribute, contrast});
  return result;
}

bool yardstick_noticed(const std::vector<YardstickControl>& yardsticks, const std::string& attribute) {
  return std::any_of(yardsticks.begin(), yardsticks.end(),
                     [&](const auto& y) { return y.attribute == attribute && y.noticed; });
}

std::vector<FamilyMember> family_of(const Unmasked& unmasked, const std::vector<Item>& items,
                                    const std::vector<YardstickControl>& here, const HouseRules& house) {
  std::vector<FamilyMember> result;
  for (const auto& item : items) {
    FamilyMember member;
    member.differences = differences(unmasked, *item.attribute, item.contrast, CutOff::low_end);
    if (member.differences.cut_off > 0)
      member.other_end = differences(unmasked, *item.attribute, item.contrast, CutOff::high_end);
    member.margin = grid_margin(item.attribute->scale, item.planned->margin);
    member.deciding = item.planned->deciding;
    member.sensitivity_by_yardstick =
        yardstick_noticed(here, item.attribute->id) || yardstick_noticed(house.recent_yardsticks, item.attribute->id);
    result.push_back(std::move(member));
  }
  return result;
}

FamilySettings settings_of(const SealedPlan& sealed) {
  FamilySettings settings;
  settings.alpha = static_cast<double>(sealed.plan.alpha_permille) / 1000;
  settings.policy = sealed.plan.engine;
  // From the trial's id, so that the same trial always gives the same p, on every machine.
  settings.shuffle_seed = 0;
  const auto& bytes = sealed.plan.id.bytes();
  for (std::size_t i = 0; i < 8; ++i) settings.shuffle_seed = settings.shuffle_seed << 8 | bytes[i];
  return settings;
}

void name_parts(const SealedPlan& sealed, AttributeFinding& finding) {
  std::map<std::string, std::string> names;
  for (const auto& lot : sealed.registers.lots) names[lot.id.text()] = lot.code;
  for (const auto& assessor : sealed.registers.assessors) names[assessor.id.text()] = assessor.alias;
  const auto name = [&](std::string& text) {
    if (const auto found = names.find(text); found != names.end()) text = found->second;
  };
  for (auto* parts : {&finding.by_lot, &finding.by_assessor})
    for (auto& part : *parts) name(part.name);
  for (auto* unlike : {&finding.lots, &finding.assessors})
    for (auto& text : unlike->names) name(text);
}

/// Scores as they were given, for charts and tables; and the mean (of seconds: the median) of each level.
void fill_pairs(const Unmasked& unmasked, const Item& item, AttributeFinding& finding) {
  std::vector<double> a, b;
  for (const auto& [pairing, lot, set, twin] : contrast_pairings(unmasked, item.contrast, false)) {
    TastedPair pair;
    pair.lot = lot_code(unmasked.plan(), lot);
    pair.assessor = alias_of(unmasked.plan().registers, pairing->assessor);
    pair.set = set;
    pair.b_first = pairing->b_first();
    pair.a = cup_value(cup_a(*pairing), *item.attribute);
    pair.b = cup_value(cup_b(*pairing), *item.attribute);
    if (const auto d = cup_difference(cup_a(*pairing), cup_b(*pairing), *item.attribute, CutOff::low_end)) {
      pair.d = static_cast<double>(d->d) / static_cast<double>(grid_units(item.attribute->scale));
      a.push_back(*pair.a);
      b.push_back(*pair.b);
    }
    finding.pairs.push_back(std::move(pair));
  }
  const auto middle = [&](const std::vector<double>& values) -> std::optional<double> {
    const auto d = stats::describe(values);
    if (!d) return std::nullopt;
    return item.attribute->scale == Scale::seconds ? d->median : d->mean;
  };
  finding.mean_a = middle(a);
  finding.mean_b = middle(b);
}

AttributeFinding::Outcome outcome_of(const AttributeFinding& finding) {
  using Outcome = AttributeFinding::Outcome;
  if (finding.expected == Expectation::none) return Outcome::none;
  if (finding.expected == Expectation::same) {
    if (finding.word == Word::held) return Outcome::as_expected;
    return finding.word == Word::moved ? Outcome::opposite : Outcome::not_settled;
  }
  if (finding.word != Word::moved) return Outcome::not_settled;
  return (finding.estimate > 0) == (finding.expected == Expectation::more) ? Outcome::as_expected : Outcome::opposite;
}

/// The sensitivity line: the estimate without the sheets that were excluded after unmask.
Result<std::optional<double>> late_estimate(const Unmasked& unmasked, const Item& item, const FamilyMember& member,
                                            double level, const FamilySettings& settings, const Work& work) {
  const bool any = std::any_of(unmasked.pairings().begin(), unmasked.pairings().end(), [&](const Pairing& pairing) {
    const bool part = pairing.kind == PairKind::contrast || pairing.kind == PairKind::repeat;
    return part && pairing.levels == item.contrast && pairing.excluded_after && !pairing.excluded_before;
  });
  if (!any) return std::nullopt;
  const auto without = differences(unmasked, *item.attribute, item.contrast, CutOff::low_end, true);
  const AnalysisSettings each{level, settings.policy == EnginePolicy::automatic, false, settings.shuffle_seed, {},
                              false};
  const auto analysis = analyse(without, grid_units(without.scale), member.margin, each, work);
  if (!analysis) return tl::unexpected(analysis.error());
  if (analysis->empty()) return std::nullopt;
  return analysis->estimate;
}

Result<void> complete(const Unmasked& unmasked, const Item& item, const FamilyMember& member,
                      const FamilySettings& settings, double level, const Work& work, AttributeFinding& finding) {
  finding.attribute = *item.attribute;
  finding.contrast = item.contrast;
  finding.expected = item.planned->expected;
  finding.outcome = outcome_of(finding);
  name_parts(unmasked.plan(), finding);
  fill_pairs(unmasked, item, finding);
  if (item.attribute->direct) {
    auto direct = direct_answers(unmasked, *item.attribute, item.contrast, settings, level, work);
    if (!direct) return tl::unexpected(direct.error());
    finding.direct = *direct;
  }
  const auto late = late_estimate(unmasked, item, member, level, settings, work);
  if (!late) return tl::unexpected(late.error());
  finding.estimate_with_late_exclusions = *late;
  return {};
}

/// The family as it would be without one brew pair of a lot.
std::vector<FamilyMember> without_brew_pair(const Unmasked& unmasked, const std::vector<Item>& items,
                                            const std::vector<FamilyMember>& family, IdOf<Lot> lot, int set) {
  auto result = family;
  const std::string lot_text = lot.text();
  for (std::size_t i = 0; i < items.size(); ++i) {
    // Brew pairs stand in the order of lots, then sets: its place among those of its lot follows from the sets there.
    std::vector<int> sets;
    for (const auto& pairing : unmasked.pairings())
      if (pairing.kind == PairKind::contrast && pairing.levels == items[i].contrast && pairing.lot == lot)
        sets.push_back(pairing.set);
    std::sort(sets.begin(), sets.end());
    sets.erase(std::unique(sets.begin(), sets.end()), sets.end());
    const auto place = std::find(sets.begin(), sets.end(), set);
    if (place == sets.end()) continue;
    const auto& lots = family[i].differences.lots;
    const auto lot_index = static_cast<int>(std::find(lots.begin(), lots.end(), lot_text) - lots.begin());
    const auto& of = family[i].differences.brew_pair_lot;
    const auto first = std::find(of.begin(), of.end(), lot_index) - of.begin();
    const auto brew_pair = static_cast<int>(first + (place - sets.begin()));
    const auto drop = [&](Differences& d) {
      std::erase_if(d.values, [&](const Difference& value) { return value.brew_pair == brew_pair; });
    };
    drop(result[i].differences);
    if (result[i].other_end) drop(*result[i].other_end);
  }
  return result;
}

/// Every drift past tolerance with the deciding words as they would be without its brew pair.
Result<std::vector<DriftEffect>> drift_effects(const Unmasked& unmasked, const std::vector<Item>& items,
                                               const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                               const Work& work) {
  std::vector<Item> deciding;
  std::vector<FamilyMember> members;
  for (std::size_t i = 0; i < items.size(); ++i)
    if (family[i].deciding) {
      deciding.push_back(items[i]);
      members.push_back(family[i]);
    }
  std::map<std::pair<IdOf<Lot>, int>, std::vector<DriftEffect::Without>> known;
  std::vector<DriftEffect> result;
  for (const auto& drift : drifts(unmasked.trial())) {
    DriftEffect effect{drift, lot_code(unmasked.plan(), drift.lot), {}};
    if (drift.set > 0 && !deciding.empty()) {
      auto& without = known[{drift.lot, drift.set}];
      if (without.empty()) {
        const auto judged = decide(without_brew_pair(unmasked, deciding, members, drift.lot, drift.set), settings,
                                   Intervals::left_out, work, {});
        if (!judged) return tl::unexpected(judged.error());
        for (std::size_t i = 0; i < deciding.size(); ++i)
          if ((*judged)[i].analysis.blocked != OpenReason::nothing_left)
            without.push_back({deciding[i].attribute->id, (*judged)[i].analysis.estimate, (*judged)[i].decision.word,
                               deciding[i].contrast});
      }
      effect.without = without;
      // With three levels or more, a brew takes part only in the contrasts of its own level.
      if (drift.level)
        std::erase_if(effect.without, [&](const DriftEffect::Without& w) {
          return w.contrast.a != *drift.level && w.contrast.b != *drift.level;
        });
    }
    result.push_back(std::move(effect));
  }
  return result;
}

int rank_of(const AttributeFinding& finding) {
  switch (finding.word) {
    case Word::moved:
      return 0;
    case Word::held:
      return 1;
    case Word::depends:
      return 2;
    case Word::open:
      return 3;
    case Word::noted:
      break;
  }
  return 4;
}

void put_in_order(const std::vector<Contrast>& contrasts, std::vector<AttributeFinding>& attributes) {
  const auto contrast_place = [&](const AttributeFinding& f) {
    return std::find(contrasts.begin(), contrasts.end(), f.contrast) - contrasts.begin();
  };
  std::stable_sort(attributes.begin(), attributes.end(), [&](const auto& x, const auto& y) {
    return std::pair(contrast_place(x), rank_of(x)) < std::pair(contrast_place(y), rank_of(y));
  });
}

std::optional<double> mean_lean(const std::vector<AttributeFinding>& attributes) {
  double sum = 0;
  int n = 0;
  for (const auto& finding : attributes)
    if (finding.attribute.scale == Scale::intensity && finding.lean) {
      sum += *finding.lean;
      ++n;
    }
  if (n == 0) return std::nullopt;
  return sum / n;
}

void fill_plain_facts(const Unmasked& unmasked, Findings& findings) {
  const auto& sealed = unmasked.plan();
  fill_counts(unmasked, findings);
  for (const auto& constant : sealed.plan.constants)
    if (constant.kind == ConstantKind::tasting_temperature && constant.target)
      findings.tasting_temperature = Temperature(*constant.target);
  findings.rule = rule_outcome(sealed, findings.attributes);
  findings.blanks = blank_controls(unmasked);
  findings.repeats = repeat_controls(unmasked);
  findings.lean = mean_lean(findings.attributes);
  findings.one_variable = one_variable_as_brewed(unmasked.trial());
  findings.guesses = guesses(unmasked);
  findings.words = word_counts(unmasked, findings.contrasts);
  findings.self_blinded = sealed.plan.blinding == Blinding::self;
  findings.paper_import = sealed.paper_import;
}

}  // namespace

Result<Findings> find(const Unmasked& unmasked, const HouseRules& house, std::stop_token stop,
                      const Progress& progress) {
  Memo memo;
  return find(unmasked, memo, house, std::move(stop), progress);
}

Result<Findings> find(const Unmasked& unmasked, Memo& memo, const HouseRules& house, std::stop_token stop,
                      const Progress& progress) {
  const Work work{std::move(stop), memo};
  const auto& sealed = unmasked.plan();
  Findings findings;
  findings.contrasts = contrasts(sealed.plan.lever);
  findings.yardsticks = yardstick_controls(unmasked);
  const auto items = items_of(sealed, findings.contrasts);
  const auto family = family_of(unmasked, items, findings.yardsticks, house);
  const auto settings = settings_of(sealed);
  const auto most = progress ? Progress([&](double share) { progress(0.8 * share); }) : Progress{};
  auto judged = judge(family, settings, work, most);
  if (!judged) return tl::unexpected(judged.error());
  const double level = family_level(family, settings);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const auto done = complete(unmasked, items[i], family[i], settings, level, work, (*judged)[i]);
    if (!done) return tl::unexpected(done.error());
  }
  findings.attributes = std::move(*judged);
  put_in_order(findings.contrasts, findings.attributes);
  fill_plain_facts(unmasked, findings);
  auto effects = drift_effects(unmasked, items, family, settings, work);
  if (!effects) return tl::unexpected(effects.error());
  findings.drifts = std::move(*effects);
  if (progress) progress(1);
  return findings;
}

}  // namespace likeleaf::evidence
