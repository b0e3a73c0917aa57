#pragma once
// The usual cautions at the step where they matter. They defer to local codes, the vessel maker's limits and licensed
// practice, and are shown, never enforced.
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::wording {

enum class Step { pour, chill, serve, taste, hold, staff };
/// Cautions for one step of this plan; allergens of the lots are named on taste and staff.
std::vector<std::string> cautions(Step step, const Plan& plan, const std::vector<Lot>& lots, const Style& style);

}  // namespace likeleaf::wording
