#pragma once
// A whole trial: the answer in a line, whom it speaks for, what stays unknown. The question's own words are never
// repeated as an answer.
#include <string>
#include <vector>

#include "core/base/style.h"
#include "core/domain/trial.h"
#include "core/findings/findings.h"

namespace likeleaf::wording {

/// "More bitter at 88 °C. Body holds. Sweetness is open." Deciding attributes only; with none: "Described, not
/// decided."
std::string headline(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);
/// "These 3 leaves, 9 brew pairs, 36 tasted pairs, 4 tasters, at 42 °C."
std::string scope_sentence(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);
/// What we do not know, for the report.
std::vector<std::string> unknowns(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);

}  // namespace likeleaf::wording
