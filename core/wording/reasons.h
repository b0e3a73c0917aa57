#pragma once
// Why to believe it, a note on each thing that speaks for an answer or against it.
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/base/style.h"
#include "core/findings/findings.h"

namespace likeleaf::wording {

/// Why to believe it, one titled note each: blanks, yardstick, repeats, first cup, drift, what rides on the lever,
/// guesses, voids, exclusions, amendments, seal. `drift` marks those to show in amber.
struct Reason {
  std::string title, text;
  bool amber = false;
};
std::vector<Reason> reasons(const evidence::Findings& findings, const Unmasked& unmasked, const Style& style);

}  // namespace likeleaf::wording
