#include "core/planning/plan_check.h"

#include "core/planning/one_variable.h"
#include "core/planning/plan_check_parts.h"

namespace likeleaf {

std::vector<PlanNote> check(const Plan& plan, const Registers& registers, const std::vector<Attribute>& attributes) {
  const plan_check::Given given{plan, registers, attributes};
  plan_check::Notes notes;
  if (plan.question.find_first_not_of(" \t\r\n") == std::string::npos)
    notes.block({.wrong = Wrong::no_question, .place = {PlanField::question}});
  plan_check::check_lever(given, notes);
  plan_check::check_constants(given, notes);
  plan_check::check_lots(given, notes);
  plan_check::check_people(given, notes);
  plan_check::check_attributes(given, notes);
  plan_check::check_rule(given, notes);
  plan_check::check_controls(given, notes);
  plan_check::check_sittings(given, notes);
  plan_check::check_stock(given, notes);
  plan_check::check_power(given, notes);
  for (const auto& problem : one_variable(plan).problems)
    notes.caution({.wrong = Wrong::several_variables, .place = {PlanField::one_variable}, .problem = problem});
  return std::move(notes).all();
}

}  // namespace likeleaf
