#pragma once
// What was found of one attribute, as values. Numbers are in points on the 0-10 scale, and in ln(b/a) for finish
// length.
#include <optional>
#include <string>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/plan.h"

namespace likeleaf::evidence {

enum class Engine { exact, t, describe };
enum class Word { moved, held, depends, open, noted };

/// Why an attribute is Open, or why a word is qualified; the wording says it in a sentence.
enum class OpenReason {
  none,
  not_shown,        ///< neither test passed
  nothing_left,     ///< no brew pair has a score
  too_faint,        ///< more than a third of the pairs with both cups ≤ 0.5
  too_strong,       ///< … both cups ≥ 9.5
  no_spread,        ///< every brew pair gave the same answer: look at the sheets
  cut_off,          ///< the word differs with cut-off finish times at one end or the other
  cannot_decide,    ///< too few brew pairs for either engine
  order_confounded  ///< all brew pairs were tasted in one order: describe only
};

struct Interval {
  double low = 0, high = 0;
  double level = 0.95;  ///< confidence at which it was drawn
};

/// Mean difference of one lot or one assessor.
struct PartEstimate {
  std::string id;    ///< id text of the lot or assessor
  std::string name;  ///< lot code or alias, as sealed
  int brew_pairs = 0, tasted_pairs = 0;
  double mean = 0;                   ///< of its d_g (lot) or of its D (assessor)
  double shrunken = 0;               ///< methods.md section 2
  std::optional<Interval> interval;  ///< 95 %, by t on its own values, where it has three or more
};

/// One tasted pair, for charts and tables.
struct TastedPair {
  std::string lot, assessor;  ///< code, alias
  int set = 0;
  bool b_first = false;
  std::optional<double> a, b;  ///< scores or seconds; absent when not scored
  double d = 0;                ///< points or ln ratio; only where both are there
};

struct DirectAnswers {
  int less = 0, cannot_tell = 0, more = 0;  ///< b against a
  int could_not_judge = 0;                  ///< counted with cannot_tell
  std::optional<double> p;                  ///< same engine, on −1, 0, 1
  Engine engine = Engine::describe;
  std::optional<double> tau, d_prime, p_independent;  ///< 2-AC "as if answers were independent": annex only
};

/// Decides nothing; the annex.
struct AnnexChecks {
  std::optional<double> other_engine_p;
  std::optional<Interval> other_engine_interval;
  std::optional<double> other_engine_held_p;
  std::optional<double> signed_rank_p, signed_rank_dropped_p;
  std::optional<double> hodges_lehmann;
  std::optional<Interval> hodges_lehmann_interval;
  std::optional<double> sign_test_p;
  int positive = 0, zero = 0, negative = 0;  ///< brew pairs by sign of d_g
  std::optional<Interval> share_positive;    ///< Clopper–Pearson, of the non-zero brew pairs
};

struct Attribution {  ///< sums up unlike lots or unlike assessors
  bool asked = false;
  std::optional<double> p;
  bool leaf_or_pot = false;        ///< one brew pair a lot: not told apart
  bool shown = false;              ///< p ≤ 0.05 and a shrunken estimate that differs enough
  std::vector<std::string> names;  ///< the lots or assessors that differ
};

struct AttributeFinding {
  Attribute attribute;  ///< as sealed
  Contrast contrast;
  bool deciding = false;
  double margin = 0;        ///< points, or ln ratio
  int brew_pairs = 0;       ///< G
  int tasted_pairs = 0;     ///< n
  bool both_orders = true;  ///< in every brew pair
  double estimate = 0;
  std::optional<double> se, sd_brew_pairs;
  std::optional<int> df;
  Engine engine = Engine::describe;
  std::string method;                ///< "exact flips of 9 brew pairs (512)", "t with 8 degrees of freedom", …
  std::optional<Interval> interval;  ///< drawn; at the level at which it was decided
  std::optional<Interval> interval_95;
  std::optional<double> p_moved, p_moved_holm, alpha_moved;  ///< raw, Holm-adjusted, level at its place
  std::optional<double> p_held, p_held_holm, alpha_held;

  Word word = Word::noted;
  bool enough_to_matter = false;   ///< Moved: the whole drawn interval lies beyond the margin
  bool small_real_shift = false;   ///< Held: both tests pass
  bool sensitivity_shown = false;  ///< Held: this panel has shown that it notices one margin
  OpenReason open_reason = OpenReason::none;
  std::optional<int> pairs_if_seen, pairs_if_margin, pairs_to_hold;  ///< brew pairs in all for power 0.8
  bool not_worth_it = false;                                         ///< above twice the plan

  Attribution lots, assessors;
  std::vector<PartEstimate> by_lot, by_assessor;
  std::vector<TastedPair> pairs;
  int missing = 0;  ///< sheets without a usable score here
  int cut_off = 0;  ///< finish times under 3 or over 120 among the pairs
  double out_of_range_share = 0;
  std::optional<DirectAnswers> direct;
  AnnexChecks checks;
  Expectation expected = Expectation::none;
  enum class Outcome { none, as_expected, opposite, not_settled } outcome = Outcome::none;
  std::optional<double> lean;  ///< first − second cup, points
  std::optional<Interval> lean_interval;
  std::optional<double> d_b_first, d_a_first;           ///< mean D for each order
  bool order_gap = false;                               ///< |difference of the two| above the margin
  std::optional<double> estimate_with_late_exclusions;  ///< sensitivity line
  std::optional<double> mean_a, mean_b;                 ///< mean scores (seconds: medians)
};

}  // namespace likeleaf::evidence
