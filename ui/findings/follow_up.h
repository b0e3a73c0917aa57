#pragma once
#include <optional>

#include "core/base/style.h"
#include "core/domain/trial.h"

namespace likeleaf::ui {

/// The next trial with the same lots and people: this trial's plan as a new draft that follows it.
Plan follow_up(const SealedPlan& sealed);

/// The level halfway between the two of a contrast, for levers that are numbers.
struct Between {
  Plan plan;          ///< the present way against the middle
  std::string level;  ///< "78 °C"
};
std::optional<Between> between(const SealedPlan& sealed, Contrast contrast, const Style& style);

}  // namespace likeleaf::ui
