#pragma once
// From an unmasked trial to its findings: methods.md sections 1, 2 and 6.
#include <stop_token>
#include <vector>

#include "core/acts/unmask.h"
#include "core/base/result.h"
#include "core/base/task.h"
#include "core/evidence/memo.h"
#include "core/findings/findings.h"

namespace likeleaf::evidence {

/// Yardsticks of the last 90 days from the house's other trials, for the sensitivity of Held; may be empty.
struct HouseRules {
  std::vector<YardstickControl> recent_yardsticks;
};

/// On a copy, on any thread. Errors: cancelled; internal.
Result<Findings> find(const Unmasked& unmasked, const HouseRules& house = {}, std::stop_token stop = {},
                      const Progress& progress = {});
/// The same, with what the caller has had worked out before.
Result<Findings> find(const Unmasked& unmasked, Memo& memo, const HouseRules& house = {}, std::stop_token stop = {},
                      const Progress& progress = {});

}  // namespace likeleaf::evidence
