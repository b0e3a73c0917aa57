#pragma once
// What still stands in the way of a seal.
#include <vector>

#include "core/base/result.h"
#include "core/domain/plan.h"

namespace likeleaf {

/// One thing that stands in the way of a seal, or a caution beside it.
struct PlanNote {
  enum class Weight { blocks, caution } weight = Weight::blocks;
  Error error;  ///< field, value, allowed
};
/// Everything that check finds, blocks first: levels equal or fewer than two, a lot named twice, no assessors, a
/// preparer who tastes, a deciding attribute without margin, no question, a lever that is also a constant, a pair count
/// outside 1..40, stock that will not last, controls on lots or sittings that do not exist, …
std::vector<PlanNote> check(const Plan& plan, const Registers& registers, const std::vector<Attribute>& attributes);

}  // namespace likeleaf
