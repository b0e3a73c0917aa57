#pragma once
// What went past its tolerance while brewing and serving.
#include <string>
#include <vector>

#include "core/domain/trial.h"
#include "core/domain/unmask.h"

namespace likeleaf {

struct Drift {
  IdOf<Brew> brew;               ///< empty for a pair's first-sip mismatch
  std::optional<IdOf<Pair>> pair;
  IdOf<Lot> lot;
  int set = 0;                   ///< brew pair of the lot
  std::optional<std::size_t> level;
  int brew_number = 0;
  ConstantKind what = ConstantKind::steep_time;
  std::int64_t planned = 0, actual = 0, tolerance = 0;  ///< in the constant's unit; for a pair: °C between the cups
  /// How far past the tolerance, with sign.
  [[nodiscard]] std::int64_t past() const;
};

/// Keyed: names levels. For the preparer's view and, after unmask, for Findings. Warm-up brews are left out.
std::vector<Drift> drifts(const Trial& trial);

/// The one-variable check as brewed: alignment of chill path, pour order, liquor age, … with the level.
OneVariable one_variable_as_brewed(const Trial& trial);

}  // namespace likeleaf
