#pragma once
// From pairings to whole-number differences by brew pair: methods.md section 1. The first step of find(), apart so that
// reference data can be judged without a trial around them.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/domain/attribute.h"

namespace likeleaf::evidence {

/// One tasted pair's D on the analysis grid of its attribute.
struct Difference {
  int lot = 0;        ///< index into lots
  int brew_pair = 0;  ///< index into brew pairs
  int assessor = 0;   ///< index into assessors
  bool b_first = false;
  std::int64_t d = 0;   ///< half points, or round(1e9 ln(b/a))
  int half_weight = 2;  ///< 2; 1 for a repeat serving and its twin
};

struct Differences {
  Scale scale = Scale::intensity;
  std::vector<std::string> lots, assessors;  ///< id texts, in the plan's order
  std::vector<int> brew_pair_lot;            ///< lot index of each brew pair
  std::vector<Difference> values;
  int missing = 0;            ///< contrast sheets without a usable score
  int cut_off = 0;            ///< pairs with a cut-off finish time
  int faint = 0, strong = 0;  ///< pairs out of range at either end
};

/// Where cut-off finish times are taken to lie.
enum class CutOff { low_end, high_end };

/// The deciding set (not excluded before unmask) of one attribute and contrast.
Differences differences(const Unmasked& unmasked, const Attribute& attribute, Contrast contrast, CutOff cut_off,
                        bool drop_late_exclusions = false);

}  // namespace likeleaf::evidence
