#pragma once
// The rule "if … then at the counter we …" as written, and how it came out.
#include <string>

#include "core/base/style.h"
#include "core/domain/trial.h"
#include "core/findings/findings.h"

namespace likeleaf::wording {

/// The rule as written, e.g. "If bitterness falls by 1 or more and body holds, L-12 goes to 68 °C at the counter."
std::string rule_sentence(const IfThenRule& rule, const SealedPlan& plan, const Style& style);
/// "Met.", "Not met: …", "Cannot say: …".
std::string rule_outcome(const evidence::RuleOutcome& outcome, const SealedPlan& plan, const Style& style);

}  // namespace likeleaf::wording
