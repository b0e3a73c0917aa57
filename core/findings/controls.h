#pragma once
// What the control pairs and the drifts of a trial say about its answer, as values; units as in attribute_finding.h.
#include <optional>
#include <string>
#include <vector>

#include "core/acts/drift.h"
#include "core/findings/attribute_finding.h"

namespace likeleaf::evidence {

struct BlankControl {
  std::string attribute;
  int sheets = 0;
  double mean_abs = 0, largest = 0;
  int at_least_margin = 0;
  Interval share;       ///< Clopper–Pearson of sheets at or above the margin
  bool too_few = true;  ///< fewer than ten blank sheets: too few to call clean
};
struct YardstickControl {
  std::string attribute, lot;
  double dilution_percent = 12;
  int sheets = 0;
  double mean = 0;                   ///< diluted minus undiluted
  std::optional<Interval> interval;  ///< 95 %, t on the sheets, one pot
  bool noticed = false;              ///< interval leaves out zero
};
struct RepeatControl {
  std::string attribute;
  int pairs = 0;
  double mean_abs = 0, largest = 0;  ///< |D − D of its twin|
};

struct DriftEffect {
  Drift drift;
  std::string lot;  ///< code
  struct Without {
    std::string attribute;
    double estimate;
    Word word;
    Contrast contrast{};
  };
  std::vector<Without> without;  ///< deciding attributes with that brew pair left out
};

}  // namespace likeleaf::evidence
