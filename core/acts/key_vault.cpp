#include "core/acts/key_vault.h"

#include <algorithm>
#include <stdexcept>

#include "core/base/number_text.h"

namespace likeleaf {
namespace {

bool has_role(const Plan& plan, IdOf<Assessor> person, Role role) {
  return std::ranges::any_of(plan.assessors, [&](const PlanAssessor& a) { return a.id == person && a.role == role; });
}

}  // namespace

Result<PreparerPass> KeyVault::reveal(const Trial& trial, IdOf<Assessor> preparer) {
  if (!trial.sealed || !trial.key)
    return fail(ErrorKind::not_allowed, "key", "not sealed", "a sealed trial: until the seal there is no key");
  const Plan& plan = trial.sealed->plan;
  const std::string who = shown_value(alias_of(trial.sealed->registers, preparer));
  if (has_role(plan, preparer, Role::taster)) {
    if (plan.blinding == Blinding::self && trial.unmasked) return PreparerPass(preparer);
    return fail(
        ErrorKind::not_allowed, "key", who,
        plan.blinding == Blinding::self ? "the key after unmasking" : "someone who prepares and does not taste");
  }
  if (!has_role(plan, preparer, Role::preparer)) return fail(ErrorKind::not_allowed, "key", who, "the plan's preparer");
  return PreparerPass(preparer);
}

const Key& KeyVault::open(const Trial& trial, const PreparerPass& pass) {
  // A pass is given for one trial's roles; using it on another trial is a mistake in the program.
  if (!reveal(trial, pass.preparer())) throw std::logic_error("a preparer's pass was used on another trial");
  return *trial.key;
}

}  // namespace likeleaf
