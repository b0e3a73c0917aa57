#pragma once
// The verdict on a family of deciding attributes: methods.md section 2, words tested in the order Depends, Held, Moved,
// Open, Holm over the family.
#include <cstdint>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/evidence/differences.h"
#include "core/evidence/work.h"
#include "core/findings/attribute_finding.h"

namespace likeleaf::evidence {

struct FamilyMember {
  Differences differences;               ///< (low end of cut-offs for finish length)
  std::optional<Differences> other_end;  ///< the same at the other end, when anything is cut off
  std::int64_t margin = 2;               ///< on the grid
  bool deciding = true;
  bool sensitivity_by_yardstick = false;
};

struct FamilySettings {
  double alpha = 0.05;
  EnginePolicy policy = EnginePolicy::automatic;
  std::uint64_t shuffle_seed = 1;  ///< for the shuffles of assessor labels: from the trial's id, so that it repeats
  /// Exact or t whatever the rule says: for holding both engines against reference data, never for a trial.
  std::optional<Engine> only_engine{};
};

/// Unlike lots and assessors are tested where a shrunken estimate differs enough to matter; elsewhere their p stays
/// absent, since no word could hang on it. Fills numbers, word and qualifiers of each member (not attribute, contrast,
/// pairs, direct, expectation).
Result<std::vector<AttributeFinding>> judge(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                            std::stop_token stop = {}, const Progress& progress = {});
Result<std::vector<AttributeFinding>> judge(const std::vector<FamilyMember>& family, const FamilySettings& settings,
                                            const Work& work, const Progress& progress);

}  // namespace likeleaf::evidence
