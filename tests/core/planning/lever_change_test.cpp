// A plan whose lever is changed, levels from the registers, and what a new plan starts from.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/codec/builtin.h"
#include "core/codec/trial_document.h"
#include "core/domain/plan.h"
#include "core/planning/plan_check.h"
#include "core/planning/plan_starter.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf::test {
namespace {

bool says(const std::vector<PlanNote>& notes, Wrong wrong, const PlanPlace& place) {
  return std::ranges::any_of(notes, [&](const PlanNote& n) { return n.wrong == wrong && n.place == place; });
}

TEST(WithLever, WhatWasHeldBecomesThePresentLevelAndLeavesItsToleranceBehind) {
  const Plan before = starter_plan(builtin_attributes());
  const Plan after = with_lever(before, LeverKind::steep_time);
  EXPECT_EQ(after.lever.levels[0].value, 45'000);
  EXPECT_TRUE(after.lever.levels[0].present_way);
  EXPECT_FALSE(after.lever.levels[1].value);
  const auto* held = find_constant(after, ConstantKind::steep_time);
  ASSERT_NE(held, nullptr);
  EXPECT_FALSE(held->target);
  EXPECT_EQ(held->tolerance, 3'000);
}

TEST(WithLever, ThePresentLevelOfTheOldOneIsHeldFromNowOn) {
  Plan plan = FerryPier().trial_14();
  plan = with_lever(plan, LeverKind::leaf_dose);
  const auto* heat = find_constant(plan, ConstantKind::water_temperature);
  ASSERT_NE(heat, nullptr);
  EXPECT_EQ(heat->target, 88'000);
  EXPECT_EQ(plan.lever.levels[0].value, 4'000);
  for (const auto& note : check(plan, FerryPier().registers, builtin_attributes()))
    EXPECT_NE(note.wrong, Wrong::lever_held_too);
}

TEST(WithLever, ThereAndBackAgainIsWhatItWas) {
  const Plan plan = with_lever(starter_plan(builtin_attributes()), LeverKind::water);
  EXPECT_EQ(plan.lever.levels[0].label, "house water, boiled and cooled");
  EXPECT_EQ(find_constant(plan, ConstantKind::water), nullptr);
  const Plan back = with_lever(plan, LeverKind::water_temperature);
  ASSERT_NE(find_constant(back, ConstantKind::water), nullptr);
  EXPECT_EQ(find_constant(back, ConstantKind::water)->text, "house water, boiled and cooled");
  EXPECT_EQ(with_lever(back, back.lever.kind), back);
}

TEST(StarterPlan, HasTwoEmptyLevelsAndOnlyWaitsForWhatNobodyElseCanSay) {
  const Plan plan = starter_plan(builtin_attributes());
  ASSERT_EQ(plan.lever.levels.size(), 2u);
  EXPECT_TRUE(plan.lever.levels[0].present_way);
  EXPECT_FALSE(plan.lever.levels[1].present_way);
  const auto notes = check(plan, {}, builtin_attributes());
  EXPECT_TRUE(says(notes, Wrong::no_question, {PlanField::question}));
  EXPECT_TRUE(says(notes, Wrong::no_level_value, {PlanField::level, 0}));
  EXPECT_TRUE(says(notes, Wrong::no_level_value, {PlanField::level, 1}));
  EXPECT_TRUE(says(notes, Wrong::no_lots, {PlanField::lots}));
  EXPECT_TRUE(says(notes, Wrong::no_taster, {PlanField::assessors}));
}

class WaterTrial : public ::testing::Test {
 protected:
  FerryPier pier;
  Plan plan = pier.trial_14();
  IdOf<Water> hard = id_of<Water>(202);
  WaterTrial() {
    pier.registers.waters.push_back({hard, "spring, hard", 240, {}, {}, {}, {}});
    plan = with_lever(plan, LeverKind::water);
    plan.lever.levels = {Level{"house soft", {}, {}, true, pier.soft.text()},
                         Level{"spring", {}, {}, false, hard.text()}};
  }
};

TEST_F(WaterTrial, LevelsOfTheRegisterAreSealedWithTheirFacts) {
  for (const auto& note : check(plan, pier.registers, builtin_attributes()))
    EXPECT_NE(note.weight, PlanNote::Weight::blocks) << static_cast<int>(note.wrong);
  const auto sealed = registers_of(plan, pier.registers);
  ASSERT_EQ(sealed.waters.size(), 2u);
  EXPECT_EQ(sealed.waters[1].hardness_mg_l, 240);
}

TEST_F(WaterTrial, OneWaterUnderTwoNamesIsOneLevel) {
  plan.lever.levels[1].record = pier.soft.text();
  EXPECT_TRUE(says(check(plan, pier.registers, builtin_attributes()), Wrong::equal_levels, {PlanField::levels}));
}

TEST_F(WaterTrial, ALevelOfAWaterThatIsNotThereIsNamed) {
  plan.lever.levels[1].record = id_of<Water>(999).text();
  EXPECT_TRUE(says(check(plan, pier.registers, builtin_attributes()), Wrong::unknown_record, {PlanField::level, 1}));
}

TEST(LevelText, OfAScheduleWithoutANameAreItsInfusions) {
  const Lever lever{LeverKind::brew_schedule,
                    {},
                    {Level{{}, {}, {{celsius(60), seconds(60), grams(60)}, {celsius(90), seconds(30), grams(140)}}}}};
  EXPECT_EQ(level_text(lever, 0, Style{}), "60\u00A0°C for 60\u00A0s, then 90\u00A0°C for 30\u00A0s");
}

}  // namespace
}  // namespace likeleaf::test
