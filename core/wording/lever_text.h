#pragma once
// What changes in a trial, and how a trial is named by it: everywhere the levels stand in the plan's own order.
#include <string>
#include <string_view>
#include <vector>

#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::wording {

/// "water temperature", or the name that the plan gives to another lever.
std::string lever_text(const Lever& lever);
/// All levels in the plan's order, the present way marked: "30 s", "45 s (now)", "60 s"; "…" for one that says nothing
/// yet.
std::vector<std::string> level_names(const Lever& lever, const Style& style, std::string_view now = " (now)");
/// "water temperature 88 °C (now) against 68 °C", "steep time 30 s, 45 s (now), 60 s".
std::string changes_text(const Lever& lever, const Style& style);

}  // namespace likeleaf::wording
