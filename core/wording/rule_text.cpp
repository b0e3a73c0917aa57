#include "core/wording/rule_text.h"

#include <fmt/format.h>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/wording/phrases.h"

namespace likeleaf::wording {

namespace {

using Met = evidence::ClauseOutcome::Met;

std::string clause_text(const RuleClause& clause, const SealedPlan& plan, const Style& style) {
  const auto* attribute = find_attribute(plan.attributes, clause.attribute);
  const std::string name = attribute ? lower_first(attribute->name) : clause.attribute;
  if (clause.way == RuleClause::Way::holds) return name + " holds";
  const std::string verb = clause.way == RuleClause::Way::falls ? "falls" : "rises";
  if (attribute && attribute->scale == Scale::seconds)
    return fmt::format("{} {} by a factor of {} or more", name, verb,
                       number_text(static_cast<double>(clause.by) / 1000, 2, style));
  const double by = static_cast<double>(clause.by) / 2;
  return fmt::format("{} {} by {} or more", name, verb, number_text(by, clause.by % 2 == 0 ? 0 : 1, style));
}

}  // namespace

std::string rule_sentence(const IfThenRule& rule, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> clauses;
  for (const auto& clause : rule.clauses) clauses.push_back(clause_text(clause, plan, style));
  return fmt::format("If {}, {}.", listed(clauses), rule.action);
}

std::string rule_outcome(const evidence::RuleOutcome& outcome, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> failing, unsaid;
  for (const auto& c : outcome.clauses) {
    if (c.met == Met::not_met) failing.push_back(clause_text(c.clause, plan, style));
    if (c.met == Met::cannot_say) unsaid.push_back(clause_text(c.clause, plan, style));
  }
  std::string out;
  switch (outcome.met) {
    case Met::met:
      out = "Met.";
      break;
    case Met::not_met:
      out = fmt::format("Not met: “{}” is not what we found.", listed(failing));
      break;
    case Met::cannot_say:
      out = fmt::format("Cannot say: “{}” is not settled.", listed(unsaid));
      break;
  }
  std::string leaves, last;
  for (const auto& leaf : outcome.leaves) {
    const auto* attribute = find_attribute(plan.attributes, leaf.attribute);
    const bool log_scale = attribute && attribute->scale == Scale::seconds;
    const std::string name = lower_first(name_of(plan, leaf.attribute));
    const std::string said =
        log_scale ? fmt::format("{} ×{}", name, ratio(leaf.estimate, style))
                  : fmt::format("{} {} {}", name, points(leaf.estimate, style), leaf.estimate < 0 ? "less" : "more");
    leaves += leaf.lot == last ? ", " + said : (last.empty() ? "" : "; ") + leaf.lot + " itself: " + said;
    last = leaf.lot;
  }
  if (!leaves.empty()) out += " (" + leaves + ")";
  return out;
}

}  // namespace likeleaf::wording
