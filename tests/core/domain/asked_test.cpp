#include "core/domain/asked.h"

#include "core/base/limits.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/core/domain/brews.h"

namespace likeleaf {
namespace {

using test::brew_of;
using test::FerryPier;
using test::stamp;
using test::two_infusions;

using Kind = ConstantKind;

TEST(Asked, IsTheLeversOwnValueAndElseWhatIsHeld) {
  const Plan plan = FerryPier().trial_14();
  EXPECT_EQ(asked(plan, Kind::water_temperature, 0, 1), (Asked{88'000, 2000})) << "the usual tolerance";
  EXPECT_EQ(asked(plan, Kind::water_temperature, 1, 1), (Asked{68'000, 2000}));
  for (const std::size_t level : {0U, 1U}) {
    EXPECT_EQ(asked(plan, Kind::steep_time, level, 1), (Asked{45'000, 3000}));
    EXPECT_EQ(asked(plan, Kind::water_mass, level, 1), (Asked{200'000, 2000}));
    EXPECT_EQ(asked(plan, Kind::leaf_dose, level, 1), (Asked{4000, 50})) << "the plan's own tolerance";
  }
  EXPECT_EQ(asked(plan, Kind::longest_hold), (Asked{600'000, 0}));
}

TEST(Asked, OfADoseIsItsLevel) {
  const Plan plan = FerryPier().trial_16();
  EXPECT_EQ(asked(plan, Kind::leaf_dose, 1, 1), (Asked{5000, 100}));
  EXPECT_EQ(planned_leaf(plan, 0), grams(3));
  EXPECT_EQ(leaf_of_every_brew(plan), std::nullopt);
  EXPECT_EQ(leaf_of_every_brew(FerryPier().trial_14()), grams(4));
}

TEST(Asked, OfAScheduleIsItsInfusionAndTheLeafIsAskedOnce) {
  const Plan plan = two_infusions();
  EXPECT_EQ(asked(plan, Kind::water_temperature, 0, 1), (Asked{60'000, 1000}));
  EXPECT_EQ(asked(plan, Kind::water_temperature, 0, 2), (Asked{90'000, 1000}));
  EXPECT_EQ(asked(plan, Kind::steep_time, 0, 2)->value, 30'000);
  EXPECT_EQ(asked(plan, Kind::water_mass, 0, 2)->value, 150'000);
  EXPECT_EQ(asked(plan, Kind::leaf_dose, 0, 2)->value, 4000);
  EXPECT_EQ(asked(plan, Kind::water_temperature, 0, 3)->value, 85'000) << "past the schedule: what is held";
  EXPECT_EQ(asked(plan, Kind::water_temperature, 1, 1)->value, 85'000) << "a level without a schedule";
  EXPECT_EQ(asked(plan, Kind::water_temperature, 7, 2)->value, 90'000) << "past the last level: the reference";
}

TEST(Asked, IsNothingWhereThePlanDoesNotSayIt) {
  Plan plan = FerryPier().trial_14();
  std::erase_if(plan.constants, [](const Constant& c) { return c.kind == Kind::steep_time; });
  EXPECT_FALSE(asked(plan, Kind::steep_time, 0, 1));
  EXPECT_EQ(planned_contact(plan, 0), Duration(0));
  EXPECT_FALSE(planned_leaf(Plan{}, 0));
  EXPECT_FALSE(planned_water(Plan{}, 0));
  EXPECT_EQ(infusion_count(Plan{}, 0), 1);
}

TEST(Asked, AToleranceAloneMayStandBesideTheLever) {
  Plan plan = FerryPier().trial_14();
  plan.constants.push_back(Constant{Kind::water_temperature, {}, {}, 500, {}, {}});
  EXPECT_EQ(asked(plan, Kind::water_temperature, 1, 1), (Asked{68'000, 500}));
}

TEST(PastTolerance, BeginsBehindTheToleranceOnBothSides) {
  const Asked steep{45'000, 3000};
  EXPECT_EQ(past_tolerance(steep, 48'000), 0);
  EXPECT_EQ(past_tolerance(steep, 48'001), 1);
  EXPECT_EQ(past_tolerance(steep, 42'000), 0);
  EXPECT_EQ(past_tolerance(steep, 41'999), -1);
  EXPECT_EQ(past_tolerance({45'000, -1}, 45'001), 1) << "a tolerance below zero is none";
  constexpr auto most = std::numeric_limits<std::int64_t>::max(), least = std::numeric_limits<std::int64_t>::min();
  EXPECT_GT(past_tolerance({least, 0}, most), 0);
  EXPECT_LT(past_tolerance({most, 0}, least), 0);
}

TEST(Infusions, AreAsManyAsThePlanFactsOrStampsSpeakOf) {
  const Plan plan = two_infusions();
  Brew brew = brew_of(1, 1);
  EXPECT_EQ(infusion_count(plan, brew), 1);
  EXPECT_EQ(infusion_count(plan, 0, brew), 2) << "at the level that the key knows";
  brew.level = 0;
  EXPECT_EQ(infusion_count(plan, brew), 2);
  brew.infusions.resize(3);
  EXPECT_EQ(infusion_count(plan, brew), 3);
  stamp(brew, StampKind::pour_start, 10, 4);
  EXPECT_EQ(infusion_count(plan, brew), 4);
  brew.stamps[0].undone = test::at(11);
  EXPECT_EQ(infusion_count(plan, brew), 3) << "an undone stamp does not count";
  stamp(brew, StampKind::pour_start, 12, 1'000'000);
  EXPECT_EQ(infusion_count(plan, brew), most_infusions);
}

TEST(Amounts, OfABrewAreThoseOfAllItsInfusions) {
  const Plan plan = two_infusions();
  EXPECT_EQ(planned_water(plan, 0), grams(250));
  EXPECT_EQ(planned_water(plan, 1), grams(200));
  EXPECT_EQ(planned_leaf(plan, 0), grams(4));
  EXPECT_EQ(planned_contact(plan, 0), seconds(90));
  EXPECT_EQ(planned_contact(plan, 1), seconds(45));
  const auto totals = totals_of(schedule_of(plan, 0));
  EXPECT_DOUBLE_EQ(totals.mean_pour, (60'000 * 100 + 90'000 * 150) / 250.0);
  EXPECT_TRUE(schedule_of(plan, 1).empty());
  EXPECT_EQ(totals_of({}).mean_pour, 0);
}

TEST(Amounts, OfAWildDraftStayWithinReason) {
  Plan plan = two_infusions();
  constexpr auto most = std::numeric_limits<std::int64_t>::max(), least = std::numeric_limits<std::int64_t>::min();
  plan.lever.levels[0].schedule = {{celsius(60), Duration(most), Mass(most)},
                                   {celsius(90), Duration(most), Mass(most)}};
  plan.lever.levels[1].schedule = {{celsius(60), Duration(least), Mass(least)}};
  plan.constants[0].target = most;
  EXPECT_EQ(planned_water(plan, 0), grams(100'000));
  EXPECT_EQ(planned_water(plan, 1), grams(0));
  EXPECT_EQ(planned_contact(plan, 0), Duration(1'000'000'000));
  EXPECT_EQ(planned_contact(plan, 1), Duration(0));
  EXPECT_EQ(planned_leaf(plan, 0), grams(100'000));
}

TEST(AsBrewed, IsWhatWasNotedOfEachInfusion) {
  Brew brew = brew_of(1);
  EXPECT_FALSE(as_brewed(brew, Kind::leaf_dose, 1));
  EXPECT_FALSE(as_brewed(brew, Kind::water_mass, 1));
  brew.leaf = grams(4);
  brew.infusions = {{celsius(60), grams(100), seconds(61)}, {{}, grams(150), {}}};
  EXPECT_EQ(as_brewed(brew, Kind::leaf_dose, 2), 4000);
  EXPECT_EQ(as_brewed(brew, Kind::water_temperature, 1), 60'000);
  EXPECT_FALSE(as_brewed(brew, Kind::water_temperature, 2));
  EXPECT_EQ(as_brewed(brew, Kind::water_mass, 2), 150'000);
  EXPECT_EQ(as_brewed(brew, Kind::steep_time, 1), 61'000);
  EXPECT_FALSE(as_brewed(brew, Kind::steep_time, 2));
  test::infuse(brew, 100, 2);
  EXPECT_EQ(as_brewed(brew, Kind::steep_time, 2), 45'000) << "mid-pour 105, mid-drain 150";
  EXPECT_FALSE(as_brewed(brew, Kind::water_mass, 3));
  EXPECT_FALSE(as_brewed(brew, Kind::water_mass, 0));
  EXPECT_FALSE(as_brewed(brew, Kind::tasting_temperature, 1));
}

}  // namespace
}  // namespace likeleaf
