#include "core/planning/needs.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <numeric>

#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf {
namespace {

using test::FerryPier;

LotNeed need_of(const Needs& needs, IdOf<Lot> lot) {
  for (const auto& need : needs.lots)
    if (need.lot == lot) return need;
  ADD_FAILURE() << "no such lot in the needs";
  return {};
}

TEST(Needs, Trial14CountsPairsAndSheetsAsTheHouseDoes) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_14(), pier.registers);
  EXPECT_EQ(n.brew_pairs, 9);
  EXPECT_EQ(n.tasted_pairs, 36);
  EXPECT_EQ(n.sittings, 3);
  EXPECT_EQ(n.pairs, 15);
  EXPECT_EQ(n.sheets, 60);
  EXPECT_EQ(n.counted_sheets, 48);
}

TEST(Needs, Trial14TakesThirtyBrewsTenASittingAndSixLitres) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_14(), pier.registers);
  EXPECT_EQ(n.brews, 30);
  EXPECT_EQ(n.most_brews_in_a_sitting, 10);
  EXPECT_EQ(volume_text(n.water, Style{}), std::string("6.0") + no_break_space + "litres");
  ASSERT_EQ(n.lots.size(), 4U);
  EXPECT_EQ(n.lots[0].lot, pier.l07);
  EXPECT_EQ(n.lots[3].lot, pier.l21);
  for (const auto lot : {pier.l07, pier.l12, pier.l18}) {
    EXPECT_EQ(need_of(n, lot).brews, 8);
    EXPECT_EQ(need_of(n, lot).leaf, grams(32));
    EXPECT_TRUE(need_of(n, lot).lasts);
  }
  EXPECT_EQ(need_of(n, pier.l21).brews, 6);
  EXPECT_EQ(need_of(n, pier.l21).leaf, grams(24));
}

TEST(Needs, Trial14PoursFortyCupsASitting) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_14(), pier.registers);
  EXPECT_EQ(n.cups, 120);
  EXPECT_EQ(n.most_cups_in_a_sitting, 40);
  EXPECT_EQ(n.cup, millilitres(40));
  EXPECT_EQ(n.liquor_per_brew, millilitres(160));
}

TEST(Needs, Trial14TakesHalfAnHourAndTenMinutesMoreAtFirst) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_14(), pier.registers);
  EXPECT_EQ(n.sitting_for_taster, minutes(30));
  EXPECT_EQ(n.first_sitting_extra, minutes(10));
  EXPECT_EQ(n.open_reference_brews, 2);
  EXPECT_EQ(need_of(n, pier.l21).open_reference_leaf, grams(8));
}

TEST(Needs, WithoutAReferencePairTheFirstSittingIsLikeTheOthers) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.reference_pair.reset();
  const Needs n = needs(plan, pier.registers);
  EXPECT_EQ(n.first_sitting_extra, Duration{});
  EXPECT_EQ(n.open_reference_brews, 0);
  EXPECT_EQ(n.brews, 30);
}

TEST(Needs, OfThreeLevelsEachSetIsThreeBrewsAndTheReferenceFillsTwiceTheCups) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_15(), pier.registers);
  EXPECT_EQ(n.brew_pairs, 4);
  EXPECT_EQ(n.tasted_pairs, 16);  // two contrasts, four sets, two tasters
  EXPECT_EQ(need_of(n, pier.l25).brews, 12);
  EXPECT_EQ(n.sittings, 2);
  EXPECT_EQ(n.brews, 12 + 2 * 2);
  EXPECT_EQ(n.most_brews_in_a_sitting, 8);
  EXPECT_EQ(n.liquor_per_brew, millilitres(160));
}

TEST(Needs, ADoseThatChangesIsTakenFromTheLevels) {
  const FerryPier pier;
  const Needs n = needs(pier.trial_16(), pier.registers);
  EXPECT_EQ(need_of(n, pier.l12).leaf, grams(6 * (3 + 5) + 4 * 3));  // six pairs, two blanks at the present way
  EXPECT_EQ(need_of(n, pier.l21).leaf, grams(2 * 2 * 3));            // warm-ups at the present way
  EXPECT_EQ(n.counted_sheets, 8);
}

TEST(Needs, ASchedulesWaterIsTheSumOfItsInfusions) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lever.kind = LeverKind::brew_schedule;
  plan.lever.levels = {Level{"one steep", {}, {{celsius(88), seconds(45), grams(200)}}, true},
                       Level{"two short steeps",
                             {},
                             {{celsius(88), seconds(20), grams(100)}, {celsius(88), seconds(20), grams(80)}},
                             false}};
  EXPECT_EQ(planned_water(plan, 0), grams(200));
  EXPECT_EQ(planned_water(plan, 1), grams(180));
  EXPECT_EQ(liquor_of_a_brew(plan, 1), millilitres(180 - 12));  // four grams of leaf keep twelve
}

TEST(Needs, OwnBrewsAreMadeByEachTaster) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  const Needs shared = needs(plan, pier.registers);
  plan.serving_way = ServingWay::own_brews;
  const Needs own = needs(plan, pier.registers);
  EXPECT_EQ(own.brews, 4 * shared.brews);
  EXPECT_EQ(own.brew_pairs, 4 * shared.brew_pairs);
  EXPECT_EQ(own.pairs, 4 * shared.pairs);
  EXPECT_EQ(own.sheets, shared.sheets);
  EXPECT_EQ(own.cups, shared.cups);
  EXPECT_EQ(own.water.count(), 4 * shared.water.count());
  EXPECT_EQ(own.liquor_per_brew, millilitres(40));
}

TEST(Needs, StockThatWillNotLastIsSaidOnlyWhereStockIsKnown) {
  FerryPier pier;
  pier.registers.lots[0].stock = grams(31);  // L-07, of 32 g
  pier.registers.lots[1].stock = Mass{};     // L-12: never entered
  pier.registers.lots[3].stock = grams(31);  // L-21, of 24 g and 8 g
  const Needs n = needs(pier.trial_14(), pier.registers);
  EXPECT_FALSE(need_of(n, pier.l07).lasts);
  EXPECT_TRUE(need_of(n, pier.l12).lasts);
  EXPECT_FALSE(need_of(n, pier.l12).stock.has_value());
  EXPECT_TRUE(need_of(n, pier.l18).lasts);
  EXPECT_FALSE(need_of(n, pier.l21).lasts) << "the open reference pair takes of the same leaf";
}

TEST(Needs, AControlsOwnLeafIsListedToo) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.controls[1].lot = pier.l25;
  const Needs n = needs(plan, pier.registers);
  EXPECT_EQ(need_of(n, pier.l25).leaf, grams(8));
  EXPECT_EQ(need_of(n, pier.l12).leaf, grams(24));
}

TEST(Needs, AnEmptyDraftNeedsNothing) {
  const Needs n = needs(Plan{}, Registers{});
  EXPECT_EQ(n.brews, 0);
  EXPECT_EQ(n.sheets, 0);
  EXPECT_EQ(n.water, Volume{});
  EXPECT_TRUE(n.lots.empty());
}

TEST(SittingShapes, Trial14HasThreeLeavesAndOneControlBehindAWarmUp) {
  const auto shapes = sitting_shapes(FerryPier().trial_14());
  ASSERT_EQ(shapes.size(), 3U);
  for (const auto& shape : shapes) {
    EXPECT_EQ(shape.contrast_pairs, 3);
    EXPECT_EQ(shape.controls, 1);
    EXPECT_TRUE(shape.warm_up);
  }
}

TEST(SittingShapes, PairsOfAPlannedNumberOfSittingsAreSharedOutEvenly) {
  Plan plan = FerryPier().trial_14();
  plan.controls.clear();
  plan.sittings = 2;
  const auto shapes = sitting_shapes(plan);
  ASSERT_EQ(shapes.size(), 2U);
  EXPECT_EQ(shapes[0].contrast_pairs, 5);
  EXPECT_EQ(shapes[1].contrast_pairs, 4);
}

TEST(SittingShapes, AControlTakesThePlaceOfAPairInItsOwnSitting) {
  Plan plan = FerryPier().trial_14();
  plan.controls = {{ControlKind::blank, plan.lots[0], 0, 1, Permille(120)},
                   {ControlKind::blank, plan.lots[0], 1, 1, Permille(120)}};
  const auto shapes = sitting_shapes(plan);
  ASSERT_EQ(shapes.size(), 3U);
  EXPECT_EQ(shapes[0].controls, 2);
  EXPECT_EQ(shapes[0].contrast_pairs + shapes[1].contrast_pairs + shapes[2].contrast_pairs, 9);
  for (const auto& shape : shapes) EXPECT_LE(shape.contrast_pairs + shape.controls, 4);
}

TEST(SittingShapes, AControlInALaterSittingAsksForThatSittingWhileThereAreSetsForEach) {
  Plan plan = FerryPier().trial_14();
  plan.brew_pairs = 1;  // three sets; controls in sittings 1, 2 and 3
  EXPECT_EQ(sitting_shapes(plan).size(), 3U);
  for (const auto& shape : sitting_shapes(plan)) EXPECT_EQ(shape.contrast_pairs, 1);
  plan.controls[2].sitting = 4;
  EXPECT_EQ(sitting_shapes(plan).size(), 2U) << "a sitting without a set is no sitting of this trial";
}

TEST(SittingShapes, ASetOfManyLevelsIsNeverTornApart) {
  Plan plan = FerryPier().trial_15();
  plan.pairs_per_sitting = 3;  // room for one set of two pairs
  const auto shapes = sitting_shapes(plan);
  ASSERT_EQ(shapes.size(), 4U);
  for (const auto& shape : shapes) EXPECT_EQ(shape.contrast_pairs, 2);
}

RC_GTEST_PROP(SittingShapes, HoldAllPairsAndKeepToTheLimitWhereTheProgramChoseTheSittings, ()) {
  const FerryPier pier;
  Plan plan = *rc::gen::element(pier.trial_14(), pier.trial_15(), pier.trial_16());
  plan.brew_pairs = *rc::gen::inRange(2, 15);
  plan.pairs_per_sitting = *rc::gen::inRange(2, 9);
  plan.controls.clear();
  const int controls = *rc::gen::inRange(0, 3);
  for (int i = 0; i < controls; ++i)
    plan.controls.push_back({ControlKind::blank, plan.lots[0], 0, *rc::gen::inRange(1, 3), Permille(120)});
  const auto shapes = sitting_shapes(plan);
  const int per_set = static_cast<int>(plan.lever.levels.size()) - 1;
  int pairs = 0;
  int most = 0, least = 1000;
  for (const auto& shape : shapes) {
    pairs += shape.contrast_pairs;
    RC_ASSERT(shape.contrast_pairs % per_set == 0);
    RC_ASSERT(shape.contrast_pairs + shape.controls <= std::max(plan.pairs_per_sitting, per_set));
    most = std::max(most, shape.contrast_pairs + shape.controls);
    least = std::min(least, shape.contrast_pairs + shape.controls);
  }
  RC_ASSERT(pairs == static_cast<int>(plan.lots.size()) * plan.brew_pairs * per_set);
  // Even but for a whole set, or for controls that were put into one sitting.
  RC_ASSERT(most - least <= per_set + controls);
}

RC_GTEST_PROP(Needs, CupsBrewsAndLeafAgreeWithEachOther, ()) {
  const FerryPier pier;
  Plan plan = *rc::gen::element(pier.trial_14(), pier.trial_15());
  plan.brew_pairs = *rc::gen::inRange(1, 12);
  plan.serving_way = *rc::gen::element(ServingWay::holding_bath, ServingWay::own_brews);
  const Needs n = needs(plan, pier.registers);
  RC_ASSERT(n.cups == 2 * n.sheets);
  RC_ASSERT(std::accumulate(n.lots.begin(), n.lots.end(), 0, [](int sum, const LotNeed& l) { return sum + l.brews; }) ==
            n.brews);
  for (const auto& lot : n.lots) RC_ASSERT(lot.leaf == grams(4 * lot.brews));
  RC_ASSERT(n.water == millilitres(200 * n.brews));
  RC_ASSERT(n.counted_sheets == n.tasted_pairs + static_cast<int>(plan.controls.size() * tasters(plan).size()));
}

}  // namespace
}  // namespace likeleaf
