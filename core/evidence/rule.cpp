// The if-then rule: every clause speaks of the change from the present way to the level that the house would go to.
#include <algorithm>
#include <cmath>

#include "core/evidence/cup_values.h"
#include "core/evidence/find_parts.h"

namespace likeleaf::evidence {
namespace {

using Met = ClauseOutcome::Met;

/// The finding a clause speaks of, seen in the direction of the clause: "falls" and a change from b to a both turn it
/// round, so that from here on more is always what the clause asks for.
struct Directed {
  const AttributeFinding* finding = nullptr;
  double sign = 1;  ///< of the change from the present way against b − a
};

Directed change(const SealedPlan& sealed, const std::string& attribute, const std::vector<AttributeFinding>& findings) {
  const std::size_t from = sealed.plan.lever.reference();
  const std::size_t to = sealed.plan.rule->to_level;
  for (const auto& f : findings) {
    if (f.attribute.id != attribute) continue;
    if (f.contrast.a == from && f.contrast.b == to) return {&f, 1};
    if (f.contrast.b == from && f.contrast.a == to) return {&f, -1};
  }
  return {};
}

/// In points, or ln ratio for finish length.
double clause_size(const Attribute& attribute, std::int64_t by) {
  return static_cast<double>(grid_margin(attribute.scale, by)) / static_cast<double>(grid_units(attribute.scale));
}

Met judge_clause(const RuleClause& clause, const Directed& directed) {
  if (!directed.finding) return Met::cannot_say;
  const auto& finding = *directed.finding;
  if (clause.way == RuleClause::Way::holds) {
    if (finding.word == Word::held) return Met::met;
    return finding.word == Word::moved ? Met::not_met : Met::cannot_say;
  }
  if (finding.word == Word::held) return Met::not_met;
  if (!finding.interval) return Met::cannot_say;
  const double sign = clause.way == RuleClause::Way::rises ? directed.sign : -directed.sign;
  const double low = sign > 0 ? finding.interval->low : -finding.interval->high;
  const double high = sign > 0 ? finding.interval->high : -finding.interval->low;
  const double by = clause_size(finding.attribute, clause.by);
  if (finding.word == Word::moved && sign * finding.estimate < 0) return Met::not_met;
  if (high < by) return Met::not_met;
  return finding.word == Word::moved && low > by ? Met::met : Met::cannot_say;
}

Met all_together(const std::vector<ClauseOutcome>& clauses) {
  const auto is = [](Met met) { return [met](const ClauseOutcome& c) { return c.met == met; }; };
  if (std::any_of(clauses.begin(), clauses.end(), is(Met::not_met))) return Met::not_met;
  if (!clauses.empty() && std::all_of(clauses.begin(), clauses.end(), is(Met::met))) return Met::met;
  return Met::cannot_say;
}

}  // namespace

std::optional<RuleOutcome> rule_outcome(const SealedPlan& sealed, const std::vector<AttributeFinding>& attributes) {
  const auto& rule = sealed.plan.rule;
  if (!rule) return std::nullopt;
  RuleOutcome result;
  for (const auto& clause : rule->clauses)
    result.clauses.push_back({clause, judge_clause(clause, change(sealed, clause.attribute, attributes))});
  result.met = all_together(result.clauses);
  for (const auto& leaf : rule->leaves)
    for (const auto& clause : rule->clauses) {
      const auto directed = change(sealed, clause.attribute, attributes);
      if (!directed.finding) continue;
      for (const auto& lot : directed.finding->by_lot)
        if (lot.id == leaf.text()) result.leaves.push_back({lot.name, clause.attribute, directed.sign * lot.mean});
    }
  return result;
}

}  // namespace likeleaf::evidence
