#pragma once
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/planning/plan_check.h"

namespace likeleaf::wording {

/// What the names in a note are looked up in: the plan that check() was given, with what it refers to.
struct NotedPlan {
  const Plan& plan;
  const Registers& registers;
  const std::vector<Attribute>& attributes;
};

/// A note as the error that a seal of the plan would be.
Error error_of(const PlanNote& note, const NotedPlan& of, const Style& style);
/// One sentence in the user's words and unit: field, what there is, what is allowed.
std::string sentence(const PlanNote& note, const NotedPlan& of, const Style& style);

}  // namespace likeleaf::wording
