#include <gtest/gtest.h>

#include "core/evidence/find.h"
#include "tests/core/evidence/trial_builder.h"

namespace likeleaf::evidence {
namespace {

using likeleaf::test::TrialBuilder;
using At = TrialBuilder::At;
using Met = ClauseOutcome::Met;
using Way = RuleClause::Way;

/// b − a in half points, a little unlike from brew pair to brew pair.
TrialBuilder moved_by(int body, int sweetness = 0) {
  TrialBuilder builder(1, 8, 2);
  builder.attribute("body", true);
  builder.attribute("sweetness", true);
  const auto put = [&](const std::string& id, int by) {
    builder.fill(id, [&](const At& at) { return std::pair(10, 10 + by + (at.set + at.assessor) % 3 - 1); });
  };
  put("body", body);
  put("sweetness", sweetness);
  return builder;
}

RuleOutcome outcome(TrialBuilder builder, std::vector<RuleClause> clauses, std::size_t to_level = 1) {
  builder.plan.rule = IfThenRule{std::move(clauses), to_level, {builder.plan.lots[0]}, "go there at the counter"};
  return find(builder.unmasked()).value().rule.value();
}

TEST(Rule, ThereIsNoneWithoutAPlannedOne) {
  EXPECT_FALSE(find(moved_by(0).unmasked()).value().rule);
}

TEST(Rule, RisesByIsMetWhenTheWholeIntervalLiesBeyond) {
  EXPECT_EQ(outcome(moved_by(6), {{"body", Way::rises, 2}}).met, Met::met);
  // Moved, but the interval around 3 points does not lie beyond 3 points.
  EXPECT_EQ(outcome(moved_by(6), {{"body", Way::rises, 6}}).met, Met::cannot_say);
}

TEST(Rule, IsNotMetWhenHeldOppositeOrWhollyShort) {
  EXPECT_EQ(outcome(moved_by(0), {{"body", Way::rises, 2}}).met, Met::not_met);   // held
  EXPECT_EQ(outcome(moved_by(6), {{"body", Way::falls, 2}}).met, Met::not_met);   // opposite
  EXPECT_EQ(outcome(moved_by(6), {{"body", Way::rises, 10}}).met, Met::not_met);  // 3 points are short of 5
}

TEST(Rule, HoldsIsMetByHeldAndNotByMoved) {
  EXPECT_EQ(outcome(moved_by(0), {{"body", Way::holds, 0}}).met, Met::met);
  EXPECT_EQ(outcome(moved_by(6), {{"body", Way::holds, 0}}).met, Met::not_met);
}

TEST(Rule, CannotSayWhenOpen) {
  auto builder = moved_by(0);
  builder.fill("body", [](const At& at) { return std::pair(10, at.set % 2 ? 16 : 6); });
  ASSERT_EQ(find(builder.unmasked()).value().attributes.back().word, Word::open);
  EXPECT_EQ(outcome(builder, {{"body", Way::rises, 2}}).met, Met::cannot_say);
  EXPECT_EQ(outcome(builder, {{"body", Way::holds, 2}}).met, Met::cannot_say);
}

TEST(Rule, AllClausesHaveToBeMet) {
  const auto both = outcome(moved_by(6, 0), {{"body", Way::rises, 2}, {"sweetness", Way::holds, 2}});
  EXPECT_EQ(both.met, Met::met);
  const auto one = outcome(moved_by(6, 6), {{"body", Way::rises, 2}, {"sweetness", Way::holds, 2}});
  EXPECT_EQ(one.clauses[0].met, Met::met);
  EXPECT_EQ(one.clauses[1].met, Met::not_met);
  EXPECT_EQ(one.met, Met::not_met);
}

TEST(Rule, SpeaksOfTheChangeFromThePresentWay) {
  // The present way is the hotter level (b); going to level 0 turns every sign round.
  auto builder = moved_by(6);
  builder.plan.lever.levels[0].present_way = false;
  builder.plan.lever.levels[1].present_way = true;
  EXPECT_EQ(outcome(builder, {{"body", Way::falls, 2}}, 0).met, Met::met);
  EXPECT_EQ(outcome(builder, {{"body", Way::rises, 2}}, 0).met, Met::not_met);
  const auto leaves = outcome(builder, {{"body", Way::falls, 2}}, 0).leaves;
  ASSERT_EQ(leaves.size(), 1U);
  EXPECT_EQ(leaves[0].lot, "L-1");
  EXPECT_NEAR(leaves[0].estimate, -3, 0.5);
}

TEST(Rule, AnUnknownAttributeCannotBeSaid) {
  EXPECT_EQ(outcome(moved_by(6), {{"savoury", Way::falls, 2}}).met, Met::cannot_say);
}

}  // namespace
}  // namespace likeleaf::evidence
