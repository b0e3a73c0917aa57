#pragma once
// Numbers of a plan and of a brew, said in the reader's unit.
#include <cstdint>
#include <optional>
#include <string>

#include "core/base/style.h"
#include "core/domain/plan.h"

namespace likeleaf::wording {

/// "4 g", "45 s", "42 °C": a number in the unit of its kind.
std::string amount_text(ConstantKind kind, std::int64_t value, const Style& style);
/// "0.05 g", "3 s", "3.6 °F": a difference of two such numbers.
std::string difference_text(ConstantKind kind, std::int64_t value, const Style& style);
/// "±0.05 g".
std::string tolerance_text(ConstantKind kind, std::int64_t tolerance, const Style& style);
/// "200 g ± 2 g"; "200 g" without a tolerance.
std::string held_text(ConstantKind kind, std::int64_t target, std::optional<std::int64_t> tolerance,
                      const Style& style);

}  // namespace likeleaf::wording
