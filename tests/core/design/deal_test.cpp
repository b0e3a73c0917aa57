#include "core/design/deal.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "core/design/codes.h"
#include "core/planning/needs.h"
#include "tests/core/design/plans.h"

namespace likeleaf::design {
namespace {

using test::any_plan;
using test::brew_of;
using test::deal_or_refusal;
using test::dealt;
using test::key_pair;
using test::plan_of;
using test::trial_14;

std::size_t pairs_of(const Deal& deal, PairKind kind) {
  return static_cast<std::size_t>(
      std::count_if(deal.key.pairs.begin(), deal.key.pairs.end(), [kind](const KeyPair& p) { return p.kind == kind; }));
}

TEST(DealOfTrial14, HasTheNumbersOfTheDemo) {
  const Deal deal = dealt(trial_14());
  EXPECT_EQ(deal.key.brews.size(), 30U);
  std::map<int, int> brews_of_sitting;
  std::map<IdOf<Lot>, int> brews_of_lot;
  for (const auto& brew : deal.key.brews) {
    ++brews_of_sitting[brew.sitting];
    ++brews_of_lot[brew.lot];
  }
  EXPECT_EQ(brews_of_sitting, (std::map<int, int>{{1, 10}, {2, 10}, {3, 10}}));
  for (const auto& lot : trial_14().lots) EXPECT_EQ(brews_of_lot[lot], 8);  // 32 g at 4 g
  EXPECT_EQ(brews_of_lot[trial_14().warm_up_lot], 6);                       // 24 g
  EXPECT_EQ(deal.key.pairs.size(), 15U);
  EXPECT_EQ(pairs_of(deal, PairKind::contrast), 9U);
  EXPECT_EQ(pairs_of(deal, PairKind::blank), 2U);
  EXPECT_EQ(pairs_of(deal, PairKind::yardstick), 1U);
  EXPECT_EQ(pairs_of(deal, PairKind::warm_up), 3U);
  EXPECT_EQ(deal.servings.size(), 60U);
  EXPECT_EQ(std::count_if(deal.servings.begin(), deal.servings.end(), [](const auto& s) { return s.place > 0; }), 48);
  EXPECT_EQ(deal.balance.most_unequal_in_a_pair, 0);
  EXPECT_EQ(deal.balance.most_unequal_for_an_assessor, 1);     // nine is odd
  EXPECT_EQ(std::abs(deal.balance.pour_order_difference), 1);  // 5 to 4
  EXPECT_EQ(deal.balance.reference_set_log2, 9U);              // G
  EXPECT_EQ(deal.key.generator, "draw-1");
  EXPECT_GE(deal.key.spares.size(), 6U);
}

TEST(DealOfTrial14, ServesEachLeafOnceASittingAndSaysHowManyPairsItHas) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    const Deal deal = dealt(trial_14(), seed);
    std::set<std::pair<int, IdOf<Lot>>> seen;
    for (const auto& pair : deal.key.pairs)
      if (pair.kind == PairKind::contrast) {
        EXPECT_TRUE(seen.emplace(pair.sitting, pair.lot).second);
        EXPECT_EQ(pair.set, pair.sitting);
      }
    EXPECT_EQ(seen.size(), 9U);
    for (const auto& serving : deal.servings) EXPECT_EQ(serving.of, 4);
  }
}

TEST(DealOfTrial14, PoolsTheTwoBrewsOfTheYardstickInOneLiquor) {
  const Deal deal = dealt(trial_14());
  const auto yardstick = std::find_if(deal.key.pairs.begin(), deal.key.pairs.end(),
                                      [](const KeyPair& p) { return p.kind == PairKind::yardstick; });
  ASSERT_NE(yardstick, deal.key.pairs.end());
  EXPECT_EQ(yardstick->cup_a.brew, yardstick->cup_b.brew);
  EXPECT_EQ(yardstick->cup_a.dilution, Permille(0));
  EXPECT_EQ(yardstick->cup_b.dilution, Permille(120));
  EXPECT_EQ(std::count_if(deal.key.brews.begin(), deal.key.brews.end(),
                          [&](const auto& b) { return b.lot == yardstick->lot && b.sitting == 2 && b.set == 0; }),
            2);
}

TEST(Deal, IsTheSameForTheSameSeedAndIdsAndAnotherForAnotherSeed) {
  const Deal one = dealt(trial_14(), 7), again = dealt(trial_14(), 7), other = dealt(trial_14(), 8);
  EXPECT_EQ(one.key, again.key);
  EXPECT_EQ(one.servings, again.servings);
  EXPECT_NE(one.servings, other.servings);
}

TEST(Deal, OfAFixedSeedIsTheGoldenOne) {
  // A change here means that "draw-1" no longer gives what sealed keys of the past say it gave.
  const Deal deal = dealt(trial_14(), 7);
  std::string text;
  for (const auto& pair : deal.key.pairs) text += pair.code_a.text() + "/" + pair.code_b.text() + " ";
  EXPECT_EQ(text,
            "614/422 119/284 813/925 394/824 470/961 186/666 871/158 331/278 206/456 987/543 835/651 965/739 423/930 "
            "735/298 939/160 ");
  std::string portions;
  for (const auto& brew : deal.key.brews)
    portions += std::to_string(brew.level) + ":" + std::to_string(brew.portion) + " ";
  EXPECT_EQ(portions,
            "0:5 0:2 1:8 0:5 1:5 0:3 0:2 0:7 1:8 0:2 0:3 0:6 0:1 0:4 1:4 0:6 0:3 1:6 0:3 1:1 0:4 0:1 1:6 0:4 0:7 1:5 "
            "1:8 1:2 0:7 1:1 ");
}

RC_GTEST_PROP(DealOfAnyPlan, BalancesSidesToOneInEveryPairAndForEveryAssessor, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  std::map<IdOf<Pair>, int> in_pair, served;
  std::map<IdOf<Assessor>, int> for_assessor;
  std::map<std::pair<IdOf<Assessor>, IdOf<Lot>>, int> in_lot;
  std::map<std::pair<IdOf<Assessor>, std::pair<std::size_t, std::size_t>>, int> in_contrast;
  for (const auto& serving : deal->servings) {
    const KeyPair& pair = key_pair(*deal, serving.pair);
    RC_ASSERT((serving.left == pair.code_a && serving.right == pair.code_b) ||
              (serving.left == pair.code_b && serving.right == pair.code_a));
    RC_ASSERT(serving.first == Side::left);
    const int way = serving.left == pair.code_b ? 1 : -1;
    in_pair[pair.id] += way;
    ++served[pair.id];
    if (pair.kind != PairKind::contrast) continue;
    for_assessor[serving.assessor] += way;
    in_lot[{serving.assessor, pair.lot}] += way;
    in_contrast[{serving.assessor, {pair.level_a, pair.level_b}}] += way;
  }
  for (const auto& [id, sum] : in_pair) RC_ASSERT(std::abs(sum) == served[id] % 2);
  for (const auto& [id, sum] : for_assessor) RC_ASSERT(std::abs(sum) <= 1);
  for (const auto& [id, sum] : in_lot) RC_ASSERT(std::abs(sum) <= 1);
  for (const auto& [id, sum] : in_contrast) RC_ASSERT(std::abs(sum) <= 1);
  RC_ASSERT(deal->balance.most_unequal_for_an_assessor <= 1);
  RC_ASSERT(deal->balance.most_unequal_in_a_pair <= 1);
}

RC_GTEST_PROP(DealOfAnyPlan, BalancesPourOrderToOneWithinEveryContrastAndInAll, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  std::map<std::pair<std::size_t, std::size_t>, int> of_contrast;
  std::map<IdOf<Lot>, int> of_lot;
  int all = 0;
  for (const auto& pair : deal->key.pairs) {
    if (pair.kind != PairKind::contrast) continue;
    const int way = brew_of(*deal, pair.cup_b.brew).number < brew_of(*deal, pair.cup_a.brew).number ? 1 : -1;
    of_contrast[{pair.level_a, pair.level_b}] += way;
    of_lot[pair.lot] += way;
    all += way;
  }
  for (const auto& [levels, sum] : of_contrast) RC_ASSERT(std::abs(sum) <= 1);
  for (const auto& [lot, sum] : of_lot) RC_ASSERT(std::abs(sum) <= 1);
  RC_ASSERT(std::abs(all) <= 1);
  RC_ASSERT(deal->balance.pour_order_difference == all);
}

RC_GTEST_PROP(DealOfAnyPlan, UsesEveryCodeOnceAndNeverTwoAlikeInAPair, (std::uint64_t seed)) {
  const auto deal = deal_or_refusal(*any_plan(), seed);
  if (!deal) return;
  std::set<BlindCode> seen;
  for (const auto& pair : deal->key.pairs) {
    RC_ASSERT(seen.insert(pair.code_a).second && seen.insert(pair.code_b).second);
    RC_ASSERT(digits_shared(pair.code_a, pair.code_b) <= 1);
  }
  for (const auto& spare : deal->key.spares) {
    RC_ASSERT(seen.insert(spare.code_one).second && seen.insert(spare.code_two).second);
    RC_ASSERT(digits_shared(spare.code_one, spare.code_two) <= 1);
  }
  RC_ASSERT(deal->key.spares.size() >= 6U);
  RC_ASSERT(4 * deal->key.spares.size() >= deal->key.pairs.size());
}

RC_GTEST_PROP(DealOfAnyPlan, BrewsAndServesWhatNeedsSays, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  const Needs need = needs(plan, {});
  RC_ASSERT(static_cast<int>(deal->key.brews.size()) == need.brews);
  RC_ASSERT(static_cast<int>(deal->key.pairs.size()) == need.pairs);
  RC_ASSERT(static_cast<int>(deal->servings.size()) == need.sheets);
  std::map<int, int> brews_of_sitting;
  std::map<IdOf<Lot>, std::vector<int>> portions;
  for (std::size_t i = 0; i < deal->key.brews.size(); ++i) {
    const auto& brew = deal->key.brews[i];
    RC_ASSERT(brew.number == static_cast<int>(i) + 1);
    // RC_ASSERT takes an expression apart and so works out both sides of an "or".
    if (i > 0) RC_ASSERT(brew.sitting >= deal->key.brews[i - 1].sitting);
    ++brews_of_sitting[brew.sitting];
    portions[brew.lot].push_back(brew.portion);
  }
  int most = 0;
  for (const auto& [sitting, count] : brews_of_sitting) most = std::max(most, count);
  RC_ASSERT(most == need.most_brews_in_a_sitting);
  for (const auto& lot : need.lots) RC_ASSERT(static_cast<int>(portions[lot.lot].size()) == lot.brews);
  for (auto& [lot, numbers] : portions) {
    std::sort(numbers.begin(), numbers.end());
    for (std::size_t i = 0; i < numbers.size(); ++i) RC_ASSERT(numbers[i] == static_cast<int>(i) + 1);
  }
}

RC_GTEST_PROP(DealOfAnyPlan, MakesEverySetOnceWithAllItsLevelsAndContrastsInOneSitting, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  const bool own = plan.serving_way == ServingWay::own_brews;
  const std::size_t owners = own ? tasters(plan).size() : 1;
  std::map<std::pair<IdOf<Lot>, int>, std::set<std::size_t>> levels;
  std::map<std::pair<IdOf<Lot>, int>, std::set<int>> sittings;
  for (const auto& brew : deal->key.brews)
    if (brew.set > 0) {
      RC_ASSERT((levels[{brew.lot, brew.set}].insert(brew.level).second));
      sittings[{brew.lot, brew.set}].insert(brew.sitting);
    }
  RC_ASSERT(levels.size() == plan.lots.size() * static_cast<std::size_t>(plan.brew_pairs) * owners);
  std::map<std::pair<IdOf<Lot>, int>, std::set<Contrast>> served;
  for (const auto& pair : deal->key.pairs) {
    if (pair.kind != PairKind::contrast) continue;
    RC_ASSERT((served[{pair.lot, pair.set}].insert({pair.level_a, pair.level_b}).second));
    sittings[{pair.lot, pair.set}].insert(pair.sitting);
    for (const auto& [cup, level] : {std::pair{pair.cup_a, pair.level_a}, std::pair{pair.cup_b, pair.level_b}}) {
      const auto& brew = brew_of(*deal, cup.brew);
      RC_ASSERT(brew.lot == pair.lot && brew.set == pair.set && brew.level == level);
      RC_ASSERT(cup.dilution == Permille(0));
    }
  }
  const auto all = contrasts(plan.lever);
  for (const auto& [set, seen] : levels) {
    RC_ASSERT(seen.size() == plan.lever.levels.size());
    RC_ASSERT((served[set] == std::set<Contrast>(all.begin(), all.end())));
    RC_ASSERT(sittings[set].size() == 1U);
  }
}

RC_GTEST_PROP(DealOfAnyPlan, PutsEveryControlInItsSittingAsPlanned, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  const std::size_t owners = plan.serving_way == ServingWay::own_brews ? tasters(plan).size() : 1;
  using What = std::tuple<PairKind, IdOf<Lot>, int>;
  std::multiset<What> planned, found;
  for (const auto& control : plan.controls)
    for (std::size_t i = 0; i < owners; ++i)
      planned.emplace(control.kind == ControlKind::blank       ? PairKind::blank
                      : control.kind == ControlKind::yardstick ? PairKind::yardstick
                                                               : PairKind::repeat,
                      control.lot, control.sitting);
  for (const auto& pair : deal->key.pairs) {
    if (pair.kind == PairKind::contrast || pair.kind == PairKind::warm_up) continue;
    found.emplace(pair.kind, pair.lot, pair.sitting);
    RC_ASSERT(pair.set == 0);
    RC_ASSERT((pair.kind == PairKind::repeat) == pair.repeat_of.has_value());
    if (pair.kind == PairKind::blank) {
      RC_ASSERT(pair.cup_a.brew != pair.cup_b.brew && pair.level_a == pair.level_b);
      RC_ASSERT(brew_of(*deal, pair.cup_a.brew).number < brew_of(*deal, pair.cup_b.brew).number);
    }
  }
  RC_ASSERT(found == planned);
}

RC_GTEST_PROP(DealOfAnyPlan, ServesARepeatFromItsTwinsBrewsWithSidesSwappedForEverybody, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  std::map<std::pair<IdOf<Pair>, IdOf<Assessor>>, bool> b_left;
  for (const auto& s : deal->servings) b_left[{s.pair, s.assessor}] = s.left == key_pair(*deal, s.pair).code_b;
  for (const auto& serving : deal->servings) {
    const KeyPair& repeat = key_pair(*deal, serving.pair);
    if (!repeat.repeat_of) continue;
    const KeyPair& twin = key_pair(*deal, *repeat.repeat_of);
    RC_ASSERT(twin.kind == PairKind::contrast);
    RC_ASSERT(twin.lot == repeat.lot && twin.sitting == repeat.sitting);
    RC_ASSERT(twin.cup_a == repeat.cup_a && twin.cup_b == repeat.cup_b);
    RC_ASSERT(twin.level_a == repeat.level_a && twin.level_b == repeat.level_b);
    const auto own_twin = b_left.find({twin.id, serving.assessor});
    RC_ASSERT(own_twin != b_left.end());
    RC_ASSERT(own_twin->second != (serving.left == repeat.code_b));
  }
}

RC_GTEST_PROP(DealOfAnyPlan, GivesEveryTasterEveryPlaceOfEverySittingOnce, (std::uint64_t seed)) {
  const Plan plan = *any_plan();
  const auto deal = deal_or_refusal(plan, seed);
  if (!deal) return;
  const auto shapes = sitting_shapes(plan);
  std::map<std::pair<IdOf<Assessor>, int>, std::set<int>> places;
  std::set<IdOf<Serving>> ids;
  std::map<IdOf<Pair>, int> tasted;
  for (const auto& s : deal->servings) {
    RC_ASSERT(ids.insert(s.id).second);
    RC_ASSERT(key_pair(*deal, s.pair).sitting == s.sitting);
    RC_ASSERT((key_pair(*deal, s.pair).kind == PairKind::warm_up) == (s.place == 0));
    RC_ASSERT((places[{s.assessor, s.sitting}].insert(s.place).second));
    ++tasted[s.pair];
  }
  const int by = plan.serving_way == ServingWay::own_brews ? 1 : static_cast<int>(tasters(plan).size());
  for (const auto& pair : deal->key.pairs) RC_ASSERT(tasted[pair.id] == by);
  for (std::size_t s = 0; s < shapes.size(); ++s)
    for (const auto& taster : tasters(plan)) {
      const auto& seen = places[{taster, static_cast<int>(s) + 1}];
      const int pairs = shapes[s].contrast_pairs + shapes[s].controls;
      RC_ASSERT(static_cast<int>(seen.size()) == pairs + (shapes[s].warm_up ? 1 : 0));
      RC_ASSERT(seen.empty() || *seen.rbegin() == pairs);
    }
}

TEST(DealWithOwnBrews, GivesFourTastersTheLeavesInAWilliamsOrder) {
  Plan plan = plan_of(4, 1, 4);
  plan.serving_way = ServingWay::own_brews;
  const Deal deal = dealt(plan);
  std::map<IdOf<Assessor>, std::map<int, IdOf<Lot>>> lots;
  for (const auto& s : deal.servings)
    if (s.place > 0) lots[s.assessor][s.place] = key_pair(deal, s.pair).lot;
  std::set<std::pair<int, IdOf<Lot>>> places;
  std::set<std::pair<IdOf<Lot>, IdOf<Lot>>> neighbours;
  for (const auto& [assessor, order] : lots)
    for (const auto& [place, lot] : order) {
      places.emplace(place, lot);
      if (place > 1) neighbours.emplace(order.at(place - 1), lot);
    }
  EXPECT_EQ(places.size(), 16U);
  EXPECT_EQ(neighbours.size(), 12U);
  EXPECT_EQ(deal.balance.reference_set_log2, 16U);
}

TEST(DealForOneTaster, BalancesSidesWithinLotsAndOverBrewPairs) {
  for (std::uint64_t seed = 0; seed < 30; ++seed) {
    const Deal deal = dealt(plan_of(1, 6, 1), seed);
    EXPECT_EQ(deal.balance.most_unequal_for_an_assessor, 0);
    EXPECT_EQ(deal.balance.pour_order_difference, 0);
  }
}

TEST(Deal, TellsPortionsToLevelsByChance) {
  // Over many draws each of the eight portions of a lot goes to the hot level as often as any other: 5 of 8 brews of
  // lot 3 are hot (three sets, a blank at 88).
  std::vector<int> hot(9);
  constexpr int draws = 800;
  const Plan plan = trial_14();
  for (std::uint64_t seed = 0; seed < draws; ++seed)
    for (const auto& brew : dealt(plan, 100 + 3 * seed).key.brews)
      if (brew.lot == plan.lots[2] && brew.level == 0) ++hot[static_cast<std::size_t>(brew.portion)];
  for (std::size_t portion = 1; portion <= 8; ++portion) EXPECT_NEAR(hot[portion], draws * 5 / 8.0, 55);
}

TEST(Deal, GivesTheFirstCodeEitherLevelAndEitherSideByChance) {
  int smaller_is_b = 0, b_left = 0;
  constexpr int draws = 600;
  for (std::uint64_t seed = 0; seed < draws; ++seed) {
    const Deal deal = dealt(plan_of(1, 1, 1), 100 + 3 * seed);
    const KeyPair& pair = deal.key.pairs.back();
    smaller_is_b += pair.code_b < pair.code_a ? 1 : 0;
    b_left += deal.servings.back().left == pair.code_b ? 1 : 0;
  }
  EXPECT_NEAR(smaller_is_b, draws / 2.0, 49);  // four standard deviations
  EXPECT_NEAR(b_left, draws / 2.0, 49);
}

Error refusal(const Plan& plan) {
  FixedEntropy ids(1);
  const auto result = deal(plan, {}, {}, ids);
  EXPECT_FALSE(result.has_value());
  return result ? Error{} : result.error();
}

TEST(Deal, RefusesAPlanWithoutLevelsLotsTastersOrBrewPairs) {
  Plan plan = trial_14();
  plan.lever.levels.resize(1);
  EXPECT_EQ(refusal(plan).field, "levels");
  plan = trial_14();
  plan.lots.clear();
  EXPECT_EQ(refusal(plan).kind, ErrorKind::missing);
  plan = trial_14();
  plan.lots.push_back(plan.lots[0]);
  EXPECT_EQ(refusal(plan).kind, ErrorKind::duplicate);
  plan = trial_14();
  plan.assessors.clear();
  EXPECT_EQ(refusal(plan).field, "assessors");
  plan = trial_14();
  plan.brew_pairs = 41;
  EXPECT_EQ(refusal(plan).value, "41");
}

TEST(Deal, RefusesControlsThatCannotBe) {
  Plan plan = trial_14();
  plan.controls[0].level = 2;
  EXPECT_EQ(refusal(plan).field, "level of a control");
  plan = trial_14();
  plan.sittings = 3;
  plan.controls[0].sitting = 4;
  EXPECT_EQ(refusal(plan).field, "sitting of a control");
  plan = trial_14();
  plan.controls[1].dilution = Permille(0);
  EXPECT_EQ(refusal(plan).field, "dilution of a yardstick");
  plan = trial_14();
  plan.controls[0].kind = ControlKind::repeat;
  plan.controls[0].lot = test::id_of<Lot>(77);
  EXPECT_EQ(refusal(plan).field, "leaf of a repeat serving");
}

TEST(Deal, RefusesARepeatWhoseSittingHasNoBrewPairOfItsLeaf) {
  Plan plan = plan_of(2, 1, 2);
  plan.pairs_per_sitting = 2;
  plan.sittings = 1;
  plan.controls = {{ControlKind::repeat, plan.lots[0], 0, 1, Permille(120)}};
  EXPECT_EQ(dealt(plan).key.pairs.size(), 4U);
  plan.sittings = 4;  // emptier sittings than brew pairs: the repeat stands alone in the last
  plan.controls[0].sitting = 4;
  const Error error = refusal(plan);
  EXPECT_EQ(error.field, "repeat serving");
  EXPECT_EQ(error.value, "sitting 4");
}

TEST(Deal, RefusesAPlanWhoseCodesRunOut) {
  Plan plan = plan_of(6, 40, 2, 3);  // 480 pairs
  const Error error = refusal(plan);
  EXPECT_EQ(error.kind, ErrorKind::too_large);
  EXPECT_EQ(error.field, "blind codes");
}

}  // namespace
}  // namespace likeleaf::design
