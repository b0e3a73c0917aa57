#include "core/domain/asked.h"

namespace likeleaf {

std::int64_t default_tolerance(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
      return 100;
    case ConstantKind::water_mass:
      return 2000;
    case ConstantKind::water_temperature:
    case ConstantKind::tasting_temperature:
      return 2000;
    case ConstantKind::steep_time:
      return 3000;
    default:
      return 0;
  }
}

}  // namespace likeleaf
