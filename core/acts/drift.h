#pragma once
// What went past its tolerance while brewing and serving.
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/domain/asked.h"
#include "core/domain/trial.h"

namespace likeleaf {

struct Drift {
  IdOf<Brew> brew;  ///< empty for a pair's first-sip mismatch
  std::optional<IdOf<Pair>> pair;
  IdOf<Lot> lot;
  int set = 0;  ///< brew pair of the lot
  std::optional<std::size_t> level;
  int brew_number = 0;
  ConstantKind what = ConstantKind::steep_time;
  /// In the constant's unit. For a pair's first sip: milli-°C between its cups with planned 0 and the hard limit as
  /// tolerance, or the cup that is further off with the tasting temperature as planned. Chilling: 1 for another way.
  std::int64_t planned = 0, actual = 0, tolerance = 0;
  /// How far past the tolerance, with sign.
  [[nodiscard]] std::int64_t past() const;
};

/// Cups of one pair may differ by so much at first sip (methods.md 5): 1 °C, in milli-°C.
inline constexpr std::int64_t first_sip_limit = 1000;

/// Keyed: names levels. For the preparer's view and, after unmask, for Findings. Warm-up brews are left out.
std::vector<Drift> drifts(const Trial& trial);
/// Those of one sitting's brews and pairs.
std::vector<Drift> drifts(const Trial& trial, int sitting);

}  // namespace likeleaf
