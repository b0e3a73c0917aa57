#pragma once
// One attribute of a trial: its word, its size and what is still needed. Short, plain, with numbers, units, n and
// uncertainty; never "significant".
#include <string>

#include "core/base/style.h"
#include "core/domain/trial.h"
#include "core/findings/attribute_finding.h"

namespace likeleaf::wording {

/// What a reader gets of one attribute: "Bitterness: Moved, enough to matter" and the sentence under it.
struct FindingText {
  std::string title;
  std::string sentence;
};

/// "Moved, enough to matter", "Held", "Depends on the leaf", "Open", "noted".
std::string word_text(const evidence::AttributeFinding& finding);
FindingText finding_text(const evidence::AttributeFinding& finding, const SealedPlan& plan, const Style& style,
                         bool several_contrasts);
/// "1.1 to 2.7 more", "0.6 less to 0.8 more"; for finish length "1.10 to 1.42 times as long".
std::string interval_text(const evidence::AttributeFinding& finding, const evidence::Interval& interval,
                          const Style& style);
/// "+1.9" or "×1.25".
std::string estimate_text(const evidence::AttributeFinding& finding, double estimate, const Style& style);
/// "1 point", "1.5 points", "a factor of 1.25".
std::string margin_text(const evidence::AttributeFinding& finding, const Style& style);
/// "as expected", "the opposite of what was expected", "not settled"; empty when nothing was expected.
std::string outcome_text(const evidence::AttributeFinding& finding);

}  // namespace likeleaf::wording
