#pragma once
// The lever of a plan and its levels, said.
#include <string>
#include <string_view>

#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::wording {

/// "88 °C against 68 °C" (b against a).
std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style);
/// "88 °C minus 68 °C": the title of a chart of differences.
std::string difference_title(const Lever& lever, Contrast contrast, const Style& style);
/// "water temperature 88 °C (now) against 68 °C", all levels.
std::string changes_text(const Lever& lever, const Style& style);
/// A text that was kept in °C with a decimal point ("water temperature 88 °C against 68 °C"), its temperatures said in
/// the reader's unit. Other text stays as it is.
std::string in_unit(std::string_view kept, const Style& style);

}  // namespace likeleaf::wording
