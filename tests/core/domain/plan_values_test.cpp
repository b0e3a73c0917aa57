// What a plan, a brew and a trial say of themselves, one step on either side of each boundary.
#include <gtest/gtest.h>

#include "core/base/entropy.h"
#include "core/domain/asked.h"
#include "core/domain/brew.h"
#include "core/domain/plan.h"
#include "core/domain/score.h"
#include "core/domain/trial.h"

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

Brew stamped(std::int64_t pour_start, std::int64_t pour_end, std::int64_t drain_start, std::int64_t drain_end) {
  Brew brew;
  const auto stamp = [&](StampKind kind, std::int64_t ms) { brew.stamps.push_back({kind, 1, {ms, 0, ms}, {}}); };
  stamp(StampKind::pour_start, pour_start);
  stamp(StampKind::pour_end, pour_end);
  stamp(StampKind::drain_start, drain_start);
  stamp(StampKind::drain_end, drain_end);
  return brew;
}

TEST(Contact, IsFromTheMiddleOfThePourToTheMiddleOfTheDrain) {
  Brew brew = stamped(1'000, 7'000, 46'000, 54'000);
  EXPECT_EQ(contact_time(brew, 1), Duration(46'000));
  brew.infusions.resize(2);
  brew.infusions[0].steep = seconds(45);
  brew.infusions[1].steep = seconds(30);
  EXPECT_EQ(contact_time(brew, 1), Duration(46'000)) << "stamps before what was typed";
  EXPECT_EQ(contact_time(brew, 2), seconds(30));
  EXPECT_FALSE(contact_time(brew, 3));
  EXPECT_FALSE(contact_time(brew, 0));
  brew.stamps.push_back({StampKind::drain_end, 1, {58'000, 0, 58'000}, {}});
  EXPECT_EQ(contact_time(brew, 1), Duration(48'000)) << "the newest stands";
  brew.stamps.back().undone = Moment{60'000, 0, 60'000};
  EXPECT_EQ(contact_time(brew, 1), Duration(46'000)) << "but for one that was undone";
  brew.stamps[0].infusion = 2;
  EXPECT_EQ(contact_time(brew, 1), seconds(45)) << "one stamp is missing";
}

TEST(Contact, OfStampsInAnImpossibleOrderIsNotKnown) {
  EXPECT_EQ(contact_time(stamped(1'000, 7'000, 1'000, 7'000), 1), Duration(0));
  Brew backwards = stamped(40'000, 46'000, 1'000, 7'000);
  for (auto& stamp : backwards.stamps) stamp.at.boot_ms = 0;
  EXPECT_FALSE(contact_time(backwards, 1));
}

TEST(Stages, FollowTheSealTheLocksAndTheUnmasking) {
  FixedEntropy ids(2);
  Trial trial;
  EXPECT_EQ(stage(trial), Stage::plan);
  trial.sealed = std::make_shared<const SealedPlan>();
  EXPECT_EQ(stage(trial), Stage::brew_and_taste) << "without a serving nothing is locked";
  for (const auto& [sitting, place] : std::vector<std::pair<int, int>>{{2, 1}, {1, 2}, {1, 1}}) {
    trial.servings.push_back({IdOf<Serving>::make(ids),
                              {},
                              IdOf<Pair>::make(ids),
                              sitting,
                              place,
                              2,
                              *BlindCode::from(417),
                              *BlindCode::from(528),
                              Side::left,
                              {}});
  }
  const auto live = live_servings(trial);
  ASSERT_EQ(live.size(), 3u);
  EXPECT_EQ(live[0], &trial.servings[2]) << "by sitting, then by place";
  EXPECT_EQ(live[1], &trial.servings[1]);
  for (const auto& serving : trial.servings) {
    EXPECT_EQ(stage(trial), Stage::brew_and_taste);
    Sheet sheet;
    trial.sheets[serving.id] = std::make_shared<const Sheet>(sheet);
    EXPECT_EQ(stage(trial), Stage::brew_and_taste) << "begun is not locked";
    sheet.locked = Moment{};
    trial.sheets[serving.id] = std::make_shared<const Sheet>(sheet);
  }
  EXPECT_EQ(stage(trial), Stage::all_locked);
  trial.sheets[trial.servings[0].id] = nullptr;
  EXPECT_EQ(open_sheets(trial), (std::vector<const BlindServing*>{&trial.servings[0]}));
  trial.voids.push_back({trial.servings[0].pair, {}, {}, {}, {}});
  EXPECT_EQ(live_servings(trial).size(), 2u);
  EXPECT_EQ(stage(trial), Stage::all_locked) << "a voided pair asks for no sheet";
  trial.unmasked = UnmaskRecord{};
  EXPECT_EQ(stage(trial), Stage::unmasked);
}

}  // namespace
}  // namespace likeleaf
