#pragma once
// Grams, litres, brews, cups, minutes: one function that every screen and print uses.
//
// The rules, so that nobody has to count by hand:
// - A brew set is one brew of each level of one lot; each lot has as many as the plan's brew pairs say.
// - A blank takes two brews, a yardstick two brews pooled in one jug (both cups of every taster come from it, one of
//   them diluted), a warm-up two brews of its own leaf, a repeat serving none.
// - With own brews every taster brews all of that alone, so pairs, brews, leaf and water are multiplied by the tasters.
// - A brew takes the plan's leaf dose and water mass, or its level's where the lever sets them.
// - A pair takes six minutes, the middle of the five to seven of methods.md 5, the warm-up too; the open reference pair
//   before the first sitting takes ten more and two brews that are counted apart.
// Values that check() refuses count as the nearest allowed one, so that a half-typed draft still shows its needs.
#include <vector>

#include "core/base/quantity.h"
#include "core/domain/plan.h"

namespace likeleaf {

/// Brews that a control or warm-up pair takes (for each taster with own brews); a repeat serving takes none.
inline constexpr int brews_of_a_blank = 2;
inline constexpr int brews_of_a_yardstick = 2;  ///< pooled in one jug; the key names the first of them for both cups
inline constexpr int brews_of_a_warm_up = 2;
inline constexpr int brews_of_a_reference_pair = 2;
int brews_of_control(ControlKind kind);

struct LotNeed {
  IdOf<Lot> lot;
  int brews = 0;
  Mass leaf;                  ///< for those brews
  Mass open_reference_leaf;   ///< beside it, for the open reference pair
  std::optional<Mass> stock;  ///< nothing when the lot is not in the registers or no stock was entered (0)
  bool lasts = true;          ///< stock ≥ leaf + open_reference_leaf, or not known
};

struct Needs {
  std::vector<LotNeed> lots;     ///< the trial's lots in the plan's order, then leaf of controls, warm-up, open pair
  int brew_pairs = 0;            ///< of contrast pairs, over all lots (brew sets with more than two levels)
  int pairs = 0;                 ///< all pairs served, warm-ups included
  int tasted_pairs = 0;          ///< counted contrast sheets: what n will be
  int sheets = 0;                ///< all sheets, warm-ups and controls included
  int counted_sheets = 0;        ///< without warm-ups
  int brews = 0;                 ///< without the open reference pair
  int open_reference_brews = 0;  ///< 2 when a reference pair is planned
  int sittings = 0;
  int most_brews_in_a_sitting = 0;
  int most_cups_in_a_sitting = 0;  ///< for all assessors
  int cups = 0;
  Volume cup;
  Volume liquor_per_brew;        ///< what one brew has to fill
  Volume water;                  ///< for brewing
  Duration sitting_for_taster;   ///< of the longest ordinary sitting
  Duration first_sitting_extra;  ///< for the open reference pair
};

/// How the pairs of a plan fall into sittings; shared by needs() and the deal.
struct SittingShape {
  int contrast_pairs = 0, controls = 0;  ///< contrast_pairs is a multiple of the number of contrasts: sets stay whole
  bool warm_up = false;
};
/// Controls keep their sitting; brew sets go one by one to the sitting with the fewest pairs, the earlier of equals.
/// Without a number of sittings in the plan: the fewest that keep each within pairs_per_sitting (a whole set at least)
/// and reach the last control, as long as each sitting has a set.
/// Controls on sittings that do not exist are not in any shape; check() blocks them.
std::vector<SittingShape> sitting_shapes(const Plan& plan);

/// What one brew at a level pours into cups: its planned water less what the leaf keeps (2 to 4 g a gram are usual, 3
/// is taken; 1 g is 1 ml).
std::optional<Volume> liquor_of_a_brew(const Plan& plan, std::size_t level);

Needs needs(const Plan& plan, const Registers& registers);

}  // namespace likeleaf
