#pragma once
// What a new plan starts from, and what stays of it when another lever is taken.
#include <vector>

#include "core/domain/plan.h"

namespace likeleaf {

/// The plan with another lever. What was held of the new lever becomes its present level and leaves only its tolerance
/// behind; the present level of the old one becomes what is held of it. Levels keep their number and tick.
Plan with_lever(Plan plan, LeverKind kind);

/// What a new trial starts from: two empty levels, the first ticked as the present way, every built-in or house
/// attribute noted, none deciding, and the usual things held. The values are common practice, no source; each can be
/// changed or taken out.
Plan starter_plan(const std::vector<Attribute>& attributes);

}  // namespace likeleaf
