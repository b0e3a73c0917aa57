#pragma once
// The parts that find() puts together. Private to core/evidence.
#include <optional>
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/base/result.h"
#include "core/evidence/verdict.h"
#include "core/evidence/work.h"
#include "core/findings/findings.h"

namespace likeleaf::evidence {

/// Direct answers of the comparing sip, through the same engine as the scores; nothing when nobody answered.
Result<std::optional<DirectAnswers>> direct_answers(const Unmasked& unmasked, const Attribute& attribute,
                                                    Contrast contrast, const FamilySettings& settings, double level,
                                                    const Work& work);

std::vector<BlankControl> blank_controls(const Unmasked& unmasked);
std::vector<YardstickControl> yardstick_controls(const Unmasked& unmasked);
std::vector<RepeatControl> repeat_controls(const Unmasked& unmasked);

/// Nothing when the plan has no rule.
std::optional<RuleOutcome> rule_outcome(const SealedPlan& sealed, const std::vector<AttributeFinding>& attributes);

Guesses guesses(const Unmasked& unmasked);
std::vector<WordCount> word_counts(const Unmasked& unmasked, const std::vector<Contrast>& contrasts);
/// Sheets, exclusions, amendments, voids, lots, assessors, brew pairs, tasted pairs.
void fill_counts(const Unmasked& unmasked, Findings& findings);

/// Lot code as sealed; the id text when the record is not there.
std::string lot_code(const SealedPlan& sealed, IdOf<Lot> lot);

}  // namespace likeleaf::evidence
