// Sentences for people: errors and the words of findings.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "core/base/entropy.h"
#include "core/codec/builtin.h"
#include "core/wording/attribute_text.h"
#include "core/wording/cautions.h"
#include "core/wording/drift_text.h"
#include "core/wording/errors.h"
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"
#include "core/wording/rule_text.h"

namespace likeleaf {
namespace {

using evidence::AttributeFinding;
using evidence::Interval;
using evidence::Word;

SealedPlan plan_of_two_temperatures() {
  SealedPlan p;
  p.plan.lever.kind = LeverKind::water_temperature;
  Level hot, cool;
  hot.value = 88'000;
  hot.present_way = true;
  cool.value = 68'000;
  p.plan.lever.levels = {hot, cool};
  p.attributes = builtin_attributes();
  return p;
}

AttributeFinding finding(Word word, double estimate, double low, double high) {
  AttributeFinding f;
  f.attribute = *find_attribute(builtin_attributes(), "bitterness");
  f.contrast = {1, 0};
  f.deciding = true;
  f.margin = 1;
  f.word = word;
  f.estimate = estimate;
  f.interval = Interval{low, high, 0.95};
  f.engine = evidence::Engine::exact;
  return f;
}

TEST(Errors, name_field_value_and_what_is_allowed) {
  EXPECT_EQ(wording::sentence({ErrorKind::bad_value, "bitterness, cup 417", "7.3", "0 to 10 in half steps", {}}),
            "Bitterness, cup 417: cannot take “7.3”; allowed: 0 to 10 in half steps.");
  EXPECT_EQ(wording::sentence({ErrorKind::missing, {}, {}, "initials", {}, Field::who}),
            "Who: is missing; allowed: initials.");
}

TEST(Errors, every_kind_has_its_words) {
  for (int kind = 0; kind <= static_cast<int>(ErrorKind::internal); ++kind) {
    const std::string said = wording::sentence({static_cast<ErrorKind>(kind), "field", "value", "allowed", "where"});
    EXPECT_GT(said.size(), 6u);
    EXPECT_EQ(said.back(), '.');
  }
}

TEST(Sentences, moved_says_where_there_is_more_and_how_sure) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::moved, 1.9, 1.1, 2.7);
  f.enough_to_matter = true;
  EXPECT_EQ(wording::finding_text(f, plan, {}, false).title, "Bitterness: Moved, enough to matter");
  EXPECT_EQ(wording::finding_text(f, plan, {}, false).sentence, "more bitter at 88\u00A0°C by 1.9 (1.1 to 2.7 more).");
  f.estimate = -1.9;
  f.interval = Interval{-2.7, -1.1, 0.95};
  EXPECT_EQ(wording::finding_text(f, plan, {}, false).sentence, "less bitter at 88\u00A0°C by 1.9 (1.1 to 2.7 less).");
}

TEST(Sentences, a_finish_as_long_at_both_is_not_called_longer) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::open, 0.0004, -0.26, 0.27);
  f.attribute = *find_attribute(builtin_attributes(), "finish_length");
  f.deciding = false;
  const auto said = wording::finding_text(f, plan, {}, false).sentence;
  EXPECT_TRUE(said.starts_with("as long a finish at 88\u00A0°C: 1.00 times the time (")) << said;
  f.estimate = 0.2;
  EXPECT_TRUE(wording::finding_text(f, plan, {}, false).sentence.starts_with("longer finish at 88"));
}

Drift drift(ConstantKind what, std::int64_t planned, std::int64_t actual, std::int64_t tolerance) {
  Drift d;
  d.set = 2;
  d.what = what;
  d.planned = planned;
  d.actual = actual;
  d.tolerance = tolerance;
  return d;
}

TEST(Sentences, every_kind_of_drift_is_said_in_its_own_unit) {
  const auto plan = plan_of_two_temperatures();
  const auto said = [&](const Drift& d) { return wording::drift_text(d, "L-12", plan, {}); };
  auto steep = drift(ConstantKind::steep_time, 45'000, 50'000, 3'000);
  steep.level = 0;
  EXPECT_EQ(
      said(steep),
      "L-12, second brew pair, 88\u00A0°C: steep time 50\u00A0s for 45\u00A0s, 2\u00A0s past the ±3\u00A0s allowed");
  auto apart = drift(ConstantKind::tasting_temperature, 0, 1'400, 1'000);
  auto cool = drift(ConstantKind::tasting_temperature, 42'000, 39'500, 1'000);
  auto held = drift(ConstantKind::longest_hold, 600'000, 865'000, 0);
  FixedEntropy ids(3);
  for (auto* d : {&apart, &cool, &held}) d->pair = IdOf<Pair>::make(ids);
  EXPECT_EQ(said(apart), "L-12, second brew pair: cups 1.4\u00A0°C apart at first sip, 1\u00A0°C allowed");
  EXPECT_EQ(said(cool),
            "L-12, second brew pair: tasting temperature 39.5\u00A0°C for 42\u00A0°C, 1.5\u00A0°C past the ±1\u00A0°C "
            "allowed");
  held.level = 0;
  EXPECT_EQ(said(held),
            "L-12, second brew pair, 88\u00A0°C: stood ready for 14\u00A0min\u00A0"
            "25\u00A0s before it was served, "
            "10\u00A0min at most");
  EXPECT_EQ(said(drift(ConstantKind::chill, 0, 1, 0)), "L-12, second brew pair: chilled another way than planned");
  for (const auto& d : {steep, apart, cool, held}) EXPECT_FALSE(wording::drift_effect(d).empty());
}

TEST(Sentences, more_water_weakens_and_less_strengthens) {
  EXPECT_EQ(wording::drift_effect(drift(ConstantKind::water_mass, 150'000, 165'000, 5'000)), "May weaken everything.");
  EXPECT_EQ(wording::drift_effect(drift(ConstantKind::water_mass, 150'000, 135'000, 5'000)),
            "May strengthen everything.");
}

TEST(Sentences, a_leaf_of_the_rule_has_its_own_line_with_its_direction) {
  const auto plan = plan_of_two_temperatures();
  evidence::RuleOutcome outcome;
  outcome.met = evidence::ClauseOutcome::Met::met;
  outcome.leaves = {{"L-12", "bitterness", -1.5}, {"L-12", "body", 0.8}, {"L-14", "finish_length", std::log(0.8)}};
  EXPECT_EQ(wording::rule_outcome(outcome, plan, {}),
            "Met. (L-12 itself: bitterness 1.5 less, body 0.8 more; L-14 itself: finish length ×0.80)");
}

TEST(Sentences, a_trial_is_named_by_its_levels_in_the_plans_order_in_the_readers_unit) {
  const Style here{}, fahrenheit{TemperatureUnit::fahrenheit, ','};
  const auto level = [](std::int64_t value, bool now = false) { return Level{{}, value, {}, now, {}}; };
  const Lever heat{LeverKind::water_temperature, {}, {level(88'000, true), level(68'500)}};
  EXPECT_EQ(wording::changes_text(heat, here), "water temperature 88\u00A0°C (now) against 68.5\u00A0°C");
  EXPECT_EQ(wording::changes_text(heat, fahrenheit), "water temperature 190,4\u00A0°F (now) against 155,3\u00A0°F");
  const Lever time{LeverKind::steep_time, {}, {level(30'000), level(45'000, true), level(60'000)}};
  EXPECT_EQ(wording::changes_text(time, here), "steep time 30\u00A0s, 45\u00A0s (now), 60\u00A0s");
  const Lever words{LeverKind::other, "way of stirring", {{"none at 60 °C", {}, {}, false, {}}, {}}};
  EXPECT_EQ(wording::changes_text(words, fahrenheit), "way of stirring none at 60 °C against …")
      << "a house's own words stay as they are, and a level that says nothing yet is seen";
  EXPECT_EQ(wording::changes_text(Lever{}, here), "water temperature");
}

TEST(Sentences, held_is_said_in_full_only_when_the_panel_has_shown_that_it_notices) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::held, 0.1, -0.6, 0.8);
  EXPECT_NE(wording::finding_text(f, plan, {}, false).sentence.find("have not shown that we would taste"),
            std::string::npos);
  f.sensitivity_shown = true;
  EXPECT_EQ(wording::finding_text(f, plan, {}, false).sentence,
            "any change is within 1\u00A0point (0.6 less to 0.8 more).");
}

TEST(Sentences, open_is_never_no_difference) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::open, -0.5, -1.3, 0.3);
  f.open_reason = evidence::OpenReason::not_shown;
  f.pairs_if_seen = 26;
  f.not_worth_it = true;
  const auto said = wording::finding_text(f, plan, {TemperatureUnit::celsius, ','}, false).sentence;
  EXPECT_NE(said.find("less bitter at 88\u00A0°C by 0,5 (1,3 less to 0,3 more)"), std::string::npos) << said;
  EXPECT_NE(said.find("26 brew pairs"), std::string::npos);
  EXPECT_NE(said.find("Not worth it with this plan"), std::string::npos);
}

TEST(Sentences, a_level_off_95_per_cent_is_said) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::moved, 1.9, 1.1, 2.7);
  f.interval->level = 1 - 0.05 / 3;
  EXPECT_NE(wording::finding_text(f, plan, {}, false).sentence.find("98.3\u00A0%"), std::string::npos);
}

TEST(Sentences, the_level_is_said_of_either_method_and_not_of_a_description) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::moved, 1.9, 1.1, 2.7);
  f.enough_to_matter = true;
  f.interval->level = 0.975;
  for (const auto engine : {evidence::Engine::exact, evidence::Engine::t}) {
    f.engine = engine;
    EXPECT_EQ(wording::finding_text(f, plan, {}, false).sentence,
              "more bitter at 88\u00A0°C by 1.9 (1.1 to 2.7 more; 97.5\u00A0%).");
  }
  f.engine = evidence::Engine::describe;
  EXPECT_EQ(wording::finding_text(f, plan, {}, false).sentence, "more bitter at 88\u00A0°C by 1.9 (1.1 to 2.7 more).");
}

TEST(Sentences, what_a_new_trial_would_need_names_each_of_its_aims) {
  const auto plan = plan_of_two_temperatures();
  auto f = finding(Word::open, 0.5, -0.3, 1.3);
  f.open_reason = evidence::OpenReason::not_shown;
  f.pairs_if_seen = 26;
  f.pairs_if_margin = 8;
  f.pairs_to_hold = 9;
  EXPECT_EQ(
      wording::finding_text(f, plan, {}, false).sentence,
      "more bitter at 88\u00A0°C by 0.5 (0.3 less to 1.3 more). A new trial would need about 26 brew pairs to show "
      "what we saw, 8 to show 1\u00A0point, 9 to show that it holds.");
  f.pairs_if_seen = f.pairs_if_margin = std::nullopt;
  EXPECT_TRUE(wording::finding_text(f, plan, {}, false)
                  .sentence.ends_with(" A new trial would need about 9 brew pairs to show that it holds."));
}

RC_GTEST_PROP(Sentences, an_interval_is_said_from_small_to_large_without_signs, ()) {
  const double low = *rc::gen::inRange(-40, 40) / 10.0, high = low + *rc::gen::inRange(0, 40) / 10.0;
  const auto f = finding(Word::moved, (low + high) / 2, low, high);
  const auto said = wording::interval_text(f, *f.interval, {});
  RC_ASSERT(said.find("\u2212") == std::string::npos);
  RC_ASSERT(said.find(" to ") != std::string::npos);
  RC_ASSERT(said.find("more") != std::string::npos || said.find("less") != std::string::npos);
}

// Burn times fall to seconds above 60 °C (checks.csv D01, scald time table).
TEST(Cautions, scalds_glass_in_ice_and_allergens_are_named_at_their_step) {
  auto plan = plan_of_two_temperatures().plan;
  Constant vessel, chill;
  vessel.kind = ConstantKind::vessel;
  vessel.text = "a glass of 250 ml";
  chill.kind = ConstantKind::chill;
  chill.text = "into ice with lids";
  plan.constants = {vessel, chill};
  Lot lot;
  lot.code = "L-30";
  lot.allergens = "almond";
  EXPECT_NE(wording::cautions(wording::Step::pour, plan, {}, {}).at(0).find("88\u00A0°C"), std::string::npos);
  EXPECT_NE(wording::cautions(wording::Step::chill, plan, {}, {}).at(0).find("glass"), std::string::npos);
  bool named = false;
  for (const auto& c : wording::cautions(wording::Step::taste, plan, {lot}, {}))
    named = named || c.find("almond") != std::string::npos;
  EXPECT_TRUE(named);
}

}  // namespace
}  // namespace likeleaf
