// Non-interference of the draw: whatever differs in the key alone leaves every byte of the open side as it was.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "core/design/deal.h"
#include "tests/core/design/plans.h"

namespace likeleaf::design {
namespace {

using test::any_plan;
using test::dealt;
using test::plan_of;
using test::trial_14;

/// Every byte of the open side as text, ids included.
std::string open_text(const Deal& deal) {
  std::string text;
  for (const auto& s : deal.servings)
    text += s.id.text() + " " + s.assessor.text() + " " + s.pair.text() + " " + std::to_string(s.sitting) + " " +
            std::to_string(s.place) + "/" + std::to_string(s.of) + " " + s.left.text() + " " + s.right.text() +
            (s.first == Side::left ? " left" : " right") + (s.instead_of ? " instead" : "") + "\n";
  for (const auto& s : deal.key.spares)
    text += s.pair.text() + " " + s.code_one.text() + " " + s.code_two.text() + "\n";
  return text;
}

void expect_only_the_key_differs(const Plan& one, const Plan& two, std::uint64_t seed = 7) {
  const Deal a = dealt(one, seed), b = dealt(two, seed);
  ASSERT_FALSE(a.servings.empty());
  EXPECT_EQ(open_text(a), open_text(b));
  EXPECT_EQ(a.servings, b.servings);
  EXPECT_NE(a.key, b.key);
}

/// Levels that swap which is b as well: the values stay in place, only the order of the two changes.
Plan with_levels_swapped(Plan plan) {
  std::reverse(plan.lever.levels.begin(), plan.lever.levels.end());
  return plan;
}

TEST(OpenSide, IsTheSameWhenLevelsAreSwapped) {
  Plan swapped = with_levels_swapped(trial_14());
  expect_only_the_key_differs(trial_14(), swapped);
}

TEST(OpenSide, IsTheSameWhenKindsOfPairAreSwapped) {
  Plan other = trial_14();
  other.controls[0].kind = ControlKind::repeat;
  other.controls[1].kind = ControlKind::blank;
  other.controls[2].kind = ControlKind::yardstick;
  expect_only_the_key_differs(trial_14(), other);
}

TEST(OpenSide, IsTheSameWhenAControlTakesTheSlotOfABrewPair) {
  // Eight brew pairs and no control against six and two controls: the same slots, other kinds of pair.
  Plan pairs = plan_of(2, 4, 3), controls = plan_of(2, 3, 3);
  controls.controls = {{ControlKind::blank, controls.lots[0], 0, 1, Permille(120)},
                       {ControlKind::repeat, controls.lots[1], 0, 2, Permille(120)}};
  for (std::uint64_t seed = 0; seed < 10; ++seed) expect_only_the_key_differs(pairs, controls, seed);
}

TEST(OpenSide, IsTheSameWhenLotsAreSwapped) {
  Plan other = trial_14();
  std::swap(other.lots[0], other.lots[2]);
  expect_only_the_key_differs(trial_14(), other);
  other = trial_14();
  other.lots[1] = test::id_of<Lot>(33);
  other.controls[1].lot = other.lots[1];
  other.warm_up_lot = test::id_of<Lot>(34);
  expect_only_the_key_differs(trial_14(), other);
}

TEST(OpenSide, IsTheSameWhenAnotherLevelIsThePresentWayAndSoTheOrderOfBrewingChanges) {
  Plan other = trial_14();
  other.lever.kind = LeverKind::vessel;  // no numbers: b is the level that is not the reference
  Plan turned = other;
  std::swap(turned.lever.levels[0].present_way, turned.lever.levels[1].present_way);
  expect_only_the_key_differs(other, turned);
}

RC_GTEST_PROP(OpenSideOfAnyPlan, KnowsNothingOfLevelsLotsAndKinds, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  Plan other = with_levels_swapped(plan);
  std::reverse(other.lots.begin(), other.lots.end());
  for (auto& control : other.controls) {
    control.kind = *rc::gen::element(ControlKind::blank, ControlKind::yardstick);
    control.lot = *rc::gen::elementOf(plan.lots);
    control.level = *rc::gen::inRange<std::size_t>(0, plan.lever.levels.size());
  }
  const auto one = test::deal_or_refusal(plan, seed);
  const auto two = test::deal_or_refusal(other, seed);
  if (!one || !two) return;
  RC_ASSERT(open_text(*one) == open_text(*two));
  RC_ASSERT(one->servings == two->servings);
}

TEST(OpenSide, ChangesWithTheSeed) {
  EXPECT_NE(open_text(dealt(trial_14(), 1)), open_text(dealt(trial_14(), 2)));
}

TEST(OpenSide, DoesNotTellSidesOfOneLevelByTheOrderOfCodesOrIds) {
  // Were codes or ids given out by level, the hot cup's code would tend to be smaller, or its pair's id to sort first.
  int smaller = 0, pairs = 0;
  for (std::uint64_t seed = 0; seed < 200; ++seed)
    for (const auto& pair : dealt(trial_14(), 100 + 3 * seed).key.pairs)
      if (pair.kind == PairKind::contrast) {
        ++pairs;
        smaller += pair.code_b < pair.code_a ? 1 : 0;
      }
  EXPECT_NEAR(smaller, pairs / 2.0, 85);  // four standard deviations of 1800 throws
}

}  // namespace
}  // namespace likeleaf::design
