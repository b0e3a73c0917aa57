#pragma once
// The one-variable check (methods.md 5): may the levels differ in the lever alone?
#include <string>
#include <vector>

#include "core/domain/plan.h"

namespace likeleaf {

/// The one-variable check (methods.md 5) on the plan: may levels differ in the lever alone? Names what rides on it.
struct RidingAlong {
  std::string what;      ///< "chill path", "pour order", "liquor age", "boiler batch", "vessel", "preparer"
  bool aligned = false;  ///< |mean of ±1 codes| > 0.5 or mean difference past tolerance
  double alignment = 0;  ///< mean of the ±1 codes, or mean difference in `unit`
  std::string unit;      ///< empty for codes
};
struct OneVariable {
  bool holds = true;                  ///< nothing but the lever differs
  std::vector<std::string> problems;  ///< what else differs, in words
  std::vector<RidingAlong> riding;
};
OneVariable one_variable(const Plan& plan);

}  // namespace likeleaf
