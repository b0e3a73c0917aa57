#include "core/evidence/differences.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "core/evidence/find.h"
#include "tests/core/evidence/trial_builder.h"

namespace likeleaf::evidence {
namespace {

using likeleaf::test::scale_of;
using likeleaf::test::TrialBuilder;

Differences of(const TrialBuilder& builder, const std::string& attribute, CutOff end = CutOff::low_end,
               bool drop_late = false) {
  return differences(builder.unmasked(), scale_of(attribute), {0, 1}, end, drop_late);
}

TEST(Differences, AreTheScoreAtTheHigherLevelMinusTheOther) {
  TrialBuilder builder(2, 2, 2);
  builder.attribute("bitterness", true);
  builder.fill("bitterness", [](const auto& at) { return std::pair(4, 4 + 2 * at.lot + at.assessor); });
  const auto d = of(builder, "bitterness");
  ASSERT_EQ(d.values.size(), 8U);
  EXPECT_EQ(d.brew_pair_lot, (std::vector<int>{0, 0, 1, 1}));
  EXPECT_EQ(d.lots.size(), 2U);
  EXPECT_EQ(d.lots[1], builder.plan.lots[1].text());
  for (const auto& v : d.values) {
    EXPECT_EQ(v.d, 2 * v.lot + v.assessor);
    EXPECT_EQ(v.brew_pair / 2, v.lot);
    EXPECT_EQ(v.half_weight, 2);
  }
}

TEST(Differences, KnowWhichCupWasSippedFirst) {
  TrialBuilder builder(1, 1, 2);
  builder.attribute("bitterness", true);
  builder.fill("bitterness", [](const auto&) { return std::pair(4, 6); });
  const TrialBuilder::At at{0, 1, 0};
  EXPECT_EQ(of(builder, "bitterness").values[0].b_first, builder.side_b(builder.serving(at)) == Side::left);
  builder.sheet(at).sipped_first = other(builder.side_b(builder.serving(at)));
  EXPECT_FALSE(of(builder, "bitterness").values[0].b_first);
  builder.sheet(at).sipped_first = builder.side_b(builder.serving(at));
  EXPECT_TRUE(of(builder, "bitterness").values[0].b_first);
}

TEST(Differences, AnswersThatAreNoScoreAreMissingAndNotZero) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const auto&) { return std::pair(4, 6); });
  builder.mark(builder.serving({0, 1, 0}), "body", NoScore::could_not_judge, *Score::from_halves(3));
  builder.mark(builder.serving({0, 1, 1}), "body", NoScore::spoilt, NoScore::not_tasted);
  builder.sheet({0, 2, 0}).left.marks.clear();
  const auto d = of(builder, "body");
  EXPECT_EQ(d.missing, 3);
  ASSERT_EQ(d.values.size(), 1U);
  EXPECT_EQ(d.values[0].brew_pair, 1);
  EXPECT_EQ(d.brew_pair_lot.size(), 2U);  // the first brew pair keeps its place
}

TEST(Differences, ExclusionsBeforeUnmaskDefineTheSetAndLaterOnesDoNot) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const auto&) { return std::pair(4, 6); });
  builder.exclude({0, 1, 0}, true);
  builder.exclude({0, 2, 1}, false);
  EXPECT_EQ(of(builder, "body").values.size(), 3U);
  EXPECT_EQ(of(builder, "body", CutOff::low_end, true).values.size(), 2U);
}

TEST(Differences, BothCupsAtAnEndOfTheScaleAreOutOfRange) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const auto&) { return std::pair(0, 1); });
  builder.score({0, 1, 0}, "body", 1, 2);    // one cup above 0.5
  builder.score({0, 2, 0}, "body", 19, 20);  // too strong
  const auto d = of(builder, "body");
  EXPECT_EQ(d.faint, 2);
  EXPECT_EQ(d.strong, 1);
}

TEST(Differences, TheAromaRegisterIsDecidedOnTopMinusBase) {
  TrialBuilder builder(1, 1, 1);
  builder.attribute("aroma_register", true);
  builder.score({0, 1, 0}, "aroma_register.base", 8, 5);
  builder.score({0, 1, 0}, "aroma_register.middle", 0, 20);
  builder.score({0, 1, 0}, "aroma_register.top", 4, 10);
  EXPECT_EQ(of(builder, "aroma_register").values.at(0).d, (10 - 5) - (4 - 8));
}

TEST(Differences, FinishLengthIsALogRatioOfWholeSeconds) {
  TrialBuilder builder(1, 1, 2);
  builder.attribute("finish_length", true, 1250);
  builder.seconds({0, 1, 0}, 20, 30);
  builder.seconds({0, 1, 1}, 30, 20);
  const auto d = of(builder, "finish_length");
  EXPECT_EQ(d.values.at(0).d, std::llround(1e9 * std::log(1.5)));
  EXPECT_EQ(d.values.at(1).d, -d.values.at(0).d);
}

TEST(Differences, EqualRatiosAreTies) {
  TrialBuilder builder(1, 1, 2);
  builder.attribute("finish_length", true, 1250);
  builder.seconds({0, 1, 0}, 9, 21);
  builder.seconds({0, 1, 1}, 33, 77);
  const auto d = of(builder, "finish_length");
  EXPECT_EQ(d.values.at(0).d, d.values.at(1).d);
}

TEST(Differences, CutOffFinishTimesStandAtTheAskedEnd) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("finish_length", true, 1250);
  builder.seconds({0, 1, 0}, 30, 200);   // over 120
  builder.seconds({0, 1, 1}, 1, 30);     // under 3
  builder.seconds({0, 2, 0}, 2, 1);      // both under 3: missing
  builder.seconds({0, 2, 1}, 121, 500);  // both over 120: missing
  const auto low = of(builder, "finish_length", CutOff::low_end), high = of(builder, "finish_length", CutOff::high_end);
  EXPECT_EQ(low.missing, 2);
  EXPECT_EQ(low.cut_off, 4);
  ASSERT_EQ(low.values.size(), 2U);
  EXPECT_EQ(low.values[0].d, std::llround(1e9 * std::log(4.0)));
  EXPECT_EQ(high.values[0].d, std::llround(1e9 * std::log(8.0)));
  EXPECT_EQ(low.values[1].d, std::llround(1e9 * std::log(30.0)));
  EXPECT_EQ(high.values[1].d, std::llround(1e9 * std::log(10.0)));
}

TEST(Differences, ARepeatServingAndItsTwinHaveHalfWeightWhenBothAreScored) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const auto&) { return std::pair(4, 6); });
  const auto again = builder.repeat(0, 2);
  builder.mark(again[0], "body", *Score::from_halves(4), *Score::from_halves(9));
  const auto d = of(builder, "body");  // assessor 1's repeat has no score: its twin keeps its weight
  ASSERT_EQ(d.values.size(), 5U);
  int halves[2][2] = {};
  for (const auto& v : d.values) halves[v.brew_pair][v.assessor] += v.half_weight;
  for (const auto& of_pair : halves)
    for (const int h : of_pair) EXPECT_EQ(h, 2);
  EXPECT_EQ(d.values.back().brew_pair, 1);
  EXPECT_EQ(d.values.back().d, 5);
  EXPECT_EQ(d.values.back().half_weight, 1);
  EXPECT_NE(d.values.back().b_first, of(builder, "body").values[2].b_first);
}

TEST(Differences, ControlsNeverEnter) {
  TrialBuilder builder(1, 2, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const auto&) { return std::pair(4, 6); });
  for (const auto kind : {PairKind::blank, PairKind::yardstick, PairKind::warm_up})
    for (const auto& serving : builder.control(kind, 0, 1, Permille(120)))
      builder.mark(serving, "body", *Score::from_halves(20), *Score::from_halves(0));
  EXPECT_EQ(of(builder, "body").values.size(), 4U);
}

RC_GTEST_PROP(DifferencesProperty, AddingAConstantToBothCupsOfAPairChangesNothing, ()) {
  TrialBuilder plain(2, 2, 2), shifted(2, 2, 2);
  for (auto* builder : {&plain, &shifted}) builder->attribute("bitterness", true);
  plain.each([&](const TrialBuilder::At& at) {
    const int a = *rc::gen::inRange(3, 12), b = *rc::gen::inRange(3, 12), by = *rc::gen::inRange(-1, 6);
    plain.score(at, "bitterness", a, b);
    shifted.score(at, "bitterness", a + by, b + by);
  });
  const auto x = find(plain.unmasked()).value().attributes.at(0), y = find(shifted.unmasked()).value().attributes.at(0);
  RC_ASSERT(x.word == y.word);
  RC_ASSERT(x.estimate == y.estimate);
  RC_ASSERT(x.p_moved == y.p_moved);
  RC_ASSERT(x.p_held == y.p_held);
  RC_ASSERT(x.interval.has_value() == y.interval.has_value());
  if (x.interval) RC_ASSERT(x.interval->low == y.interval->low && x.interval->high == y.interval->high);
}

}  // namespace
}  // namespace likeleaf::evidence
