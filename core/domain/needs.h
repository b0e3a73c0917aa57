#pragma once
// Grams, litres, brews, cups, minutes: one function that every screen and print uses.
#include <vector>

#include "core/base/quantity.h"
#include "core/domain/plan.h"

namespace likeleaf {

struct LotNeed {
  IdOf<Lot> lot;
  int brews = 0;
  Mass leaf;
  std::optional<Mass> stock;  ///< nothing when the lot is not in the registers
  bool lasts = true;          ///< stock ≥ leaf
};

struct Needs {
  std::vector<LotNeed> lots;      ///< the trial's lots in the plan's order, then the warm-up leaf
  int brew_pairs = 0;             ///< of contrast pairs, over all lots (brew sets with more than two levels)
  int pairs = 0;                  ///< all pairs served, warm-ups included
  int tasted_pairs = 0;           ///< counted contrast sheets: what n will be
  int sheets = 0;                 ///< all sheets, warm-ups and controls included
  int counted_sheets = 0;         ///< without warm-ups
  int brews = 0;                  ///< without the open reference pair
  int open_reference_brews = 0;   ///< 2 when a reference pair is planned
  int sittings = 0;
  int most_brews_in_a_sitting = 0;
  int most_cups_in_a_sitting = 0; ///< for all assessors
  int cups = 0;
  Volume cup;
  Volume liquor_per_brew;         ///< what one brew has to fill
  Volume water;                   ///< for brewing
  Duration sitting_for_taster;    ///< of the longest ordinary sitting
  Duration first_sitting_extra;   ///< for the open reference pair
};

/// How the pairs of a plan fall into sittings; shared by needs() and the deal.
struct SittingShape {
  int contrast_pairs = 0, controls = 0;
  bool warm_up = false;
};
std::vector<SittingShape> sitting_shapes(const Plan& plan);

Needs needs(const Plan& plan, const Registers& registers);

}  // namespace likeleaf
