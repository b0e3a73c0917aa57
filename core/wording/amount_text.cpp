#include "core/wording/amount_text.h"

#include "core/base/number_text.h"

namespace likeleaf::wording {

std::string amount_text(ConstantKind kind, std::int64_t value, const Style& style) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return mass_text(Mass(value), style);
    case ConstantKind::water_temperature:
    case ConstantKind::tasting_temperature:
      return temperature_text(Temperature(value), style);
    default:
      return duration_text(Duration(value), style);
  }
}

std::string difference_text(ConstantKind kind, std::int64_t value, const Style& style) {
  if (kind == ConstantKind::water_temperature || kind == ConstantKind::tasting_temperature)
    return step_text(TemperatureStep(value), style);
  return amount_text(kind, value, style);
}

std::string tolerance_text(ConstantKind kind, std::int64_t tolerance, const Style& style) {
  return "±" + difference_text(kind, tolerance, style);
}

std::string held_text(ConstantKind kind, std::int64_t target, std::optional<std::int64_t> tolerance,
                      const Style& style) {
  std::string out = amount_text(kind, target, style);
  if (tolerance && *tolerance > 0) out += " ± " + difference_text(kind, *tolerance, style);
  return out;
}

}  // namespace likeleaf::wording
