#pragma once
// Brews and plans for the bench, made as short as they can be.
#include <utility>
#include <vector>

#include "core/domain/brew.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf::test {

/// Both clocks agree; second 0 is 1000 s after the boot.
inline Moment at(std::int64_t second) {
  return Moment{second * 1000, 60, (1000 + second) * 1000};
}

inline Brew brew_of(int number, std::size_t level = 0) {
  Brew brew;
  brew.id = id_of<Brew>(static_cast<std::uint64_t>(number) + 400);
  brew.number = number;
  brew.level = level;
  return brew;
}

inline Brew& stamp(Brew& brew, StampKind kind, std::int64_t second, int infusion = 1) {
  brew.stamps.push_back(Stamp{kind, infusion, at(second), {}});
  return brew;
}

/// An infusion from its pour to its last drop.
inline Brew& infuse(Brew& brew, std::int64_t from, int infusion = 1) {
  stamp(brew, StampKind::pour_start, from, infusion);
  stamp(brew, StampKind::pour_end, from + 10, infusion);
  stamp(brew, StampKind::drain_start, from + 40, infusion);
  return stamp(brew, StampKind::drain_end, from + 60, infusion);
}

/// Two infusions of one leaf, 60 °C for 60 s and 90 °C for 30 s, against one of what is held.
inline Plan two_infusions() {
  Plan plan = FerryPier().trial_14();
  plan.lever = Lever{LeverKind::brew_schedule, {}, {Level{"twice", {}, {}, true}, Level{"once", {}, {}, false}}};
  plan.lever.levels[0].schedule = {{celsius(60), seconds(60), grams(100)}, {celsius(90), seconds(30), grams(150)}};
  plan.constants.push_back(FerryPier::number(ConstantKind::water_temperature, 85'000, 1000));
  return plan;
}

}  // namespace likeleaf::test
