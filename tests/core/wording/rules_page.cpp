// The if-then rule and what became of it.
#include "core/wording/rule_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {

Page rules_page() {
  using Way = RuleClause::Way;
  using Met = evidence::ClauseOutcome::Met;
  Page page;
  const auto of = [&](const std::string& facts, const std::string& said, const std::string& sentence) {
    page.push_back({facts, said, sentence});
  };
  const SealedPlan plan = two_temperatures();
  const RuleClause bitterness{"bitterness", Way::falls, 3}, sweetness{"sweetness", Way::rises, 2},
      body{"body", Way::holds, 0}, finish{"finish_length", Way::rises, 1250}, gone{"gone_attribute", Way::holds, 0};
  const auto rule = [&](std::vector<RuleClause> clauses, const Style& style) {
    IfThenRule out;
    out.clauses = std::move(clauses);
    out.action = "L-12 goes to 68.5 °C at the counter";
    return wording::rule_sentence(out, plan, style);
  };
  const std::string action = ", L-12 goes to 68.5 °C at the counter.";
  of("one clause", rule({bitterness}, celsius), "If bitterness falls by 1.5 or more" + action);
  of("whole points", rule({sweetness}, celsius), "If sweetness rises by 1 or more" + action);
  of("four clauses", rule({bitterness, body, finish, gone}, celsius_comma),
     "If bitterness falls by 1,5 or more, body holds, finish length rises by a factor of 1,25 or more and "
     "gone_attribute holds" +
         action);

  of("an attribute that is gone", rule({{"gone_attribute", Way::falls, 2}}, celsius),
     "If gone_attribute falls by 1 or more" + action);
  SealedPlan house = plan;
  for (auto& one : house.attributes) {
    if (one.id == "bitterness") one.name = "Äpfelbitter";
    if (one.id == "body") one.name = "10-point body";
    if (one.id == "sweetness") one.name.clear();
  }
  IfThenRule names;
  names.clauses = {{"bitterness", Way::holds, 0}, {"body", Way::holds, 0}, {"sweetness", Way::holds, 0}};
  names.action = "it goes";
  of("names of the house that begin with no letter A to Z", wording::rule_sentence(names, house, celsius),
     "If Äpfelbitter holds, 10-point body holds and  holds, it goes.");

  evidence::RuleOutcome outcome;
  outcome.clauses = {{bitterness, Met::met}, {body, Met::met}};
  outcome.met = Met::met;
  of("met", wording::rule_outcome(outcome, plan, celsius), "Met.");
  outcome.clauses = {{bitterness, Met::not_met}, {body, Met::not_met}, {sweetness, Met::cannot_say}};
  outcome.met = Met::not_met;
  of("not met", wording::rule_outcome(outcome, plan, celsius_comma),
     "Not met: “bitterness falls by 1,5 or more and body holds” is not what we found.");
  outcome.clauses = {{bitterness, Met::met}, {sweetness, Met::cannot_say}};
  outcome.met = Met::cannot_say;
  of("not settled", wording::rule_outcome(outcome, plan, celsius),
     "Cannot say: “sweetness rises by 1 or more” is not settled.");

  outcome.clauses = {{bitterness, Met::met}};
  outcome.met = Met::met;
  outcome.leaves = {{"L-12", "bitterness", -1.6},
                    {"L-12", "finish_length", std::log(1.3)},
                    {"L-19", "bitterness", 0.4},
                    {"L-19", "gone_attribute", 0}};
  of("leaves named in the action", wording::rule_outcome(outcome, plan, celsius),
     "Met. (L-12 itself: bitterness 1.6 less, finish length ×1.30; L-19 itself: bitterness 0.4 more, gone_attribute "
     "0.0 "
     "more)");
  of("leaves named in the action", wording::rule_outcome(outcome, plan, celsius_comma),
     "Met. (L-12 itself: bitterness 1,6 less, finish length ×1,30; L-19 itself: bitterness 0,4 more, gone_attribute "
     "0,0 "
     "more)");
  return page;
}

}  // namespace likeleaf::book
