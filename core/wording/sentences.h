#pragma once
// Facts into English: pure functions over findings, the sealed plan and a Style. Short, plain, with numbers, units, n
// and uncertainty; never "significant". The question's own words are never repeated as an answer.
#include <string>
#include <string_view>
#include <vector>

#include "core/base/style.h"
#include "core/evidence/findings.h"

namespace likeleaf::wording {

/// What a reader gets of one attribute: "Bitterness: Moved, enough to matter" and the sentence under it.
struct FindingText {
  std::string title;
  std::string sentence;
};

/// "88 °C against 68 °C" (b against a).
std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style);
/// "88 °C minus 68 °C": the title of a chart of differences.
std::string difference_title(const Lever& lever, Contrast contrast, const Style& style);
/// "water temperature 88 °C (now) against 68 °C", all levels.
std::string changes_text(const Lever& lever, const Style& style);
/// A text that was kept in °C with a decimal point ("water temperature 88 °C against 68 °C"), its temperatures said in
/// the reader's unit. Other text stays as it is.
std::string in_unit(std::string_view kept, const Style& style);

/// "More bitter at 88 °C. Body holds. Sweetness is open." Deciding attributes only; with none: "Described, not
/// decided."
std::string headline(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);
/// "These 3 leaves, 9 brew pairs, 36 tasted pairs, 4 tasters, at 42 °C."
std::string scope_sentence(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);

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

/// The rule as written, e.g. "If bitterness falls by 1 or more and body holds, L-12 goes to 68 °C at the counter."
std::string rule_sentence(const IfThenRule& rule, const SealedPlan& plan, const Style& style);
/// "Met.", "Not met: …", "Cannot say: …".
std::string rule_outcome(const evidence::RuleOutcome& outcome, const SealedPlan& plan, const Style& style);

/// Why to believe it, one titled note each: blanks, yardstick, repeats, first cup, drift, what rides on the lever,
/// guesses, voids, exclusions, amendments, seal. `drift` marks those to show in amber.
struct Reason {
  std::string title, text;
  bool amber = false;
};
std::vector<Reason> reasons(const evidence::Findings& findings, const Unmasked& unmasked, const Style& style);
/// "L-12, second brew, 88 °C: steeped 50 s for 45 s, 2 s past the ±3 s allowed".
std::string drift_text(const Drift& drift, const std::string& lot, const SealedPlan& plan, const Style& style);
/// What a drift of this kind may have done to the scores; empty when nothing is known.
std::string drift_effect(const Drift& drift);

/// What we do not know, for the report.
std::vector<std::string> unknowns(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);

}  // namespace likeleaf::wording
