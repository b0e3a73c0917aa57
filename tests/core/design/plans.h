#pragma once
// Plans for the design tests: the demo's trial 14, and any plan that a deal has to cope with.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "core/base/entropy.h"
#include "core/design/deal.h"
#include "core/planning/needs.h"

namespace likeleaf::design::test {

/// The n-th id of a kind, the same in every run.
template <class Record>
IdOf<Record> id_of(std::uint64_t n) {
  FixedEntropy entropy(1000 + n);
  return IdOf<Record>::make(entropy);
}

inline std::array<std::uint8_t, 32> seed_of(std::uint64_t n) {
  std::array<std::uint8_t, 32> seed{};
  FixedEntropy(n).fill(seed);
  return seed;
}

/// Lots 0, 1, 2 … of a water-temperature plan; `levels` settings from 88 °C, as now, downwards; tasters 0, 1, 2 ….
inline Plan plan_of(std::size_t lots, int brew_pairs, std::size_t tasters, std::size_t levels = 2) {
  Plan plan;
  plan.id = id_of<Trial>(1);
  plan.lever.kind = LeverKind::water_temperature;
  for (std::size_t i = 0; i < levels; ++i) {
    Level level;
    level.value = 88000 - static_cast<std::int64_t>(i) * 20000;
    level.present_way = i == 0;
    plan.lever.levels.push_back(level);
  }
  for (std::size_t i = 0; i < lots; ++i) plan.lots.push_back(id_of<Lot>(i));
  for (std::size_t i = 0; i < tasters; ++i) plan.assessors.push_back({id_of<Assessor>(i), Role::taster});
  plan.assessors.push_back({id_of<Assessor>(90), Role::preparer});
  plan.warm_up_lot = id_of<Lot>(50);
  plan.brew_pairs = brew_pairs;
  return plan;
}

/// Trial 14 of the demo: three leaves, three brew pairs each, four tasters, a control in each of three sittings.
inline Plan trial_14() {
  Plan plan = plan_of(3, 3, 4);
  plan.controls = {{ControlKind::blank, plan.lots[2], 0, 1, Permille(120)},
                   {ControlKind::yardstick, plan.lots[1], 0, 2, Permille(120)},
                   {ControlKind::blank, plan.lots[0], 1, 3, Permille(120)}};
  return plan;
}

inline Deal dealt(const Plan& plan, std::uint64_t seed = 7) {
  FixedEntropy ids(seed + 1);
  auto result = deal(plan, seed_of(seed), seed_of(seed + 2), ids);
  EXPECT_TRUE(result.has_value()) << (result ? "" : result.error().field + ": " + result.error().value);
  return result ? *result : Deal{};
}

/// Any plan of 1 to 6 lots, 1 to 5 brew pairs, 1 to 8 tasters, 2 to 4 levels, 0 to 4 controls, served in any way.
inline rc::Gen<Plan> any_plan() {
  return rc::gen::exec([] {
    Plan plan = plan_of(*rc::gen::inRange<std::size_t>(1, 7), *rc::gen::inRange(1, 6),
                        *rc::gen::inRange<std::size_t>(1, 9), *rc::gen::inRange<std::size_t>(2, 5));
    const auto present = *rc::gen::inRange<std::size_t>(0, plan.lever.levels.size());
    for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) plan.lever.levels[i].present_way = i == present;
    plan.serving_way = *rc::gen::element(ServingWay::holding_bath, ServingWay::same_moment, ServingWay::own_brews);
    plan.pairs_per_sitting = *rc::gen::inRange(1, 7);
    if (*rc::gen::inRange(0, 4) == 0) plan.warm_up_lot = {};
    const auto sittings = static_cast<int>(sitting_shapes(plan).size());
    const int controls = *rc::gen::inRange(0, 5);
    for (int i = 0; i < controls; ++i)
      plan.controls.push_back({*rc::gen::element(ControlKind::blank, ControlKind::yardstick, ControlKind::repeat),
                               *rc::gen::elementOf(plan.lots),
                               *rc::gen::inRange<std::size_t>(0, plan.lever.levels.size()),
                               *rc::gen::inRange(1, sittings + 1), Permille(120)});
    return plan;
  });
}

/// The deal of any plan; a repeat serving that its sitting cannot hold is the only reason for a refusal that any_plan()
/// can give beside codes that run out.
inline std::optional<Deal> deal_or_refusal(const Plan& plan, std::uint64_t seed) {
  FixedEntropy ids(seed + 1);
  auto result = deal(plan, seed_of(seed), seed_of(seed + 2), ids);
  if (result) return std::move(*result);
  const std::string field = result.error().field;
  RC_ASSERT(field == "repeat serving" || field == "blind codes");
  return std::nullopt;
}

inline const KeyPair& key_pair(const Deal& deal, IdOf<Pair> id) {
  for (const auto& pair : deal.key.pairs)
    if (pair.id == id) return pair;
  throw std::logic_error("a serving of a pair that the key does not know");
}

inline const PlannedBrew& brew_of(const Deal& deal, IdOf<Brew> id) {
  for (const auto& brew : deal.key.brews)
    if (brew.id == id) return brew;
  throw std::logic_error("a cup of a brew that the key does not know");
}

}  // namespace likeleaf::design::test
