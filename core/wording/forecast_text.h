#pragma once
#include <string>

#include "core/base/style.h"
#include "core/planning/engine_rule.h"

namespace likeleaf::wording {

/// What a plan will be able to decide, and by which test; never the word "engine".
std::string sentence(const EngineForecast& forecast, const Style& style);

}  // namespace likeleaf::wording
