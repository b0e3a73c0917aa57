#include <gtest/gtest.h>

#include "core/evidence/find.h"
#include "core/wording/reasons.h"
#include "tests/core/evidence/trial_builder.h"

namespace likeleaf::evidence {
namespace {

using likeleaf::test::TrialBuilder;
using At = TrialBuilder::At;

Score halves(int h) {
  return *Score::from_halves(h);
}

TrialBuilder quiet_trial(int assessors) {
  TrialBuilder builder(1, 8, assessors);
  builder.attribute("body", true);
  builder.fill("body", [](const At& at) { return std::pair(8, 8 + (at.set + at.assessor) % 3 - 1); });
  return builder;
}

TEST(Controls, BlanksReportTheirSizesAgainstTheMargin) {
  auto builder = quiet_trial(5);
  const int d[2][5] = {{0, 1, -2, 3, 0}, {1, 0, 0, -1, 2}};
  for (std::size_t pair = 0; pair < 2; ++pair) {
    const auto servings = builder.control(PairKind::blank, 0, pair);
    for (std::size_t k = 0; k < 5; ++k) builder.mark(servings[k], "body", halves(8), halves(8 + d[pair][k]));
  }
  const auto blanks = find(builder.unmasked()).value().blanks;
  ASSERT_EQ(blanks.size(), 1U);
  EXPECT_EQ(blanks[0].sheets, 10);
  EXPECT_FALSE(blanks[0].too_few);
  EXPECT_DOUBLE_EQ(blanks[0].mean_abs, 0.5);
  EXPECT_DOUBLE_EQ(blanks[0].largest, 1.5);
  EXPECT_EQ(blanks[0].at_least_margin, 3);
  // Clopper–Pearson, 3 of 10 at 95 %: 0.0667 to 0.6525 (tables).
  EXPECT_NEAR(blanks[0].share.low, 0.0667, 5e-5);
  EXPECT_NEAR(blanks[0].share.high, 0.6525, 5e-5);
}

TEST(Controls, WithoutTheOnlyBrewPairNothingIsLeftToJudgeAndThatIsSaid) {
  auto builder = quiet_trial(3);
  const auto unmasked = builder.unmasked();
  auto findings = find(unmasked).value();
  Drift drift;
  drift.set = 1;
  drift.what = ConstantKind::steep_time;
  drift.planned = 45'000;
  drift.actual = 50'000;
  drift.tolerance = 3'000;
  const auto said = [&] {
    std::string all;
    for (const auto& reason : wording::reasons(findings, unmasked, {})) all += reason.text + "\n";
    return all;
  };
  findings.drifts = {{drift, "L-12", {}}};
  EXPECT_NE(said().find("Without it nothing is left to judge."), std::string::npos) << said();
  findings.drifts[0].without = {{"body", 1.5, Word::open}};
  EXPECT_EQ(said().find("nothing is left"), std::string::npos);
  EXPECT_NE(said().find("Without it: body +1.5."), std::string::npos) << said();
}

TEST(Controls, FewerThanTenBlankSheetsAreTooFewToCallClean) {
  auto builder = quiet_trial(3);
  for (const auto& serving : builder.control(PairKind::blank, 0, 0))
    builder.mark(serving, "body", halves(8), halves(8));
  EXPECT_TRUE(find(builder.unmasked()).value().blanks.at(0).too_few);
}

TEST(Controls, AYardstickThatIsNoticedShowsSensitivity) {
  auto builder = quiet_trial(4);
  EXPECT_FALSE(find(builder.unmasked()).value().attributes[0].sensitivity_shown);
  const auto servings = builder.control(PairKind::yardstick, 0, 0, Permille(120));
  const int d[] = {-2, -3, -2, -1};
  for (std::size_t k = 0; k < 4; ++k) builder.mark(servings[k], "body", halves(10), halves(10 + d[k]));
  const auto findings = find(builder.unmasked()).value();
  ASSERT_EQ(findings.yardsticks.size(), 1U);
  const auto& yardstick = findings.yardsticks[0];
  EXPECT_DOUBLE_EQ(yardstick.mean, -1);
  EXPECT_DOUBLE_EQ(yardstick.dilution_percent, 12);
  EXPECT_EQ(yardstick.sheets, 4);
  EXPECT_EQ(yardstick.lot, "L-1");
  // t: SD 0.4082 on four sheets, 3 df: ±3.1824·0.2041.
  EXPECT_NEAR(yardstick.interval->high, -1 + 3.182446 * 0.4082483 / 2, 1e-6);
  EXPECT_TRUE(yardstick.noticed);
  ASSERT_EQ(findings.attributes[0].word, Word::held);
  EXPECT_TRUE(findings.attributes[0].sensitivity_shown);
}

TEST(Controls, AYardstickOfAnotherTrialShowsSensitivityToo) {
  const auto builder = quiet_trial(4);
  HouseRules house;
  house.recent_yardsticks.push_back({"body", "L-9", 12, 4, -1, Interval{-1.5, -0.5, 0.95}, true});
  EXPECT_TRUE(find(builder.unmasked(), house).value().attributes[0].sensitivity_shown);
  house.recent_yardsticks[0].attribute = "bitterness";
  EXPECT_FALSE(find(builder.unmasked(), house).value().attributes[0].sensitivity_shown);
}

TEST(Controls, RepeatServingsAreHeldAgainstTheirTwins) {
  auto builder = quiet_trial(2);
  builder.score({0, 1, 0}, "body", 8, 10);
  builder.score({0, 1, 1}, "body", 8, 9);
  const auto again = builder.repeat(0, 1);
  builder.mark(again[0], "body", halves(8), halves(7));
  builder.mark(again[1], "body", halves(8), halves(10));
  const auto repeats = find(builder.unmasked()).value().repeats;
  ASSERT_EQ(repeats.size(), 1U);
  EXPECT_EQ(repeats[0].pairs, 2);
  EXPECT_DOUBLE_EQ(repeats[0].mean_abs, 1);  // 1.5 and 0.5 points
  EXPECT_DOUBLE_EQ(repeats[0].largest, 1.5);
}

TEST(Controls, LeanToTheFirstCupCancelsFromTheEstimate) {
  auto builder = quiet_trial(4);
  builder.each([&](const At& at) {
    const bool b_first = builder.side_b(builder.serving(at)) == Side::left;
    builder.score(at, "body", b_first ? 8 : 11, (b_first ? 11 : 8) + at.set % 2);
  });
  const auto finding = find(builder.unmasked()).value().attributes.at(0);
  EXPECT_DOUBLE_EQ(*finding.lean, 1.5);
  EXPECT_DOUBLE_EQ(finding.estimate, 0.25);
  EXPECT_DOUBLE_EQ(*finding.d_b_first, 1.75);
  EXPECT_DOUBLE_EQ(*finding.d_a_first, -1.25);
  EXPECT_TRUE(finding.order_gap);
}

}  // namespace
}  // namespace likeleaf::evidence
