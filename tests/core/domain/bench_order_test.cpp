#include "core/domain/bench_order.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/domain/brews.h"

namespace likeleaf {
namespace {

using test::at;
using test::brew_of;
using test::FerryPier;
using test::infuse;
using test::stamp;
using test::two_infusions;
using ::testing::ElementsAre;
using Kind = StampKind;

using Brews = std::vector<const Brew*>;

TEST(Acts, OfABrewAreItsInfusionsThenTheChillAndTheBath) {
  EXPECT_THAT(acts_of(FerryPier().trial_14(), brew_of(1)),
              ElementsAre(BenchAct{Kind::pour_start, 1}, BenchAct{Kind::pour_end, 1}, BenchAct{Kind::drain_start, 1},
                          BenchAct{Kind::drain_end, 1}, BenchAct{Kind::chill_start, 1}, BenchAct{Kind::ready, 1}));
  const auto twice = acts_of(two_infusions(), brew_of(1));
  ASSERT_EQ(twice.size(), 10U);
  EXPECT_EQ(twice[4], (BenchAct{Kind::pour_start, 2}));
  EXPECT_EQ(twice.back(), (BenchAct{Kind::ready, 2})) << "what follows the infusions goes with the last";
}

TEST(Stamps, StandWhereTheyWereNotUndoneAndTheNewestCounts) {
  Brew brew = brew_of(1);
  EXPECT_EQ(last_stamp(brew), nullptr);
  EXPECT_EQ(standing(brew, Kind::pour_start, 1), nullptr);
  stamp(brew, Kind::pour_start, 1);
  stamp(brew, Kind::pour_end, 2);
  stamp(brew, Kind::pour_start, 3);
  stamp(brew, Kind::pour_start, 5, 2);
  EXPECT_EQ(standing(brew, Kind::pour_start, 1)->at, at(3));
  EXPECT_EQ(standing(brew, Kind::pour_start)->at, at(5)) << "of any infusion";
  EXPECT_EQ(last_stamp(brew)->at, at(5));
  brew.stamps[3].undone = at(6);
  brew.stamps[2].undone = at(6);
  EXPECT_EQ(standing(brew, Kind::pour_start, 1)->at, at(1));
  EXPECT_EQ(standing(brew, Kind::pour_start, 2), nullptr);
  EXPECT_EQ(last_stamp(brew)->kind, Kind::pour_end);
}

TEST(NextAct, FollowsTheFurthestStampThatStands) {
  const Plan plan = FerryPier().trial_14();
  Brew brew = brew_of(1);
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::pour_start, 1}));
  stamp(brew, Kind::pour_start, 1);
  stamp(brew, Kind::pour_end, 2);
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::drain_start, 1}));
  brew.stamps[1].undone = at(3);
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::pour_end, 1}));
  // Out of order, as an import may have them, with a gap: nobody goes back to what was left out.
  Brew odd = brew_of(2);
  stamp(odd, Kind::drain_start, 9);
  stamp(odd, Kind::pour_start, 1);
  EXPECT_EQ(next_act(plan, odd), (BenchAct{Kind::drain_end, 1}));
}

TEST(NextAct, OfSeveralInfusionsIsThePourOfTheNextOne) {
  const Plan plan = two_infusions();
  Brew brew = brew_of(1);
  infuse(brew, 0);
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::pour_start, 2}));
  infuse(brew, 100, 2);
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::chill_start, 2}));
  stamp(brew, Kind::chill_start, 170, 2);
  EXPECT_FALSE(is_ready(brew));
  EXPECT_EQ(next_act(plan, brew), (BenchAct{Kind::ready, 2}));
  stamp(brew, Kind::ready, 300, 2);
  EXPECT_FALSE(next_act(plan, brew));
  EXPECT_TRUE(is_ready(brew));
  brew.stamps.back().undone = at(301);
  EXPECT_FALSE(is_ready(brew));
  EXPECT_TRUE(next_act(plan, brew));
}

TEST(InTheWay, IsTheSameActOrALaterOneOfItsInfusion) {
  Brew brew = brew_of(1);
  infuse(brew, 0);
  EXPECT_EQ(in_the_way_of(brew, {Kind::pour_end, 1})->kind, Kind::pour_end);
  EXPECT_EQ(in_the_way_of(brew, {Kind::chill_start, 1}), nullptr);
  EXPECT_EQ(in_the_way_of(brew, {Kind::pour_start, 2}), nullptr) << "another infusion";
  for (auto& one : brew.stamps) one.undone = at(99);
  EXPECT_EQ(in_the_way_of(brew, {Kind::pour_start, 1}), nullptr) << "an undone stamp is in nobody's way";
}

TEST(CurrentBrew, IsTheOneInHandThenTheNextToPourThenOneThatCools) {
  const Plan plan = FerryPier().trial_14();
  Brew first = brew_of(1), second = brew_of(2), third = brew_of(3);
  const Brews brews{&first, &second, &third};
  EXPECT_EQ(current_brew(plan, brews), &first);
  infuse(first, 0);
  stamp(first, Kind::chill_start, 70);
  EXPECT_FALSE(in_hand(first));
  EXPECT_EQ(current_brew(plan, brews), &second);
  stamp(third, Kind::pour_start, 80);
  EXPECT_EQ(current_brew(plan, brews), &third) << "somebody's hands are on it";
  EXPECT_EQ(current_brew(plan, brews, first.id), &first) << "the chosen one before all";
  EXPECT_EQ(current_brew(plan, brews, brew_of(9).id), &third) << "chosen in another sitting";
  for (Brew* b : {&second, &third}) {
    b->stamps.clear();
    infuse(*b, 100);
    stamp(*b, Kind::chill_start, 200);
  }
  EXPECT_EQ(current_brew(plan, brews), &first) << "all cool: the first of them";
  for (Brew* b : {&first, &second, &third}) stamp(*b, Kind::ready, 300);
  EXPECT_EQ(current_brew(plan, brews), nullptr);
}

TEST(LastStamped, IsTheBrewWithTheNewestStampThatStands) {
  Brew first = brew_of(1), second = brew_of(2);
  EXPECT_EQ(last_stamped({&first, &second}), nullptr);
  stamp(first, Kind::pour_start, 5);
  stamp(second, Kind::pour_start, 3);
  EXPECT_EQ(last_stamped({&first, &second}), &first);
  first.stamps[0].undone = at(6);
  EXPECT_EQ(last_stamped({&first, &second}), &second);
}

TEST(Upcoming, IsTheBrewsOwnActOrTheNextPourWhileItDrainsOrCools) {
  const Plan plan = FerryPier().trial_14();
  Brew first = brew_of(1), second = brew_of(2);
  const Brews brews{&first, &second};
  stamp(first, Kind::pour_start, 0);
  stamp(first, Kind::pour_end, 10);
  EXPECT_EQ(upcoming(plan, brews, &first)->act, (BenchAct{Kind::drain_start, 1}));
  stamp(first, Kind::drain_start, 40);
  EXPECT_EQ(upcoming(plan, brews, &first)->brew, &second) << "its water is to be ready in time";
  EXPECT_EQ(upcoming(plan, brews, &first)->act, (BenchAct{Kind::pour_start, 1}));
  stamp(first, Kind::drain_end, 60);
  EXPECT_EQ(upcoming(plan, brews, &first)->act, (BenchAct{Kind::chill_start, 1}));
  stamp(first, Kind::chill_start, 70);
  EXPECT_EQ(upcoming(plan, brews, &first)->brew, &second);
  stamp(second, Kind::pour_start, 80);
  EXPECT_EQ(following_brew(brews, &first), nullptr);
  EXPECT_EQ(upcoming(plan, brews, &first)->act, (BenchAct{Kind::ready, 1})) << "nothing else is to be poured";
  EXPECT_FALSE(upcoming(plan, {&first}, nullptr));
}

TEST(FreesTheHands, BeginsWithTheChill) {
  EXPECT_FALSE(frees_the_hands({Kind::drain_end, 1}));
  EXPECT_TRUE(frees_the_hands({Kind::chill_start, 1}));
  EXPECT_TRUE(frees_the_hands({Kind::ready, 1}));
}

TEST(Clock, CountsFromMidPourWhileItSteeps) {
  Brew brew = brew_of(1);
  stamp(brew, Kind::pour_start, 100);
  EXPECT_EQ(counted_from(brew, *last_stamp(brew)), at(100));
  stamp(brew, Kind::pour_end, 110);
  EXPECT_EQ(counted_from(brew, *last_stamp(brew)), at(105));
  brew.stamps[1].at.boot_ms = 0;
  EXPECT_EQ(counted_from(brew, *last_stamp(brew)).boot_ms, 0) << "a clock that is not known stays so";
  brew.stamps[1].at = at(110);
  stamp(brew, Kind::drain_start, 140);
  EXPECT_EQ(counted_from(brew, *last_stamp(brew)), at(140));
  brew.stamps[0].undone = at(141);
  EXPECT_EQ(counted_from(brew, brew.stamps[1]), at(110)) << "no pour start to halve";
}

TEST(DrainAt, PutsTheMiddleOfTheDrainingOnTheEndOfTheSteep) {
  const Plan plan = FerryPier().trial_14();  // steep 45 s
  Brew brew = brew_of(1);
  stamp(brew, Kind::pour_start, 100);
  EXPECT_FALSE(drain_at(plan, brew, {}, at(105)));
  stamp(brew, Kind::pour_end, 110);
  const auto drain = drain_at(plan, brew, {}, at(120));
  ASSERT_TRUE(drain);
  EXPECT_EQ(drain->from_mid_pour, seconds(36)) << "a drain of 18 s begins 9 s before the end";
  EXPECT_EQ(drain->left, seconds(21)) << "105 + 36 is 141";
  EXPECT_FALSE(drain->due());
  EXPECT_TRUE(drain_at(plan, brew, {}, at(141))->due());
  EXPECT_EQ(drain_at(plan, brew, {}, at(150))->left, seconds(-9));
  UsualTimes slow;
  slow.drain = seconds(200);
  EXPECT_EQ(drain_at(plan, brew, slow, at(120))->from_mid_pour, Duration(0)) << "never before the pour";
  stamp(brew, Kind::drain_start, 140);
  EXPECT_FALSE(drain_at(plan, brew, {}, at(141)));
}

TEST(DrainAt, IsOfTheInfusionThatSteeps) {
  const Plan plan = two_infusions();  // 60 s, then 30 s
  Brew brew = brew_of(1);
  infuse(brew, 0);
  stamp(brew, Kind::pour_start, 100, 2);
  stamp(brew, Kind::pour_end, 110, 2);
  EXPECT_EQ(drain_at(plan, brew, {}, at(110))->from_mid_pour, seconds(21));
  Plan silent = plan;
  silent.lever.levels[0].schedule.clear();
  std::erase_if(silent.constants, [](const Constant& c) { return c.kind == ConstantKind::steep_time; });
  EXPECT_FALSE(drain_at(silent, brew, {}, at(110)));
}

TEST(TaskOfNow, IsAPourThenADrainThenNothingInFigures) {
  const Plan plan = two_infusions();
  Brew brew = brew_of(1);
  const auto task = [&] { return task_of_now(plan, brew, {}, at(111)); };
  ASSERT_TRUE(std::holds_alternative<PourNow>(task()));
  EXPECT_EQ(std::get<PourNow>(task()).water, grams(100));
  EXPECT_EQ(std::get<PourNow>(task()).temperature, celsius(60));
  infuse(brew, 0);
  EXPECT_EQ(std::get<PourNow>(task()).water, grams(150)) << "the second pour";
  stamp(brew, Kind::pour_start, 100, 2);
  EXPECT_TRUE(std::holds_alternative<PourNow>(task())) << "until all of it is in";
  stamp(brew, Kind::pour_end, 110, 2);
  EXPECT_TRUE(std::holds_alternative<DrainAt>(task()));
  stamp(brew, Kind::drain_start, 130, 2);
  EXPECT_TRUE(std::holds_alternative<std::monostate>(task()));
  Brew held = brew_of(2, 1);
  Plan silent = plan;
  silent.constants.clear();
  EXPECT_FALSE(std::get<PourNow>(task_of_now(silent, held, {}, at(0))).water);
}

TEST(Usual, TimesAreTheMedianOfTheTrialsOwnStampsOfEveryInfusion) {
  Trial trial;
  trial.draft = two_infusions();
  EXPECT_EQ(usual_times(trial).drain, seconds(18)) << "a first guess";
  Brew one = brew_of(1), two = brew_of(2), undone = brew_of(3);
  infuse(one, 0);                        // pour 10 s, drain 20 s
  stamp(one, Kind::pour_start, 100, 2);  // pour 12 s
  stamp(one, Kind::pour_end, 112, 2);
  stamp(one, Kind::chill_start, 150, 2);
  stamp(one, Kind::ready, 400, 2);
  stamp(two, Kind::pour_start, 200);  // pour 30 s
  stamp(two, Kind::pour_end, 230);
  stamp(undone, Kind::pour_start, 300);
  stamp(undone, Kind::pour_end, 390);
  undone.stamps[1].undone = at(391);
  for (const Brew& b : {one, two, undone}) trial.brews[b.id] = std::make_shared<const Brew>(b);
  const UsualTimes usual = usual_times(trial);
  EXPECT_EQ(usual.pour, seconds(12));
  EXPECT_EQ(usual.drain, seconds(20));
  EXPECT_EQ(usual.chill, seconds(250));
}

TEST(Usual, TimeInHandRunsFromThePourToTheNextPour) {
  const Plan plan = two_infusions();
  EXPECT_EQ(time_in_hand(plan, 1, {}), Duration(45'000 + 16'500 + 30'000));
  EXPECT_EQ(time_in_hand(plan, 0, {}), Duration(90'000 + 2 * 16'500 + 30'000));
}

TEST(Cooling, BrewsGoToTheBathWhenTheirReadingIsWithinTheTolerance) {
  const Plan plan = FerryPier().trial_14();  // 42 °C ± 1.5 °C
  Brew steeping = brew_of(1), unread = brew_of(2), warm = brew_of(3), cool = brew_of(4), held = brew_of(5);
  infuse(steeping, 0);
  for (Brew* b : {&unread, &warm, &cool, &held}) stamp(*b, Kind::chill_start, 70);
  warm.readings = {{at(80), celsius(40), "liquor"}, {at(90), Temperature(43'501), "liquor"}};
  cool.readings = {{at(90), Temperature(43'500), "liquor"}};
  stamp(held, Kind::ready, 100);
  const auto found = cooling_brews(plan, {&steeping, &unread, &warm, &cool, &held});
  ASSERT_EQ(found.size(), 4U);
  EXPECT_FALSE(found[0].reading || found[0].cool_enough || found[0].in_bath);
  EXPECT_EQ(found[0].since, at(70));
  EXPECT_EQ(found[1].reading, Temperature(43'501)) << "the newest";
  EXPECT_FALSE(found[1].cool_enough);
  EXPECT_TRUE(found[2].cool_enough);
  EXPECT_TRUE(found[3].in_bath);
}

TEST(Portions, AreThoseOfThePlansLotsAndOfTheWarmUpOnce) {
  const FerryPier pier;
  Trial trial;
  trial.draft = pier.trial_14();
  for (int i = 1; i <= 3; ++i) {
    Brew brew = brew_of(i);
    brew.lot = i == 3 ? pier.l21 : pier.l12;
    trial.brews[brew.id] = std::make_shared<const Brew>(brew);
  }
  const auto found = portions_to_weigh(trial);
  ASSERT_EQ(found.size(), 4U);
  EXPECT_EQ(found[1].lot, pier.l12);
  EXPECT_EQ(found[1].portions, 2);
  EXPECT_EQ(found[3].lot, pier.l21);
  EXPECT_EQ(found[3].portions, 1);
  trial.draft.warm_up_lot = pier.l12;
  EXPECT_EQ(portions_to_weigh(trial).size(), 3U);
}

}  // namespace
}  // namespace likeleaf
