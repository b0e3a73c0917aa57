#pragma once
#include "core/domain/trial.h"
#include "core/planning/one_variable.h"

namespace likeleaf {

/// The one-variable check on what was brewed: alignment of chill path, pour order, liquor age, … with the level. What
/// was measured speaks instead of what was only planned for it; without a key or brews the plan speaks alone.
OneVariable one_variable_as_brewed(const Trial& trial);

}  // namespace likeleaf
