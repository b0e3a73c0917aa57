#pragma once
// What went past its tolerance while brewing and serving.
#include <string>
#include <vector>

#include "core/domain/trial.h"
#include "core/domain/unmask.h"

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

/// What is taken where a plan gives a target and no tolerance (house conventions): ±2 °C, ±3 s, ±0.1 g of leaf (as
/// ISO 3103 allows its large pot), ±2 g of water; 0 for what has no number or is a limit.
std::int64_t default_tolerance(ConstantKind kind);
/// Cups of one pair may differ by so much at first sip (methods.md 5): 1 °C, in milli-°C.
inline constexpr std::int64_t first_sip_limit = 1000;

/// Keyed: names levels. For the preparer's view and, after unmask, for Findings. Warm-up brews are left out.
std::vector<Drift> drifts(const Trial& trial);

/// The one-variable check as brewed: alignment of chill path, pour order, liquor age, … with the level.
OneVariable one_variable_as_brewed(const Trial& trial);

}  // namespace likeleaf
