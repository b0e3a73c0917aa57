#include "core/evidence/find.h"

#include <gtest/gtest.h>

#include "core/codec/builtin.h"
#include "tests/core/evidence/trial_builder.h"

namespace likeleaf::evidence {
namespace {

using likeleaf::test::TrialBuilder;
using At = TrialBuilder::At;

const AttributeFinding& of(const Findings& findings, const std::string& id, Contrast contrast = {0, 1}) {
  for (const auto& f : findings.attributes)
    if (f.attribute.id == id && f.contrast == contrast) return f;
  throw std::runtime_error("no finding on " + id);
}

/// A number of half points that varies a little over brew pairs and assessors, the same on every run.
int wobble(const At& at) {
  return (at.lot + 2 * at.set + at.assessor) % 3 - 1;
}

/// Two lots of four brew pairs, three tasters: body moves up by 3, sweetness holds, bitterness has no direction.
TrialBuilder ordinary() {
  TrialBuilder builder(2, 4, 3);
  builder.attribute("sweetness", true, 2, Expectation::same);
  builder.attribute("bitterness", true);
  builder.attribute("astringency", false);
  builder.attribute("body", true, 2, Expectation::more);
  builder.fill("body", [](const At& at) { return std::pair(6, 12 + wobble(at)); });
  builder.fill("sweetness", [](const At& at) { return std::pair(8, 8 + wobble(at)); });
  builder.fill("bitterness", [](const At& at) { return std::pair(8, 8 + (at.set % 2 ? 4 : -2) + wobble(at)); });
  builder.fill("astringency", [](const At& at) { return std::pair(6, 10 + wobble(at)); });
  return builder;
}

TEST(Findings, StandInTheOrderMovedHeldOpenThenAlsoNoted) {
  const auto findings = find(ordinary().unmasked()).value();
  ASSERT_EQ(findings.attributes.size(), 4U);
  EXPECT_EQ(findings.attributes[0].attribute.id, "body");
  EXPECT_EQ(findings.attributes[0].word, Word::moved);
  EXPECT_EQ(findings.attributes[1].attribute.id, "sweetness");
  EXPECT_EQ(findings.attributes[1].word, Word::held);
  EXPECT_EQ(findings.attributes[2].attribute.id, "bitterness");
  EXPECT_EQ(findings.attributes[2].word, Word::open);
  EXPECT_EQ(findings.attributes[3].word, Word::noted);
  EXPECT_EQ(findings.attributes[0].engine, Engine::exact);
}

TEST(Findings, CountWhatWasTasted) {
  auto builder = ordinary();
  builder.exclude({0, 1, 0}, true);
  builder.exclude({0, 2, 0}, false);
  builder.control(PairKind::blank, 0, 0);
  builder.mark(builder.serving({1, 1, 1}), "body", NoScore::could_not_judge, *Score::from_halves(6));
  const auto findings = find(builder.unmasked()).value();
  EXPECT_EQ(findings.brew_pairs, 8);
  EXPECT_EQ(findings.tasted_pairs, 23);
  EXPECT_EQ(findings.sheets, 27);
  EXPECT_EQ(findings.counted_sheets, 26);
  EXPECT_EQ(findings.excluded_before, 1);
  EXPECT_EQ(findings.excluded_after, 1);
  EXPECT_EQ(findings.could_not_judge, 1);
  EXPECT_EQ(findings.lot_codes, (std::vector<std::string>{"L-1", "L-2"}));
  EXPECT_EQ(findings.assessor_aliases, (std::vector<std::string>{"T1", "T2", "T3"}));
}

TEST(Findings, PartsArePeopleAndLeavesByTheirNames) {
  const auto findings = find(ordinary().unmasked()).value();
  const auto& body = of(findings, "body");
  ASSERT_EQ(body.by_lot.size(), 2U);
  EXPECT_EQ(body.by_lot[1].name, "L-2");
  EXPECT_EQ(body.by_lot[1].brew_pairs, 4);
  EXPECT_EQ(body.by_lot[1].tasted_pairs, 12);
  ASSERT_EQ(body.by_assessor.size(), 3U);
  EXPECT_EQ(body.by_assessor[2].name, "T3");
  EXPECT_EQ(body.by_assessor[2].tasted_pairs, 8);
  ASSERT_EQ(body.pairs.size(), 24U);
  EXPECT_DOUBLE_EQ(*body.pairs[0].b - *body.pairs[0].a, body.pairs[0].d);
  EXPECT_DOUBLE_EQ(*body.mean_a, 3);
}

TEST(Findings, ExpectationsStandBesideResults) {
  auto builder = ordinary();
  using Outcome = AttributeFinding::Outcome;
  EXPECT_EQ(of(find(builder.unmasked()).value(), "body").outcome, Outcome::as_expected);
  EXPECT_EQ(of(find(builder.unmasked()).value(), "sweetness").outcome, Outcome::as_expected);
  EXPECT_EQ(of(find(builder.unmasked()).value(), "bitterness").outcome, Outcome::none);
  for (auto& a : builder.plan.attributes) a.expected = Expectation::less;
  EXPECT_EQ(of(find(builder.unmasked()).value(), "body").outcome, Outcome::opposite);
  EXPECT_EQ(of(find(builder.unmasked()).value(), "bitterness").outcome, Outcome::not_settled);
}

TEST(Findings, LateExclusionsChangeTheSensitivityLineOnly) {
  auto builder = ordinary();
  const auto before = of(find(builder.unmasked()).value(), "body");
  EXPECT_FALSE(before.estimate_with_late_exclusions);
  builder.score({0, 1, 0}, "body", 0, 20);
  const auto with = of(find(builder.unmasked()).value(), "body");
  builder.exclude({0, 1, 0}, false);
  const auto late = of(find(builder.unmasked()).value(), "body");
  EXPECT_EQ(late.word, with.word);
  EXPECT_DOUBLE_EQ(late.estimate, with.estimate);
  EXPECT_EQ(late.p_moved, with.p_moved);
  ASSERT_TRUE(late.estimate_with_late_exclusions);
  EXPECT_LT(*late.estimate_with_late_exclusions, late.estimate);
}

TEST(Findings, DirectAnswersAloneAreNeverHeld) {
  TrialBuilder builder(1, 8, 2);
  builder.attribute("body", true);
  builder.direct_for = {"body"};
  builder.each([&](const At& at) { builder.direct(at, "body", 0); });
  const auto body = of(find(builder.unmasked()).value(), "body");
  EXPECT_EQ(body.word, Word::open);
  EXPECT_EQ(body.open_reason, OpenReason::nothing_left);
  ASSERT_TRUE(body.direct);
  EXPECT_EQ(body.direct->cannot_tell, 16);
}

TEST(Findings, DirectAnswersGoThroughTheSameEngineByBrewPair) {
  auto builder = ordinary();
  builder.direct_for = {"body"};
  builder.each([&](const At& at) { builder.direct(at, "body", 1); });
  builder.direct({0, 1, 0}, "body", -1);
  builder.direct({0, 1, 1}, "body", 0);
  builder.sheet({0, 1, 2}).directs.clear();
  builder.mark(builder.serving({0, 1, 2}), "body", NoScore::could_not_judge, *Score::from_halves(6));
  const auto body = of(find(builder.unmasked()).value(), "body");
  ASSERT_TRUE(body.direct);
  EXPECT_EQ(body.direct->more, 21);
  EXPECT_EQ(body.direct->less, 1);
  EXPECT_EQ(body.direct->cannot_tell, 2);
  EXPECT_EQ(body.direct->could_not_judge, 1);
  EXPECT_EQ(body.direct->engine, Engine::exact);
  // Seven brew pairs of 1, one of (mean of −1 and 0 in one order, 0 in the other) = −0.25: 1 + 1 flips on each side
  // reach the sum of 6.75 (all seven up, the eighth either way).
  EXPECT_DOUBLE_EQ(*body.direct->p, 4.0 / 256);
  EXPECT_TRUE(body.direct->d_prime);
}

TEST(Findings, ThreeLevelsAreJudgedContrastByContrastInOneFamily) {
  TrialBuilder builder(2, 4, 2, 3);
  builder.attribute("body", true);
  builder.fill("body", [](const At& at) { return std::pair(6, 6 + wobble(at) + (at.contrast.b == 2 ? 6 : 0)); });
  const auto findings = find(builder.unmasked()).value();
  ASSERT_EQ(findings.contrasts.size(), 2U);
  ASSERT_EQ(findings.attributes.size(), 2U);
  EXPECT_EQ(findings.attributes[0].contrast, (Contrast{0, 1}));
  const auto& far = of(findings, "body", {0, 2});
  EXPECT_EQ(far.word, Word::moved);
  EXPECT_NEAR(*far.alpha_moved, 0.025, 1e-15);  // Holm over two contrasts of one attribute
  EXPECT_EQ(of(findings, "body", {0, 1}).word, Word::held);
  EXPECT_EQ(findings.brew_pairs, 8);
}

TEST(Findings, TooFaintToJudgeIsOpen) {
  TrialBuilder builder(1, 8, 2);
  builder.attribute("body", true);
  builder.fill("body", [](const At& at) { return std::pair(0, at.set % 2); });
  const auto body = of(find(builder.unmasked()).value(), "body");
  EXPECT_EQ(body.word, Word::open);
  EXPECT_EQ(body.open_reason, OpenReason::too_faint);
}

TEST(Findings, CutOffFinishTimesReachTheVerdict) {
  TrialBuilder builder(1, 8, 2);
  builder.attribute("finish_length", true, 1250);
  builder.each([&](const At& at) { builder.seconds(at, 30 + at.set, 60 + 3 * at.assessor + at.set); });
  EXPECT_EQ(of(find(builder.unmasked()).value(), "finish_length").word, Word::moved);
  // "Over 120" against 91 to 98 s is 1.2 to 1.3 times at one end, some of it inside the margin, and twice that at the
  // other: Moved at both, enough to matter at one only.
  builder.each([&](const At& at) { builder.seconds(at, 90 + at.set, 200); });
  const auto finding = of(find(builder.unmasked()).value(), "finish_length");
  EXPECT_EQ(finding.word, Word::moved);
  EXPECT_FALSE(finding.enough_to_matter);
  EXPECT_EQ(finding.cut_off, 16);
  // Against 118 and 119 s: no change worth a name at one end, twice as long at the other.
  builder.each([&](const At& at) { builder.seconds(at, at.set % 2 ? 118 : 119, 200); });
  EXPECT_EQ(of(find(builder.unmasked()).value(), "finish_length").open_reason, OpenReason::cut_off);
}

TEST(Findings, MoreRightGuessesThanChanceSayPossiblyUnblinded) {
  auto builder = ordinary();
  builder.each([&](const At& at) {
    const Side present = other(builder.side_b(builder.serving(at)));  // level 0 is the present way
    builder.sheet(at).guess = Guess{true, at.set == 1 ? std::optional(present) : std::nullopt};
  });
  auto guesses = find(builder.unmasked()).value().guesses;
  EXPECT_EQ(guesses.sheets, 24);
  EXPECT_EQ(guesses.saw_difference, 24);
  EXPECT_EQ(guesses.guessed, 6);
  EXPECT_EQ(guesses.right, 6);
  EXPECT_DOUBLE_EQ(*guesses.p, 1.0 / 64);
  EXPECT_TRUE(guesses.possibly_unblinded);
  builder.sheet({0, 1, 0}).guess->present_way = builder.side_b(builder.serving({0, 1, 0}));
  guesses = find(builder.unmasked()).value().guesses;
  EXPECT_EQ(guesses.right, 5);
  EXPECT_FALSE(guesses.possibly_unblinded);  // 7/64
}

TEST(Findings, AromaWordsAreCountedByCupAndPair) {
  auto builder = ordinary();
  const auto& word = builtin_lexicon().front();
  auto& sheet = builder.sheet({0, 1, 0});
  sheet.left.words = {{word.id, 2}};
  sheet.right.words = {{word.id, std::nullopt}, {"wet slate", std::nullopt}};
  const Side b = builder.side_b(builder.serving({0, 2, 0}));
  builder.sheet({0, 2, 0}).cup(b).words = {{word.id, 1}};
  const auto words = find(builder.unmasked()).value().words;
  ASSERT_EQ(words.size(), 2U);
  EXPECT_EQ(words[0].word, word.word);
  EXPECT_EQ(words[0].a_cups, 1);
  EXPECT_EQ(words[0].b_cups, 2);
  EXPECT_EQ(words[0].pairs, 2);
  EXPECT_EQ(words[1].word, "wet slate");
  EXPECT_EQ(words[1].band, "");
}

TEST(Findings, ADriftShowsTheWordsWithoutItsBrewPair) {
  auto builder = ordinary();
  builder.plan.constants = {{ConstantKind::steep_time, {}, 45'000, 3'000, {}, {}},
                            {ConstantKind::tasting_temperature, {}, 42'000, 1'500, {}, {}}};
  Infusion infusion;
  infusion.steep = seconds(60);
  builder.brew(1, 2, true).infusions = {infusion};
  builder.each([&](const At& at) {
    if (at.lot == 1 && at.set == 2) builder.score(at, "body", 6, 20);
  });
  const auto findings = find(builder.unmasked()).value();
  EXPECT_EQ(findings.tasting_temperature, celsius(42));
  ASSERT_EQ(findings.drifts.size(), 1U);
  const auto& effect = findings.drifts[0];
  EXPECT_EQ(effect.lot, "L-2");
  EXPECT_EQ(effect.drift.set, 2);
  ASSERT_EQ(effect.without.size(), 3U);  // the deciding attributes
  for (const auto& without : effect.without) {
    if (without.attribute != "body") continue;
    EXPECT_LT(without.estimate, of(findings, "body").estimate);
    EXPECT_EQ(without.word, Word::moved);
  }
}

TEST(Findings, TheOrderOfServingsChangesNothing) {
  const auto builder = ordinary();
  auto reversed = builder.trial();
  std::reverse(reversed->servings.begin(), reversed->servings.end());
  const auto x = find(builder.unmasked()).value(), y = find(open_unmasked(reversed).value()).value();
  for (std::size_t i = 0; i < x.attributes.size(); ++i) {
    EXPECT_EQ(x.attributes[i].word, y.attributes[i].word);
    EXPECT_EQ(x.attributes[i].p_moved, y.attributes[i].p_moved);
    EXPECT_EQ(x.attributes[i].estimate, y.attributes[i].estimate);
  }
}

TEST(Findings, CancelledWorkShowsNothing) {
  std::stop_source source;
  source.request_stop();
  const auto result = find(ordinary().unmasked(), {}, source.get_token());
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().kind, ErrorKind::cancelled);
}

TEST(Findings, ProgressRisesToOne) {
  std::vector<double> seen;
  ASSERT_TRUE(find(ordinary().unmasked(), {}, {}, [&](double share) { seen.push_back(share); }));
  ASSERT_FALSE(seen.empty());
  EXPECT_TRUE(std::is_sorted(seen.begin(), seen.end()));
  EXPECT_DOUBLE_EQ(seen.back(), 1);
}

}  // namespace
}  // namespace likeleaf::evidence
