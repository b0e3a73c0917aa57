#pragma once
// Holm (1979, Scandinavian Journal of Statistics 6): several deciding attributes, one error rate.
#include <span>
#include <vector>

#include "core/base/result.h"

namespace likeleaf::stats {

struct HolmItem {
  double p = 1;
  double adjusted = 1;  ///< smallest alpha at which it would pass
  int place = 1;        ///< i among the sorted p, from 1; equal p share the first place of their group
  double alpha_i =
      0;  ///< level at which it was decided: alpha/(k − i + 1); all not passed share that of the first failed
  bool passed = false;
};

/// One family (Moved and Held each call it once), items in the order given; k is the number of items, so an attribute
/// with nothing to test goes in with p = 1. Equal p that pass share the strictest level of their group, so that the
/// order in which attributes are listed changes nothing. Errors: missing when empty, bad_value for p outside [0, 1] or
/// alpha outside (0, 1).
Result<std::vector<HolmItem>> holm(std::span<const double> p, double alpha);

}  // namespace likeleaf::stats
