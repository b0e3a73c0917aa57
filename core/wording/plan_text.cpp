#include "core/wording/plan_text.h"

#include "core/base/number_text.h"

namespace likeleaf::wording {

std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " against " + level_text(lever, contrast.a, style);
}

std::string difference_title(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " minus " + level_text(lever, contrast.a, style);
}

}  // namespace likeleaf::wording
