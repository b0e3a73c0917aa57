#pragma once
#include <string>

#include "core/base/style.h"
#include "core/planning/one_variable.h"

namespace likeleaf::wording {

/// "chill path", "liquor age", "leaf dose".
std::string riding_name(Riding what);
/// What besides the lever differs, as the beginning of a paragraph: "pour order: with a single brew pair one level is
/// always poured first".
std::string problem_text(const OneVariableProblem& problem, const Style& style);
/// "Liquor age goes with the level: −200.0 s on average."
std::string rides_sentence(const RidingAlong& riding, const Style& style);

}  // namespace likeleaf::wording
