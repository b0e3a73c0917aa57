#pragma once
// The keyed side: what the preparer brewed and when. Never included by a taster's screen or print.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/quantity.h"
#include "core/domain/plan.h"
#include "core/domain/serving.h"

namespace likeleaf {

enum class StampKind { pour_start, pour_end, drain_start, drain_end, chill_start, ready };

/// Append-only; undo sets undone.
struct Stamp {
  StampKind kind = StampKind::pour_start;
  int infusion = 1;  ///< 1-based
  Moment at;
  std::optional<Moment> undone;
  bool operator==(const Stamp&) const = default;
};

struct Reading {
  Moment at;
  Temperature temperature;
  std::string place;  ///< "liquor", "bath", "kettle"
  bool operator==(const Reading&) const = default;
};

/// One infusion as it really was; what is not known is absent.
struct Infusion {
  std::optional<Temperature> pour;
  std::optional<Mass> water;
  std::optional<Duration> steep;  ///< typed or imported; else it follows from the stamps
  bool operator==(const Infusion&) const = default;
};

struct Brew {
  IdOf<Brew> id;
  int number = 1;  ///< order of brewing
  IdOf<Lot> lot;
  std::size_t level = 0;
  int set = 1;  ///< brew pair (brew set) of the lot, 1-based; controls and warm-ups: 0
  int sitting = 1;
  int portion = 1;  ///< numbered portion of the lot
  std::optional<Mass> leaf;
  std::vector<Infusion> infusions;  ///< one for most brews
  std::vector<Stamp> stamps;
  std::vector<Reading> readings;
  std::optional<std::int64_t> tds_permyriad;  ///< strength, hundredths of a per cent
  std::optional<std::int64_t> ph_hundredths;
  std::string chill;  ///< when it went another way than planned
  std::string note;
  bool operator==(const Brew&) const = default;
};

/// Mid-pour to mid-drain where all four stamps are there; else the typed steep; else nothing.
std::optional<Duration> contact_time(const Brew& brew, int infusion);
/// What one infusion (1-based) really was: leaf dose (one for all infusions), water mass, water temperature or steep
/// time, in the kind's unit; nothing where it was not noted.
std::optional<std::int64_t> as_brewed(const Brew& brew, ConstantKind kind, int infusion);

/// A pair on the table: when it was served and how warm each cup was at first sip.
struct ServedPair {
  IdOf<Pair> pair;
  std::optional<Moment> served;
  std::optional<Temperature> left, right;
  bool operator==(const ServedPair&) const = default;
};

}  // namespace likeleaf
