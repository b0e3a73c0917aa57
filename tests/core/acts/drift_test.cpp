#include "core/acts/drift.h"
#include "core/planning/one_variable.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "core/acts/one_variable_as_brewed.h"
#include "core/base/number_text.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf {
namespace {

using test::FerryPier;
using test::id_of;

/// Trial 14's plan with three brew pairs of L-12 and a warm-up, brewed just as planned: 68 °C is a, 88 °C is b.
struct BrewedTrial {
  FerryPier pier;
  Plan plan = pier.trial_14();
  Key key;
  Trial trial;

  BrewedTrial() {
    for (int set = 1; set <= 3; ++set) add_pair(set, PairKind::contrast, pier.l12, 1, 0);
    add_pair(0, PairKind::warm_up, pier.l21, 0, 0);
  }

  static IdOf<Pair> pair_id(int set) { return id_of<Pair>(static_cast<std::uint64_t>(set) + 50); }
  static IdOf<Brew> brew_id(int set, bool b) {
    return id_of<Brew>(static_cast<std::uint64_t>(set) * 2 + (b ? 101 : 100));
  }

  void add_pair(int set, PairKind kind, IdOf<Lot> lot, std::size_t level_a, std::size_t level_b) {
    const int code = 200 + 10 * set;
    key.pairs.push_back(KeyPair{pair_id(set),
                                kind,
                                lot,
                                set,
                                level_a,
                                level_b,
                                1,
                                *BlindCode::from(code),
                                *BlindCode::from(code + 5),
                                KeyCup{brew_id(set, false), Permille{}},
                                KeyCup{brew_id(set, true), Permille{}},
                                {}});
    for (const bool b : {false, true}) {
      const std::size_t level = b ? level_b : level_a;
      Brew brew;
      brew.id = brew_id(set, b);
      // Which level is poured first alternates from set to set.
      brew.number = 2 * set + 1 + ((set % 2 == 0) == b ? 0 : 1);
      brew.lot = lot;
      brew.level = level;
      brew.set = set;
      brew.leaf = grams(4);
      brew.infusions = {Infusion{celsius(level == 0 ? 88 : 68), grams(200), seconds(45)}};
      trial.brews[brew.id] = std::make_shared<const Brew>(brew);
      key.brews.push_back(PlannedBrew{brew.id, brew.number, lot, level, set, 1, 1});
    }
    serve(pair_id(set), code);
  }
  void serve(IdOf<Pair> pair, int code) {
    trial.servings.push_back(BlindServing{id_of<Serving>(static_cast<std::uint64_t>(code)),
                                          pier.k,
                                          pair,
                                          1,
                                          static_cast<int>(trial.servings.size()) + 1,
                                          3,
                                          *BlindCode::from(code),
                                          *BlindCode::from(code + 5),
                                          Side::left,
                                          {}});
  }
  /// Changes one brew.
  template <class How>
  void change(int set, bool b, How how) {
    Brew brew = *trial.brews.at(brew_id(set, b));
    how(brew);
    trial.brews[brew.id] = std::make_shared<const Brew>(brew);
  }
  const Trial& sealed() {
    SealedPlan sealed_plan;
    sealed_plan.plan = plan;
    sealed_plan.registers = pier.registers;
    trial.draft = plan;
    trial.sealed = std::make_shared<const SealedPlan>(sealed_plan);
    trial.key = std::make_shared<const Key>(key);
    return trial;
  }
};

Moment at(std::int64_t second) {
  return Moment{second * 1000, 60, 0};
}

TEST(Drifts, ATrialBrewedAsPlannedHasNone) {
  BrewedTrial t;
  EXPECT_TRUE(drifts(t.sealed()).empty());
}

TEST(Drifts, ADraftHasNone) {
  EXPECT_TRUE(drifts(Trial{}).empty());
}

TEST(Drifts, AHotBrewOfFiftySecondsIsTwoPastItsTolerance) {
  BrewedTrial t;
  t.change(2, true, [](Brew& b) { b.infusions[0].steep = seconds(50); });
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].brew, BrewedTrial::brew_id(2, true));
  EXPECT_EQ(found[0].lot, t.pier.l12);
  EXPECT_EQ(found[0].set, 2);
  EXPECT_EQ(found[0].level, std::optional<std::size_t>(0));
  EXPECT_EQ(found[0].what, ConstantKind::steep_time);
  EXPECT_EQ(found[0].planned, 45'000);
  EXPECT_EQ(found[0].actual, 50'000);
  EXPECT_EQ(found[0].tolerance, 3000);
  EXPECT_EQ(found[0].past(), 2000);
}

TEST(Drifts, AtTheToleranceNothingHasDriftedAndBelowItTheSignIsMinus) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) { b.infusions[0].steep = seconds(48); });
  EXPECT_TRUE(drifts(t.sealed()).empty());
  t.change(1, true, [](Brew& b) { b.infusions[0].steep = seconds(40); });
  ASSERT_EQ(drifts(t.sealed()).size(), 1U);
  EXPECT_EQ(drifts(t.sealed())[0].past(), -2000);
}

TEST(Drifts, StampsCountBeforeTheTypedSteep) {
  BrewedTrial t;
  t.change(1, false, [](Brew& b) {
    for (const auto& [kind, second] : {std::pair{StampKind::pour_start, 1000}, std::pair{StampKind::pour_end, 1004},
                                       std::pair{StampKind::drain_start, 1060}, std::pair{StampKind::drain_end, 1064}})
      b.stamps.push_back(Stamp{kind, 1, at(second), {}});
  });
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].actual, 60'000);
}

TEST(Drifts, ThePourIsComparedWithItsOwnLevel) {
  BrewedTrial t;
  t.change(1, false, [](Brew& b) { b.infusions[0].pour = celsius(71); });
  t.change(3, true, [](Brew& b) { b.infusions[0].pour = celsius(86); });  // at the usual ±2 °C
  auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].what, ConstantKind::water_temperature);
  EXPECT_EQ(found[0].planned, 68'000);
  EXPECT_EQ(found[0].past(), 1000);
  // The plan may ask for more care with what changes.
  t.plan.constants.push_back(Constant{ConstantKind::water_temperature, {}, {}, 1000, {}, {}});
  found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[1].planned, 88'000);
  EXPECT_EQ(found[1].past(), -1000);
}

TEST(Drifts, LeafWaterAndAnotherWayOfChillingAreSeenInOrderOfBrewing) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) { b.leaf = Mass(4100); });                 // ±0.05 g
  t.change(2, false, [](Brew& b) { b.infusions[0].water = grams(196); });  // ±2 g
  t.change(3, true, [](Brew& b) { b.chill = "stood on the bench"; });
  t.change(3, false, [](Brew& b) { b.chill = "both into ice with lids, then the bath"; });  // the planned way
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 3U);
  EXPECT_EQ(found[0].what, ConstantKind::leaf_dose);
  EXPECT_EQ(found[0].past(), 50);
  EXPECT_EQ(found[1].what, ConstantKind::water_mass);
  EXPECT_EQ(found[1].past(), -2000);
  EXPECT_EQ(found[2].what, ConstantKind::chill);
  EXPECT_NE(found[2].past(), 0);
  EXPECT_EQ(found[2].brew, BrewedTrial::brew_id(3, true));
}

TEST(Drifts, AnAmendedBrewCountsAsAmended) {
  BrewedTrial t;
  t.change(2, true, [](Brew& b) { b.infusions[0].steep = seconds(50); });
  Amendment amendment;
  amendment.target = Amendment::Target::brew;
  amendment.brew = BrewedTrial::brew_id(2, true);
  amendment.field = "leaf";
  amendment.new_value = "4.2";
  t.trial.amendments = {amendment};
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].what, ConstantKind::leaf_dose);
  EXPECT_EQ(found[0].actual, 4200);
}

TEST(Drifts, WhatWasNotNotedIsNotJudged) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) {
    b.leaf.reset();
    b.infusions.clear();
  });
  EXPECT_TRUE(drifts(t.sealed()).empty());
}

TEST(Drifts, WarmUpsAndVoidedPairsAreLeftOut) {
  BrewedTrial t;
  t.change(0, true, [](Brew& b) { b.infusions[0].steep = seconds(300); });
  EXPECT_TRUE(drifts(t.sealed()).empty());
  t.change(3, true, [](Brew& b) { b.infusions[0].steep = seconds(300); });
  EXPECT_EQ(drifts(t.sealed()).size(), 1U);
  t.trial.voids = {Void{BrewedTrial::pair_id(3), "O.", "spilt", {}, {}}};
  EXPECT_TRUE(drifts(t.sealed()).empty());
}

TEST(Drifts, ABrewUnderSpareCodesCountsAtTheVoidedPairsLevel) {
  BrewedTrial t;
  const IdOf<Pair> spare_pair = id_of<Pair>(90);
  const IdOf<Brew> one = id_of<Brew>(301), two = id_of<Brew>(302);
  t.key.spares = {Spare{spare_pair, *BlindCode::from(701), *BlindCode::from(812), one, two}};
  t.trial.voids = {Void{BrewedTrial::pair_id(3), "O.", "spilt", {}, 0}};
  t.serve(spare_pair, 701);
  for (const auto id : {one, two}) {
    Brew brew;
    brew.id = id;
    brew.infusions = {Infusion{{}, {}, seconds(id == one ? 45 : 55)}};
    t.trial.brews[id] = std::make_shared<const Brew>(brew);
  }
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].brew, two);
  EXPECT_EQ(found[0].lot, t.pier.l12);
  EXPECT_EQ(found[0].set, 3);
}

TEST(Drifts, AFirstSipMoreThanADegreeApartIsTold) {
  BrewedTrial t;
  t.trial.served[BrewedTrial::pair_id(1)] = ServedPair{BrewedTrial::pair_id(1), at(1), celsius(42), celsius(41)};
  EXPECT_TRUE(drifts(t.sealed()).empty()) << "one degree is still allowed";
  t.trial.served[BrewedTrial::pair_id(1)].right = Temperature(40'800);
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].brew.empty());
  EXPECT_EQ(found[0].pair, std::optional(BrewedTrial::pair_id(1)));
  EXPECT_FALSE(found[0].level.has_value());
  EXPECT_EQ(found[0].planned, 0);
  EXPECT_EQ(found[0].actual, 1200);
  EXPECT_EQ(found[0].past(), 200);
}

TEST(Drifts, OfAPairThatIsTooColdTheColderCupIsTold) {
  BrewedTrial t;
  t.trial.served[BrewedTrial::pair_id(2)] =
      ServedPair{BrewedTrial::pair_id(2), at(1), Temperature(40'200), Temperature(39'700)};
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].what, ConstantKind::tasting_temperature);
  EXPECT_EQ(found[0].planned, 42'000);
  EXPECT_EQ(found[0].actual, 39'700);
  EXPECT_EQ(found[0].past(), -800);
}

TEST(Drifts, ACupHeldLongerThanAllowedIsTold) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) { b.stamps = {Stamp{StampKind::ready, 1, at(1000), {}}}; });
  t.change(1, false, [](Brew& b) { b.stamps = {Stamp{StampKind::ready, 1, at(1100), {}}}; });
  t.trial.served[BrewedTrial::pair_id(1)] = ServedPair{BrewedTrial::pair_id(1), at(1660), {}, {}};
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].what, ConstantKind::longest_hold);
  EXPECT_EQ(found[0].brew, BrewedTrial::brew_id(1, true));
  EXPECT_EQ(found[0].past(), 60'000);
}

TEST(Drifts, APotHeldTooLongIsNamedOnceThoughBothCupsComeFromIt) {
  BrewedTrial t;
  // A yardstick: both cups from one jug, one of them diluted.
  t.key.pairs[0].kind = PairKind::yardstick;
  t.key.pairs[0].cup_b = KeyCup{t.key.pairs[0].cup_a.brew, Permille(120)};
  t.change(1, false, [](Brew& b) { b.stamps = {Stamp{StampKind::ready, 1, at(1000), {}}}; });
  t.trial.served[BrewedTrial::pair_id(1)] = ServedPair{BrewedTrial::pair_id(1), at(1700), {}, {}};
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].brew, BrewedTrial::brew_id(1, false));
  EXPECT_EQ(found[0].past(), 100'000);
}

TEST(Drifts, EachInfusionOfAScheduleIsComparedWithItsOwn) {
  BrewedTrial t;
  t.plan.lever.kind = LeverKind::brew_schedule;
  t.plan.lever.levels = {
      Level{"once", {}, {{celsius(88), seconds(45), grams(200)}}, true},
      Level{"twice", {}, {{celsius(68), seconds(45), grams(200)}, {celsius(90), seconds(30), grams(150)}}, false}};
  EXPECT_TRUE(drifts(t.sealed()).empty()) << "the second infusions were not noted";
  t.change(1, false, [](Brew& b) { b.infusions.push_back({celsius(93), grams(150), seconds(30)}); });
  t.change(2, false, [](Brew& b) {
    // The steep of the second infusion comes from its stamps: mid-pour 1002, mid-drain 1042.
    for (const auto& [kind, second] : {std::pair{StampKind::pour_start, 1000}, std::pair{StampKind::pour_end, 1004},
                                       std::pair{StampKind::drain_start, 1040}, std::pair{StampKind::drain_end, 1044}})
      b.stamps.push_back(Stamp{kind, 2, at(second), {}});
  });
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 2U);
  EXPECT_EQ(found[0].brew, BrewedTrial::brew_id(1, false));
  EXPECT_EQ(found[0].what, ConstantKind::water_temperature);
  EXPECT_EQ(found[0].planned, 90'000);
  EXPECT_EQ(found[0].past(), 1000);
  EXPECT_EQ(found[1].what, ConstantKind::steep_time);
  EXPECT_EQ(found[1].planned, 30'000) << "of the second infusion";
  EXPECT_EQ(found[1].actual, 40'000);
  EXPECT_EQ(found[1].past(), 7000);
}

TEST(Drifts, AStampedInfusionBeyondThePlanIsComparedWithWhatIsHeld) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) {
    for (const auto& [kind, second] : {std::pair{StampKind::pour_start, 1000}, std::pair{StampKind::pour_end, 1004},
                                       std::pair{StampKind::drain_start, 1060}, std::pair{StampKind::drain_end, 1064}})
      b.stamps.push_back(Stamp{kind, 2, at(second), {}});
  });
  const auto found = drifts(t.sealed());
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].planned, 45'000);
  EXPECT_EQ(found[0].actual, 60'000);
}

TEST(Drifts, OfASittingAreThoseOfItsBrewsAndPairs) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) { b.infusions[0].steep = seconds(60); });
  t.change(2, true, [](Brew& b) {
    b.infusions[0].steep = seconds(70);
    b.sitting = 2;
  });
  for (const int set : {1, 2})
    t.trial.served[BrewedTrial::pair_id(set)] = ServedPair{BrewedTrial::pair_id(set), at(1), celsius(42), celsius(40)};
  for (auto& serving : t.trial.servings)
    if (serving.pair == BrewedTrial::pair_id(2)) serving.sitting = 2;
  EXPECT_EQ(drifts(t.sealed()).size(), 6U);
  const auto second = drifts(t.sealed(), 2);
  ASSERT_EQ(second.size(), 3U);
  EXPECT_EQ(second[0].brew, BrewedTrial::brew_id(2, true));
  EXPECT_EQ(second[1].pair, BrewedTrial::pair_id(2));
}

TEST(Drifts, NumbersBeyondReasonDoNotBreakTheSum) {
  Drift d;
  d.actual = std::numeric_limits<std::int64_t>::max();
  d.planned = std::numeric_limits<std::int64_t>::min();
  EXPECT_GT(d.past(), 0);
}

// ---- one variable, as brewed ----

const RidingAlong& riding(const OneVariable& v, Riding what) {
  for (const auto& r : v.riding)
    if (r.what == what) return r;
  throw std::runtime_error("nothing said about it");
}

TEST(OneVariableAsBrewed, HoldsWhereAllWentAsPlanned) {
  BrewedTrial t;
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_TRUE(v.holds);
  EXPECT_NEAR(std::abs(riding(v, Riding::pour_order).alignment), 1.0 / 3, 1e-12);
  EXPECT_DOUBLE_EQ(riding(v, Riding::steep_time).alignment, 0);
}

TEST(OneVariableAsBrewed, SeesALevelThatWasAlwaysPouredFirst) {
  BrewedTrial t;
  for (int set = 1; set <= 3; ++set) {
    t.change(set, true, [&](Brew& b) { b.stamps = {Stamp{StampKind::pour_start, 1, at(100 * set), {}}}; });
    t.change(set, false, [&](Brew& b) { b.stamps = {Stamp{StampKind::pour_start, 1, at(100 * set + 30), {}}}; });
  }
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_FALSE(v.holds);
  EXPECT_DOUBLE_EQ(riding(v, Riding::pour_order).alignment, 1);
  EXPECT_TRUE(riding(v, Riding::pour_order).aligned);
}

TEST(OneVariableAsBrewed, SeesTheHotBrewsChilledAnotherWay) {
  BrewedTrial t;
  t.change(1, true, [](Brew& b) { b.chill = "cold room"; });
  EXPECT_FALSE(riding(one_variable_as_brewed(t.sealed()), Riding::chill_path).aligned);  // one of three
  t.change(2, true, [](Brew& b) { b.chill = "cold room"; });
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_NEAR(riding(v, Riding::chill_path).alignment, 2.0 / 3, 1e-12);
  EXPECT_TRUE(riding(v, Riding::chill_path).aligned);
  const OneVariableProblem seen{OneVariableProblem::Kind::as_brewed, {}, riding(v, Riding::chill_path)};
  EXPECT_THAT(v.problems, testing::ElementsAre(seen));
  // Both cups of a pair the other way is no difference between the levels.
  for (int set = 1; set <= 2; ++set) t.change(set, false, [](Brew& b) { b.chill = "cold room"; });
  EXPECT_TRUE(one_variable_as_brewed(t.sealed()).holds);
}

TEST(OneVariableAsBrewed, SeesAMeanDifferencePastTheTolerance) {
  BrewedTrial t;
  for (int set = 1; set <= 3; ++set) t.change(set, true, [](Brew& b) { b.infusions[0].steep = seconds(49); });
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_DOUBLE_EQ(riding(v, Riding::steep_time).alignment, 4);
  EXPECT_EQ(unit_of(Riding::steep_time), RidingUnit::seconds);
  EXPECT_TRUE(riding(v, Riding::steep_time).aligned);
  EXPECT_FALSE(v.holds);
}

TEST(OneVariableAsBrewed, DoesNotCountTheLeverItself) {
  BrewedTrial t;
  const OneVariable v = one_variable_as_brewed(t.sealed());
  for (const auto& r : v.riding) EXPECT_NE(r.what, Riding::water_temperature);
}

TEST(OneVariableAsBrewed, SeesOneLevelStandingLonger) {
  BrewedTrial t;
  for (int set = 1; set <= 3; ++set) {
    t.change(set, true, [](Brew& b) { b.stamps = {Stamp{StampKind::ready, 1, at(1200), {}}}; });
    t.change(set, false, [](Brew& b) { b.stamps = {Stamp{StampKind::ready, 1, at(1000), {}}}; });
  }
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_DOUBLE_EQ(riding(v, Riding::liquor_age).alignment, -200);  // b was ready later: younger
  EXPECT_TRUE(riding(v, Riding::liquor_age).aligned);
}

TEST(OneVariableAsBrewed, KeepsThePlansDoubtsAboutWhatNobodyNoted) {
  BrewedTrial t;
  std::erase_if(t.plan.constants,
                [](const Constant& c) { return c.kind == ConstantKind::chill || c.kind == ConstantKind::water; });
  const OneVariable v = one_variable_as_brewed(t.sealed());
  EXPECT_TRUE(riding(v, Riding::chill_path).aligned);
  EXPECT_TRUE(riding(v, Riding::boiler_batch).aligned);
  EXPECT_EQ(v.problems.size(), 2U);
}

}  // namespace
}  // namespace likeleaf
