// What a plan says of itself, and the ends of the scales.
#include <gtest/gtest.h>

#include "core/base/entropy.h"
#include "core/domain/plan.h"
#include "core/domain/score.h"
#include "core/domain/serving.h"

namespace likeleaf {
namespace {

Level level(std::optional<std::int64_t> value, std::string label = {}) {
  Level out;
  out.value = value;
  out.label = std::move(label);
  return out;
}

TEST(Levels, AreSaidInTheUnitOfTheirLever) {
  const Style comma{TemperatureUnit::fahrenheit, ','};
  EXPECT_EQ(level_text({LeverKind::water_temperature, {}, {level(88'000)}}, 0, comma), "190,4\u00A0°F");
  EXPECT_EQ(level_text({LeverKind::steep_time, {}, {level(45'500)}}, 0, comma), "45,5\u00A0s");
  EXPECT_EQ(level_text({LeverKind::leaf_dose, {}, {level(4'000)}}, 0, comma), "4\u00A0g");
  EXPECT_EQ(level_text({LeverKind::leaf_dose, {}, {level(4'000)}}, 1, comma), "") << "there is no second level";
  EXPECT_EQ(level_text({LeverKind::vessel, {}, {level(4'000, "the lidded bowl")}}, 0, comma), "the lidded bowl");
  EXPECT_EQ(level_text({LeverKind::leaf_dose, {}, {level({}, "a pinch")}}, 0, comma), "a pinch");
  Level schedule;
  schedule.schedule = {{Temperature(60'000), Duration(60'000), Mass(1)},
                       {Temperature(90'000), Duration(30'000), Mass(1)}};
  EXPECT_EQ(level_text({LeverKind::brew_schedule, {}, {schedule}}, 0, {}),
            "60\u00A0°C for 60\u00A0s, then 90\u00A0°C for 30\u00A0s");
}

TEST(Levels, AreComparedWithThePresentWayTheHigherOneAsB) {
  Lever lever{LeverKind::water_temperature, {}, {level(68'000), level(88'000), level(78'000)}};
  EXPECT_EQ(lever.reference(), 0u) << "the first, where none is the present way";
  lever.levels[2].present_way = true;
  EXPECT_EQ(lever.reference(), 2u);
  EXPECT_EQ(contrasts(lever), (std::vector<Contrast>{{0, 2}, {2, 1}}));
  lever.levels[0].value = 78'000;
  EXPECT_EQ(contrasts(lever), (std::vector<Contrast>{{2, 0}, {2, 1}})) << "equal: the present way is a";
  lever.levels[0].value.reset();
  EXPECT_EQ(contrasts(lever), (std::vector<Contrast>{{2, 0}, {2, 1}}));
  lever.levels[0].value = 68'000;
  lever.kind = LeverKind::vessel;
  EXPECT_EQ(contrasts(lever), (std::vector<Contrast>{{2, 0}, {2, 1}})) << "vessels have no higher one";
}

TEST(Levers, ThreeAreNumbersAndAllButThreeCouldBeHeld) {
  int numbers = 0, held = 0;
  for (int kind = 0; kind <= static_cast<int>(LeverKind::other); ++kind) {
    numbers += is_numeric(static_cast<LeverKind>(kind));
    held += constant_of(static_cast<LeverKind>(kind)).has_value();
  }
  EXPECT_EQ(numbers, 3);
  EXPECT_EQ(held, 7);
  EXPECT_TRUE(is_numeric(LeverKind::steep_time));
  EXPECT_EQ(constant_of(LeverKind::leaf_size), ConstantKind::grind);
}

TEST(People, TastersAreEachOnceInThePlansOrderAndThePreparerIsTheFirst) {
  FixedEntropy ids(1);
  const auto r = IdOf<Assessor>::make(ids), k = IdOf<Assessor>::make(ids), p = IdOf<Assessor>::make(ids);
  Plan plan;
  EXPECT_EQ(preparer(plan), IdOf<Assessor>{});
  plan.assessors = {{k, Role::taster}, {p, Role::preparer}, {r, Role::taster}, {k, Role::taster}, {r, Role::preparer}};
  EXPECT_EQ(tasters(plan), (std::vector{k, r}));
  EXPECT_EQ(preparer(plan), p);
}

TEST(People, SidesAreTwo) {
  EXPECT_EQ(other(Side::left), Side::right);
  EXPECT_EQ(other(Side::right), Side::left);
}

TEST(Constants, AreFoundByTheirKind) {
  Plan plan;
  plan.constants.resize(2);
  plan.constants[1].kind = ConstantKind::chill;
  EXPECT_EQ(find_constant(plan, ConstantKind::chill), &plan.constants[1]);
  EXPECT_EQ(find_constant(plan, ConstantKind::eyes), nullptr);
}

TEST(Codes, HaveThreeDigits) {
  EXPECT_FALSE(BlindCode::from(99));
  EXPECT_EQ(BlindCode::from(100)->text(), "100");
  EXPECT_EQ(BlindCode::from(999)->number(), 999);
  EXPECT_FALSE(BlindCode::from(1000));
}

TEST(Scores, LieBetweenTheEndsOfTheScaleAndTheWatch) {
  EXPECT_FALSE(Score::from_halves(-1));
  EXPECT_TRUE(Score::from_halves(0));
  EXPECT_TRUE(Score::from_halves(20));
  EXPECT_FALSE(Score::from_halves(21));
  EXPECT_TRUE(FinishTime::from_seconds(2).under());
  EXPECT_EQ(FinishTime::from_seconds(2).seconds(), 2);
  EXPECT_FALSE(FinishTime::from_seconds(3).cut_off());
  EXPECT_FALSE(FinishTime::from_seconds(120).cut_off());
  EXPECT_TRUE(FinishTime::from_seconds(121).over());
  EXPECT_EQ(FinishTime::from_seconds(500).seconds(), 121);
}

}  // namespace
}  // namespace likeleaf
