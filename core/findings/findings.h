#pragma once
// The whole answer of one unmasked trial, as values. core/evidence finds it, core/wording says it; it is worked out
// each time, never stored.
#include <optional>
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/findings/attribute_finding.h"
#include "core/findings/controls.h"
#include "core/planning/one_variable.h"

namespace likeleaf::evidence {

struct ClauseOutcome {
  RuleClause clause;
  enum class Met { met, not_met, cannot_say } met = Met::cannot_say;
};
struct RuleOutcome {
  std::vector<ClauseOutcome> clauses;
  ClauseOutcome::Met met = ClauseOutcome::Met::cannot_say;  ///< met: all met; not met: any not met
  struct LeafLine {
    std::string lot, attribute;
    double estimate;
  };  ///< change from the present way
  std::vector<LeafLine> leaves;
};

struct Guesses {
  int sheets = 0, saw_difference = 0, guessed = 0, right = 0;
  std::optional<double> p;          ///< one-sided exact binomial, right guesses against chance
  bool possibly_unblinded = false;  ///< p ≤ 0.05
};

struct WordCount {
  std::string word, band;
  int a_cups = 0, b_cups = 0, pairs = 0;
  Contrast contrast{};  ///< whose cups they are
};

struct Findings {
  std::vector<Contrast> contrasts;
  /// For each contrast: deciding attributes in the order Moved, Held, Depends, Open (ties in the plan's order), then
  /// also noted.
  std::vector<AttributeFinding> attributes;
  int brew_pairs = 0;    ///< of contrast pairs that have sheets, over all lots
  int tasted_pairs = 0;  ///< contrast sheets that count
  int lots = 0, assessors = 0;
  std::vector<std::string> lot_codes, assessor_aliases;
  std::optional<Temperature> tasting_temperature;
  std::optional<RuleOutcome> rule;
  std::vector<BlankControl> blanks;
  std::vector<YardstickControl> yardsticks;
  std::vector<RepeatControl> repeats;
  std::optional<double> lean;  ///< mean over the 0-10 attributes of first − second
  std::vector<DriftEffect> drifts;
  OneVariable one_variable;  ///< as brewed
  Guesses guesses;
  std::vector<WordCount> words;
  int sheets = 0, counted_sheets = 0, excluded_before = 0, excluded_after = 0, amended = 0, voided = 0;
  int could_not_judge = 0;
  bool self_blinded = false, paper_import = false;
};

}  // namespace likeleaf::evidence
