#pragma once
// The lever of a plan and its levels, said.
#include <string>

#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::wording {

/// "88 °C against 68 °C" (b against a).
std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style);
/// "88 °C minus 68 °C": the title of a chart of differences.
std::string difference_title(const Lever& lever, Contrast contrast, const Style& style);

}  // namespace likeleaf::wording
