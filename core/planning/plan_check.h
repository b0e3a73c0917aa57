#pragma once
// What still stands in the way of a seal.
#include <vector>

#include "core/domain/plan.h"
#include "core/planning/plan_note.h"

namespace likeleaf {

/// Everything that check finds, blocks first: levels equal or fewer than two, a lot named twice, no assessors, a
/// preparer who tastes, a deciding attribute without margin, no question, a lever that is also a constant, a pair count
/// outside 1..40, stock that will not last, controls on lots or sittings that do not exist, …
std::vector<PlanNote> check(const Plan& plan, const Registers& registers, const std::vector<Attribute>& attributes);

}  // namespace likeleaf
