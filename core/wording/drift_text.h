#pragma once
// What was brewed or served otherwise than planned, and what it may have done.
#include <string>

#include "core/acts/drift.h"
#include "core/base/style.h"
#include "core/domain/trial.h"

namespace likeleaf::wording {

/// "L-12, second brew, 88 °C: steeped 50 s for 45 s, 2 s past the ±3 s allowed".
std::string drift_text(const Drift& drift, const std::string& lot, const SealedPlan& plan, const Style& style);
/// What a drift of this kind may have done to the scores; empty when nothing is known.
std::string drift_effect(const Drift& drift);

}  // namespace likeleaf::wording
