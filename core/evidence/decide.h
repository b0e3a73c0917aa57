#pragma once
// Words for a family of attributes, without the numbers that only stand beside them. Private to core/evidence.
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/evidence/analysis.h"
#include "core/evidence/verdict.h"
#include "core/evidence/work.h"

namespace likeleaf::evidence {

struct Decision {
  Word word = Word::noted;
  OpenReason reason = OpenReason::none;
  bool enough_to_matter = false, small_real_shift = false;
  bool moved_passed = false;  ///< the difference passed in its family, whatever the word
  std::optional<double> moved_adjusted, moved_level, held_adjusted, held_level;
  std::optional<Drawn> drawn;
};

struct Judged {
  Analysis analysis;  ///< cut-off finish times at their low end
  Decision decision;  ///< over both ends
};

/// Words alone are known without the intervals that go with them, but for "enough to matter".
enum class Intervals { drawn, left_out };

Result<std::vector<Judged>> decide(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                   Intervals intervals, const Work& work, const Progress& progress);

/// Level that the exact engine must be able to reach: alpha over the number of deciding attributes.
double family_level(const std::vector<FamilyMember>& family, const FamilySettings& settings);

}  // namespace likeleaf::evidence
