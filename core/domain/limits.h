#pragma once
// Whole records against the limits of core/base/limits.h, for the doors that let in whole records: bundles, paper
// tables, commands. A record within them can be kept in a book and read back from it.
#include <string>

#include "core/base/limits.h"
#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// What a plan may ask of a constant, or of the levels of a lever that would else be held as that constant.
Range planned_range(ConstantKind kind);

// Errors: too_large or bad_value with the field, the value (shortened), what is allowed, and `where` + the place of the
// value in the record as a JSON pointer.

/// A draft may be wrong: its numbers are held to what can be typed, those of a sealed plan to what can be planned.
enum class PlanState { draft, sealed };
Result<void> within_limits(const Plan& plan, PlanState state, const std::string& where = {});
Result<void> within_limits(const Registers& registers, const std::string& where = {});
Result<void> within_limits(const Attribute& attribute, const std::string& where = {});
/// All that came after the seal: sheets, days, brews, voids, amendments, exclusions, the house's rule.
Result<void> within_limits_after_seal(const Trial& trial);

}  // namespace likeleaf
