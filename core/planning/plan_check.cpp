#include "core/planning/plan_check.h"

#include "core/base/number_text.h"
#include "core/planning/one_variable.h"
#include "core/planning/plan_notes.h"

namespace likeleaf {
namespace plan_check {

std::string Given::lot_text(IdOf<Lot> id) const {
  const Lot* lot = find_record(registers.lots, id);
  if (lot && !lot->code.empty()) return lot->code;
  return id.empty() ? "no lot chosen" : id.text();
}

std::string Given::person_text(IdOf<Assessor> id) const {
  const Assessor* person = find_record(registers.assessors, id);
  if (person && !person->alias.empty()) return person->alias;
  return id.empty() ? "nobody chosen" : id.text();
}

}  // namespace plan_check

std::vector<PlanNote> check(const Plan& plan, const Registers& registers, const std::vector<Attribute>& attributes) {
  const plan_check::Given given{plan, registers, attributes};
  plan_check::Notes notes;
  if (plan.question.find_first_not_of(" \t\r\n") == std::string::npos)
    notes.block(ErrorKind::missing, "question", "", "the one thing that this trial asks");
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
  for (const auto& problem : one_variable(plan).problems) notes.caution("one variable", problem, "the lever alone");
  return std::move(notes).all();
}

}  // namespace likeleaf
