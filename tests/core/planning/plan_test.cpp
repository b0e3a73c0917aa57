#include "core/domain/plan.h"
#include "core/codec/builtin.h"
#include "core/planning/one_variable.h"
#include "core/planning/plan_check.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>

#include "core/base/number_text.h"
#include "core/planning/engine_rule.h"
#include "core/planning/needs.h"
#include "core/wording/forecast_text.h"
#include "core/wording/plan_note_text.h"
#include "tests/core/domain/ferry_pier.h"

namespace likeleaf {
namespace {

using test::FerryPier;
using test::id_of;

std::vector<PlanNote> notes_of(const FerryPier& pier, const Plan& plan) {
  return check(plan, pier.registers, builtin_attributes());
}

/// The notes of one weight as "field | value | allowed", in °C with a point.
std::vector<std::string> texts(const FerryPier& pier, const Plan& plan, PlanNote::Weight weight) {
  std::vector<std::string> out;
  for (const auto& note : notes_of(pier, plan)) {
    if (note.weight != weight) continue;
    const Error said = wording::error_of(note, {plan, pier.registers, builtin_attributes()}, Style{});
    out.push_back(said.field + " | " + said.value + " | " + said.allowed);
  }
  return out;
}

std::vector<std::string> blocks(const FerryPier& pier, const Plan& plan) {
  return texts(pier, plan, PlanNote::Weight::blocks);
}
std::vector<std::string> cautions(const FerryPier& pier, const Plan& plan) {
  return texts(pier, plan, PlanNote::Weight::caution);
}

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

// ---- names, contrasts, texts ----

TEST(Lever, OnlyTemperatureTimeAndDoseAreNumbers) {
  EXPECT_TRUE(is_numeric(LeverKind::water_temperature));
  EXPECT_TRUE(is_numeric(LeverKind::steep_time));
  EXPECT_TRUE(is_numeric(LeverKind::leaf_dose));
  for (const auto kind : {LeverKind::water, LeverKind::leaf_size, LeverKind::vessel, LeverKind::agitation,
                          LeverKind::infusion_number, LeverKind::brew_schedule, LeverKind::other})
    EXPECT_FALSE(is_numeric(kind)) << lever_name(kind);
  EXPECT_EQ(lever_name(LeverKind::water_temperature), "water temperature");
  EXPECT_EQ(constant_name(ConstantKind::leaf_dose), "leaf dose");
}

TEST(Lever, TheReferenceIsTheTickedLevelElseTheFirst) {
  Lever lever{LeverKind::vessel, {}, {Level{"pot", {}, {}, false}, Level{"bowl", {}, {}, true}}};
  EXPECT_EQ(lever.reference(), 1U);
  lever.levels[1].present_way = false;
  EXPECT_EQ(lever.reference(), 0U);
}

TEST(Contrasts, BIsTheHigherLevelWhicheverIsTheReference) {
  const FerryPier pier;
  EXPECT_THAT(contrasts(pier.trial_14().lever), ElementsAre(Contrast{1, 0}));  // 88 is b though it is the reference
  EXPECT_THAT(contrasts(pier.trial_15().lever), ElementsAre(Contrast{0, 1}, Contrast{1, 2}));  // 45 is the reference
}

TEST(Contrasts, OfLabelsBIsTheOneThatIsNotTheReference) {
  const Lever lever{LeverKind::vessel, {}, {Level{"pot", 9, {}, false}, Level{"bowl", 1, {}, true}}};
  EXPECT_THAT(contrasts(lever), ElementsAre(Contrast{1, 0}));
}

TEST(Contrasts, FewerThanTwoLevelsMakeNone) {
  EXPECT_THAT(contrasts(Lever{}), IsEmpty());
  EXPECT_THAT(contrasts(Lever{LeverKind::vessel, {}, {Level{"pot", {}, {}, true}}}), IsEmpty());
}

TEST(LevelText, CarriesTheUnitOrTheLabel) {
  const FerryPier pier;
  const Style style;
  const std::string nbsp = no_break_space;
  EXPECT_EQ(level_text(pier.trial_14().lever, 0, style), "88" + nbsp + "°C");
  EXPECT_EQ(level_text(pier.trial_15().lever, 2, style), "60" + nbsp + "s");
  EXPECT_EQ(level_text(pier.trial_16().lever, 1, style), "5" + nbsp + "g");
  EXPECT_EQ(level_text(pier.trial_14().lever, 1, Style{TemperatureUnit::fahrenheit, '.'}), "154.4" + nbsp + "°F");
  EXPECT_EQ(level_text(Lever{LeverKind::vessel, {}, {Level{"pot", 3, {}, false}}}, 0, style), "pot");
  EXPECT_EQ(level_text(pier.trial_14().lever, 2, style), "");
}

// ---- check(): what blocks ----

TEST(Check, TheThreeTrialsOfTheCounterMayBeSealed) {
  const FerryPier pier;
  EXPECT_THAT(blocks(pier, pier.trial_14()), IsEmpty());
  EXPECT_THAT(blocks(pier, pier.trial_15()), IsEmpty());
  EXPECT_THAT(blocks(pier, pier.trial_16()), IsEmpty());
}

TEST(Check, Trial14GivesNoCautionEither) {
  const FerryPier pier;
  EXPECT_THAT(cautions(pier, pier.trial_14()), IsEmpty());
}

TEST(Check, AnEmptyDraftIsToldEverythingThatIsMissing) {
  const auto found = blocks(FerryPier(), Plan{});
  for (const char* field : {"question |", "levels | 0 | two levels or more", "lots |", "assessors |", "attributes |"})
    EXPECT_THAT(found, Contains(HasSubstr(field)));
}

TEST(Check, BlocksComeBeforeCautions) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.question = "  ";
  plan.warm_up_lot = {};
  plan.pairs_per_sitting = 5;
  const auto notes = notes_of(pier, plan);
  ASSERT_GE(notes.size(), 2U);
  bool seen_caution = false;
  for (const auto& note : notes) {
    if (note.weight == PlanNote::Weight::caution)
      seen_caution = true;
    else
      EXPECT_FALSE(seen_caution);
  }
  EXPECT_TRUE(seen_caution);
  EXPECT_EQ(notes.front().wrong, Wrong::no_question);
  EXPECT_EQ(notes.front().place, PlanPlace{PlanField::question});
}

/// One thing done to a plan that may be sealed, and the one block that it must earn.
struct Broken {
  const char* name;
  void (*how)(const FerryPier&, Plan&);
  const char* expected;
};

void PrintTo(const Broken& broken, std::ostream* out) {
  *out << broken.name;
}

std::string name_of(const testing::TestParamInfo<Broken>& given) {
  std::string name = given.param.name;
  for (auto& c : name)
    if (c == ' ' || c == '-') c = '_';
  return name;
}

class CheckBlocks : public testing::TestWithParam<Broken> {};

TEST_P(CheckBlocks, WithFieldValueAndWhatIsAllowed) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  GetParam().how(pier, plan);
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr(GetParam().expected)));
}

INSTANTIATE_TEST_SUITE_P(
    One, CheckBlocks,
    testing::Values(
        Broken{"no question", [](const FerryPier&, Plan& p) { p.question = ""; }, "question |  | the one thing"},
        Broken{"equal levels", [](const FerryPier&, Plan& p) { p.lever.levels[1].value = 88'000; },
               "levels | 88\u00A0°C | levels that differ"},
        Broken{"above boiling", [](const FerryPier&, Plan& p) { p.lever.levels[0].value = 100'500; },
               "level 1 | 100.5\u00A0°C | 0 to 100 °C: water does not get hotter than boiling"},
        Broken{"level without number", [](const FerryPier&, Plan& p) { p.lever.levels[1].value.reset(); },
               "level 2 |  | a number"},
        Broken{"two ways as now", [](const FerryPier&, Plan& p) { p.lever.levels[1].present_way = true; },
               "present way | 2 levels ticked | one level at most"},
        Broken{"lever held as well",
               [](const FerryPier&, Plan& p) {
                 p.constants.push_back(FerryPier::number(ConstantKind::water_temperature, 88'000, 2000));
               },
               "water temperature | water temperature | what changes cannot be held as well"},
        Broken{"constant twice",
               [](const FerryPier&, Plan& p) {
                 p.constants.push_back(FerryPier::number(ConstantKind::leaf_dose, 4000, 50));
               },
               "leaf dose |  | each constant once"},
        Broken{"constant out of range", [](const FerryPier&, Plan& p) { p.constants[5].target = 101'000; },
               "tasting temperature | 101\u00A0°C | 0 to 100 °C"},
        Broken{"negative tolerance", [](const FerryPier&, Plan& p) { p.constants[0].tolerance = -1000; },
               "leaf dose, tolerance | −1\u00A0g | 0 or more"},
        Broken{"unknown water", [](const FerryPier&, Plan& p) { p.constants[2].record = "spring"; },
               "water | spring | one of the house's registers"},
        Broken{"lot twice",
               [](const FerryPier& f, Plan& p) {
                 p.lots = {f.l12, f.l07, f.l12};
                 p.controls.clear();
               },
               "lots | L-12 | each lot once"},
        Broken{"unknown lot",
               [](const FerryPier&, Plan& p) {
                 p.lots[0] = id_of<Lot>(99);
                 p.controls.clear();
               },
               "a lot of the registers"},
        Broken{"unknown warm-up leaf", [](const FerryPier&, Plan& p) { p.warm_up_lot = id_of<Lot>(99); },
               "warm-up leaf |"},
        Broken{"no taster",
               [](const FerryPier& f, Plan& p) {
                 p.assessors = {{f.h, Role::head}, {f.o, Role::preparer}};
               },
               "assessors |  | one taster or more"},
        Broken{"unknown taster",
               [](const FerryPier&, Plan& p) {
                 p.assessors.push_back({id_of<Assessor>(99), Role::taster});
               },
               "an assessor of the registers"},
        Broken{"taster twice",
               [](const FerryPier& f, Plan& p) {
                 p.assessors.push_back({f.k, Role::taster});
               },
               "assessors | K. | each assessor once"},
        Broken{"preparer tastes",
               [](const FerryPier& f, Plan& p) {
                 p.assessors.push_back({f.o, Role::taster});
               },
               "preparer | O. | somebody who does not taste"},
        Broken{"no attribute",
               [](const FerryPier&, Plan& p) {
                 p.attributes.clear();
                 p.rule.reset();
               },
               "attributes |  | one attribute or more"},
        Broken{"unknown attribute", [](const FerryPier&, Plan& p) { p.attributes[4].attribute = "sparkle"; },
               "attributes | sparkle | a known attribute"},
        Broken{"attribute twice", [](const FerryPier&, Plan& p) { p.attributes[4].attribute = "body"; },
               "attributes | Body | each attribute once"},
        Broken{"deciding without margin", [](const FerryPier&, Plan& p) { p.attributes[0].margin = 0; },
               "Bitterness, margin | 0.0 | half a point to 10 points"},
        Broken{"finish decided by a ratio of one",
               [](const FerryPier&, Plan& p) {
                 p.attributes[6] = {"finish_length", true, 1000, Expectation::none};
               },
               "Finish length, margin | ×1.00 | a ratio above ×1.00"},
        Broken{"no brew pairs",
               [](const FerryPier&, Plan& p) {
                 p.brew_pairs = 0;
                 p.controls.clear();
               },
               "brew pairs | 0 | 1 to 40 a lot"},
        Broken{"control on a sitting that is not", [](const FerryPier&, Plan& p) { p.controls[0].sitting = 12; },
               "controls | sitting 12 | sitting 1 to 3"},
        Broken{"control at a level that is not", [](const FerryPier&, Plan& p) { p.controls[0].level = 2; },
               "controls | level 3 | a level of this plan"},
        Broken{"control of an unknown lot", [](const FerryPier&, Plan& p) { p.controls[0].lot = id_of<Lot>(99); },
               "a lot of the registers"},
        Broken{"repeat of a leaf outside",
               [](const FerryPier& f, Plan& p) {
                 p.controls[0] = {ControlKind::repeat, f.l25, 0, 1, Permille(0)};
               },
               "controls | L-25 | a lot of this trial"},
        Broken{"yardstick not diluted", [](const FerryPier&, Plan& p) { p.controls[1].dilution = Permille(0); },
               "yardstick, dilution | 0 ‰"},
        Broken{"attribute by attribute with eight",
               [](const FerryPier&, Plan& p) { p.sip = SipProtocol::attribute_by_attribute; },
               "sip protocol | 8 attributes | three attributes at most"},
        Broken{"rule about another attribute",
               [](const FerryPier&, Plan& p) { p.rule->clauses[0].attribute = "sparkle"; },
               "if-then rule | sparkle | an attribute of this plan"},
        Broken{"rule to a level that is not", [](const FerryPier&, Plan& p) { p.rule->to_level = 2; },
               "if-then rule | level 3"},
        Broken{"rule for another leaf", [](const FerryPier& f, Plan& p) { p.rule->leaves = {f.l25}; },
               "if-then rule | L-25 | a lot of this trial"},
        Broken{"more sittings than pairs",
               [](const FerryPier&, Plan& p) {
                 p.sittings = 13;
                 p.controls.clear();
               },
               "sittings | 13 | a pair or more in each"},
        Broken{"nothing in the cups", [](const FerryPier&, Plan& p) { p.cup = Volume{}; }, "cup volume |"},
        Broken{"alpha of nothing", [](const FerryPier&, Plan& p) { p.alpha_permille = 0; }, "alpha | 0.000 |"}),
    name_of);

TEST(Check, FortyOneBrewPairsAreTooMany) {
  FerryPier pier;
  for (auto& lot : pier.registers.lots) lot.stock = grams(100'000);
  Plan plan = pier.trial_14();
  plan.lots = {pier.l12};
  plan.controls.clear();
  plan.brew_pairs = 40;
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
  plan.brew_pairs = 41;
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("brew pairs | 41 | 1 to 40")));
}

TEST(Check, StockThatIsKnownAndTooSmallBlocksAndUnknownStockIsACaution) {
  FerryPier pier;
  pier.registers.lots[2].stock = grams(31);  // L-18 needs 32 g
  EXPECT_THAT(blocks(pier, pier.trial_14()),
              ElementsAre(HasSubstr("stock of L-18 | 31\u00A0g | 32\u00A0g are needed")));
  pier.registers.lots[2].stock = Mass{};
  EXPECT_THAT(blocks(pier, pier.trial_14()), IsEmpty());
  EXPECT_THAT(cautions(pier, pier.trial_14()), ElementsAre(HasSubstr("stock of L-18")));
}

TEST(Check, CodesRunOutWhenEveryTasterBrewsTooMuch) {
  FerryPier pier;
  for (auto& lot : pier.registers.lots) lot.stock = grams(100'000);
  Plan plan = pier.trial_14();
  plan.serving_way = ServingWay::own_brews;
  plan.brew_pairs = 25;  // 75 pairs and 20 warm-ups for each of four: far above 450 with spares
  EXPECT_THAT(blocks(pier, plan), Contains(HasSubstr("blind codes |")));
  plan.brew_pairs = 10;
  EXPECT_THAT(blocks(pier, plan), Not(Contains(HasSubstr("blind codes"))));
}

TEST(Check, ALoneTasterMayPrepareWhenSelfBlindedAndOnlyThen) {
  const FerryPier pier;
  Plan plan = pier.trial_16();
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
  plan.assessors.push_back({pier.k, Role::taster});
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("preparer | M. |")));
  plan.assessors.pop_back();
  plan.blinding = Blinding::preparer;
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("preparer | M. |")));
}

TEST(Check, LabelsAndSchedulesThatAreAlikeAreEqualLevels) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.constants.push_back(FerryPier::number(ConstantKind::water_temperature, 85'000, 2000));
  plan.lever = Lever{LeverKind::agitation, {}, {Level{"still", {}, {}, true}, Level{"stirred", {}, {}, false}}};
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
  plan.lever.levels[1].label = "still";
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("levels | still | levels that differ")));
  plan.lever.levels[1].label = "";
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("level 2 |  | a name")));

  const std::vector<InfusionPlan> once = {{celsius(85), seconds(45), grams(200)}};
  plan.lever = Lever{LeverKind::brew_schedule, {}, {Level{"one", {}, once, true}, Level{"other", {}, once, false}}};
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("levels | other | levels that differ")));
  plan.lever.levels[1].schedule[0].pour = celsius(120);
  EXPECT_THAT(blocks(pier, plan), ElementsAre(HasSubstr("level 2, water temperature | 120\u00A0°C |")));
}

TEST(Check, AToleranceAloneMayStandForTheLever) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.constants.push_back(Constant{ConstantKind::water_temperature, {}, {}, 1000, {}, {}});
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
}

TEST(Check, ANoteSaysWhichInfusionOfWhichLevelAndHowFarItMayGo) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lever.kind = LeverKind::brew_schedule;
  plan.lever.levels = {
      Level{"one", {}, {{celsius(85), seconds(45), grams(200)}}, true},
      Level{"two", {}, {{celsius(85), seconds(30), grams(100)}, {celsius(101), seconds(0), grams(100)}}, false}};
  const auto notes = notes_of(pier, plan);
  ASSERT_GE(notes.size(), 2U);
  EXPECT_EQ(notes[0].wrong, Wrong::out_of_range);
  EXPECT_EQ(notes[0].place, (PlanPlace{PlanField::infusion_pour, 1, 1}));
  EXPECT_EQ(notes[0].given, Quantity(celsius(101)));
  EXPECT_EQ(notes[0].lowest, Quantity(celsius(0)));
  EXPECT_EQ(notes[0].highest, Quantity(celsius(100)));
  EXPECT_EQ(notes[1].place, (PlanPlace{PlanField::infusion_steep, 1, 1}));
  EXPECT_EQ(notes[1].given, Quantity(seconds(0)));
}

// ---- check(): cautions ----

TEST(CheckCautions, MoreThanFourPairsASittingAndMoreThanSixAreTold) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.controls.clear();
  plan.pairs_per_sitting = 5;  // nine pairs: five and four
  EXPECT_THAT(cautions(pier, plan), ElementsAre(HasSubstr("pairs a sitting | 5 | four")));
  plan.pairs_per_sitting = 9;
  EXPECT_THAT(cautions(pier, plan),
              ElementsAre(HasSubstr("pairs a sitting | 9 | six at most unless it is overridden")));
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
}

TEST(CheckCautions, TwoLotsOfThreeOrThreeOfTwoCanNeverShowDependsOnTheLeaf) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.controls.clear();
  plan.brew_pairs = 2;
  EXPECT_THAT(cautions(pier, plan),
              Contains(HasSubstr(
                  "lots | 3 lots of 2 brew pairs | can never show Depends on the leaf: the smallest p is 0.067")));
  plan.brew_pairs = 3;
  EXPECT_THAT(cautions(pier, plan), Not(Contains(HasSubstr("can never show Depends"))));
  plan.lots = {pier.l07, pier.l12};
  EXPECT_THAT(cautions(pier, plan), Contains(HasSubstr("the smallest p is 0.100")));
  plan.lots = {pier.l07};
  EXPECT_THAT(cautions(pier, plan), Not(Contains(HasSubstr("Depends"))));
}

TEST(CheckCautions, APlanTooSmallToDecideSaysThatItCanDescribe) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lots = {pier.l12};
  plan.rule->leaves = {pier.l12};
  plan.controls.clear();
  plan.brew_pairs = 2;
  EXPECT_THAT(cautions(pier, plan), Contains(HasSubstr("This plan can describe, it cannot decide")));
  EXPECT_THAT(blocks(pier, plan), IsEmpty());
}

TEST(CheckCautions, ALoneTasterIsToldWhatMakesAFindingBelievable) {
  const FerryPier pier;
  Plan plan = pier.trial_16();
  EXPECT_THAT(cautions(pier, plan), Not(Contains(HasSubstr("lone taster"))));
  plan.brew_pairs = 4;
  plan.controls.clear();
  EXPECT_THAT(cautions(pier, plan), Contains(HasSubstr("brew pairs | 4 | six or more for a lone taster")));
  EXPECT_THAT(cautions(pier, plan), Contains(HasSubstr("blank pairs | 0 in 4 pairs")));
  EXPECT_THAT(cautions(pier, plan), Contains(HasSubstr("sittings | 1 | two days")));
}

TEST(CheckCautions, ABrewThatCannotFillItsCupsIsTold) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.cup = millilitres(60);
  EXPECT_THAT(
      cautions(pier, plan),
      ElementsAre("cup volume | a brew has to fill 240\u00A0ml | about 188\u00A0ml of liquor come from one brew",
                  "yardstick | its cups take 451.2\u00A0ml | about 376\u00A0ml come from its two brews"));
}

TEST(CheckCautions, ARuleOnAnAttributeThatDoesNotDecideCouldNeverSpeak) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.rule->clauses[0].attribute = "astringency";
  EXPECT_THAT(cautions(pier, plan), ElementsAre(HasSubstr("if-then rule | Astringency | a deciding attribute")));
}

TEST(CheckCautions, WhatTravelsWithTheLevelIsNamed) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  std::erase_if(plan.constants, [](const Constant& c) { return c.kind == ConstantKind::chill; });
  EXPECT_THAT(cautions(pier, plan), ElementsAre(HasSubstr("one variable | chill path:")));
}

// ---- the engine rule ----

TEST(EngineForecast, Trial14IsDecidedExactly) {
  const EngineForecast f = engine_forecast(FerryPier().trial_14());
  EXPECT_EQ(f.kind, EngineForecast::Kind::exact);
  EXPECT_EQ(f.brew_pairs, 9);
  EXPECT_EQ(f.claims, 3);
  EXPECT_EQ(f.brew_pairs_for_exact, 7);
  EXPECT_DOUBLE_EQ(f.smallest_p, 2.0 / 512);
  EXPECT_DOUBLE_EQ(f.asked_p, 0.05 / 3);
  EXPECT_EQ(wording::sentence(f, Style{}),
            "9 brew pairs and 3 claims to decide: whole brew pairs are flipped, an exact test; the smallest p it can "
            "reach is 0.0039, asked is 0.0167 at most.");
}

TEST(EngineForecast, SixBrewPairsDecideOneAttributeSevenThreeAndEightSix) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lots = {pier.l12};
  const auto kind = [&](int pairs, int deciding) {
    plan.brew_pairs = pairs;
    plan.attributes.clear();
    for (int i = 0; i < deciding; ++i)
      plan.attributes.push_back({builtin_attributes()[static_cast<std::size_t>(i)].id, true, 2, Expectation::none});
    return engine_forecast(plan).kind;
  };
  using enum EngineForecast::Kind;
  EXPECT_EQ(kind(5, 1), t);
  EXPECT_EQ(kind(6, 1), exact);
  EXPECT_EQ(kind(6, 3), t);
  EXPECT_EQ(kind(7, 3), exact);
  EXPECT_EQ(kind(7, 6), t);
  EXPECT_EQ(kind(8, 6), exact);
  EXPECT_EQ(kind(3, 1), t);
  EXPECT_EQ(kind(2, 1), describe);
  EXPECT_EQ(kind(9, 0), describe);
}

TEST(EngineForecast, AHouseThatRefusesTOnlyDescribesWhereTheExactTestFails) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lots = {pier.l12};
  plan.brew_pairs = 5;
  plan.engine = EnginePolicy::exact_only;
  const auto f = engine_forecast(plan);
  EXPECT_EQ(f.kind, EngineForecast::Kind::describe);
  EXPECT_THAT(wording::sentence(f, Style{}),
              HasSubstr("it cannot decide: 5 brew pairs planned, the exact test needs 7"));
}

TEST(EngineForecast, OneOrderInABrewPairLeavesItToT) {
  const FerryPier pier;
  Plan own = pier.trial_14();
  own.serving_way = ServingWay::own_brews;
  EXPECT_EQ(engine_forecast(own).kind, EngineForecast::Kind::t);
  EXPECT_EQ(engine_forecast(own).brew_pairs, 36);
  EXPECT_FALSE(engine_forecast(own).both_orders);
  EXPECT_EQ(engine_forecast(pier.trial_16()).kind, EngineForecast::Kind::t);
  Plan solo = pier.trial_16();
  solo.brew_pairs = 3;
  EXPECT_EQ(engine_forecast(solo).kind, EngineForecast::Kind::describe) << "the order costs a degree of freedom";
}

TEST(EngineForecast, EveryContrastIsAClaimOfItsOwn) {
  const auto f = engine_forecast(FerryPier().trial_15());
  EXPECT_EQ(f.claims, 6);  // three attributes, two contrasts
  EXPECT_EQ(f.brew_pairs, 4);
  EXPECT_EQ(f.kind, EngineForecast::Kind::t);
}

TEST(SmallestPBetweenLots, CountsTheWaysOfHandingBrewPairsToLots) {
  EXPECT_NEAR(smallest_p_between_lots(3, 2), 1.0 / 15, 1e-12);
  EXPECT_NEAR(smallest_p_between_lots(2, 3), 1.0 / 10, 1e-12);
  EXPECT_NEAR(smallest_p_between_lots(2, 4), 1.0 / 35, 1e-12);
  EXPECT_NEAR(smallest_p_between_lots(3, 3), 1.0 / 280, 1e-12);
  EXPECT_EQ(smallest_p_between_lots(1, 9), 1.0);
}

// ---- the one-variable check ----

const RidingAlong& riding(const OneVariable& v, Riding what) {
  for (const auto& r : v.riding)
    if (r.what == what) return r;
  throw std::runtime_error("nothing said about it");
}

TEST(OneVariable, HoldsForTheTrialsOfTheCounterAndNamesAllThatCouldRideAlong) {
  const FerryPier pier;
  for (const auto& plan : {pier.trial_14(), pier.trial_15(), pier.trial_16()}) {
    const OneVariable v = one_variable(plan);
    EXPECT_TRUE(v.holds) << plan.number;
    std::vector<Riding> named;
    for (const auto& r : v.riding) named.push_back(r.what);
    using enum Riding;
    EXPECT_THAT(named,
                testing::UnorderedElementsAre(chill_path, pour_order, liquor_age, boiler_batch, vessel, preparer));
  }
}

TEST(OneVariable, NineBrewPairsArePouredFiveToFour) {
  EXPECT_NEAR(riding(one_variable(FerryPier().trial_14()), Riding::pour_order).alignment, 1.0 / 9, 1e-12);
}

TEST(OneVariable, ChillPathAndBoilGoWithTheLevelWhereNothingHoldsThem) {
  Plan plan = FerryPier().trial_14();
  std::erase_if(plan.constants,
                [](const Constant& c) { return c.kind == ConstantKind::chill || c.kind == ConstantKind::water; });
  const OneVariable v = one_variable(plan);
  EXPECT_FALSE(v.holds);
  EXPECT_TRUE(riding(v, Riding::chill_path).aligned);
  EXPECT_TRUE(riding(v, Riding::boiler_batch).aligned);
  EXPECT_EQ(v.problems.size(), 2U);
}

TEST(OneVariable, ASteepOfMinutesMakesOneLiquorOlder) {
  Plan plan = FerryPier().trial_15();
  EXPECT_FALSE(riding(one_variable(plan), Riding::liquor_age).aligned);  // 15 s
  plan.lever.levels[2].value = 300'000;
  const OneVariable v = one_variable(plan);
  EXPECT_TRUE(riding(v, Riding::liquor_age).aligned);
  EXPECT_DOUBLE_EQ(riding(v, Riding::liquor_age).alignment, -255);  // the long steep is ready later: younger
  EXPECT_EQ(unit_of(Riding::liquor_age), RidingUnit::seconds);
  EXPECT_FALSE(v.holds);
}

TEST(OneVariable, ASingleBrewPairIsAlwaysPouredInOneOrder) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  plan.lots = {pier.l12};
  plan.brew_pairs = 1;
  EXPECT_TRUE(riding(one_variable(plan), Riding::pour_order).aligned);
}

TEST(OneVariable, SchedulesThatDifferInSeveralThingsNameNoCause) {
  Plan plan = FerryPier().trial_14();
  plan.lever.kind = LeverKind::brew_schedule;
  plan.lever.levels = {
      Level{"one", {}, {{celsius(88), seconds(45), grams(200)}}, true},
      Level{"two", {}, {{celsius(60), seconds(60), grams(60)}, {celsius(90), seconds(30), grams(140)}}, false}};
  const OneVariableProblem both{OneVariableProblem::Kind::schedules_differ,
                                {ScheduleTotal::contact_time, ScheduleTotal::mean_pour_temperature},
                                {}};
  EXPECT_THAT(one_variable(plan).problems, ElementsAre(both));
  plan.lever.levels[1].schedule = {{celsius(88), seconds(45), grams(150)}};
  EXPECT_TRUE(one_variable(plan).holds) << "only the water differs";
}

TEST(OneVariable, ATemperatureWhoseScheduleAlsoChangesTheSteepIsTold) {
  Plan plan = FerryPier().trial_14();
  plan.lever.levels[0].schedule = {{celsius(88), seconds(45), grams(200)}};
  plan.lever.levels[1].schedule = {{celsius(68), seconds(90), grams(200)}};
  const OneVariableProblem steep{OneVariableProblem::Kind::also_differ, {ScheduleTotal::contact_time}, {}};
  EXPECT_THAT(one_variable(plan).problems, ElementsAre(steep));
}

TEST(OneVariable, ASteepTimeWhoseScheduleChangesItsContactTimeAloneHolds) {
  Plan plan = FerryPier().trial_15();
  plan.lever.levels = {Level{{}, 45'000, {{celsius(85), seconds(45), grams(200)}}, true},
                       Level{{}, 60'000, {{celsius(85), seconds(60), grams(200)}}, false}};
  EXPECT_THAT(one_variable(plan).problems, ElementsAre());
  plan.lever.levels[1].schedule[0].pour = celsius(80);
  const OneVariableProblem pour{OneVariableProblem::Kind::also_differ, {ScheduleTotal::mean_pour_temperature}, {}};
  EXPECT_THAT(one_variable(plan).problems, ElementsAre(pour));
}

TEST(OneVariable, ALevelWithoutAScheduleSteepsAsLongAsIsHeld) {
  Plan plan = FerryPier().trial_14();
  plan.lever =
      Lever{LeverKind::infusion_number,
            {},
            {Level{"first", {}, {}, true}, Level{"second", {}, {{celsius(88), seconds(60), grams(200)}}, false}}};
  EXPECT_DOUBLE_EQ(riding(one_variable(plan), Riding::liquor_age).alignment, -15)
      << "60 s against the 45 s that are held";
}

// ---- any draft ----

std::int64_t wild_number() {
  return *rc::gen::oneOf(rc::gen::inRange<std::int64_t>(-5, 200'000), rc::gen::arbitrary<std::int64_t>(),
                         rc::gen::element(std::numeric_limits<std::int64_t>::min(),
                                          std::numeric_limits<std::int64_t>::max(), std::int64_t{0}));
}

template <class Record>
IdOf<Record> wild_id(const std::vector<Record>& known) {
  const int n = *rc::gen::inRange(0, static_cast<int>(known.size()) + 2);
  if (n < static_cast<int>(known.size())) return known[static_cast<std::size_t>(n)].id;
  return n == static_cast<int>(known.size()) ? IdOf<Record>{} : id_of<Record>(999);
}

int count() {
  return *rc::gen::inRange(0, 5);
}

Level wild_level() {
  Level level;
  level.label = *rc::gen::element<std::string>("", "still", "stirred");
  if (*rc::gen::arbitrary<bool>()) level.value = wild_number();
  for (int i = count() / 2; i > 0; --i)
    level.schedule.push_back({Temperature(wild_number()), Duration(wild_number()), Mass(wild_number())});
  level.present_way = *rc::gen::arbitrary<bool>();
  return level;
}

Constant wild_constant() {
  Constant c;
  c.kind = static_cast<ConstantKind>(*rc::gen::inRange(0, static_cast<int>(ConstantKind::other) + 1));
  if (*rc::gen::arbitrary<bool>()) c.target = wild_number();
  if (*rc::gen::arbitrary<bool>()) c.tolerance = wild_number();
  c.text = *rc::gen::arbitrary<std::string>();
  c.record = *rc::gen::element<std::string>("", "not an id", "00000000-0000-4000-8000-000000000000");
  return c;
}

Plan wild_plan(const FerryPier& pier) {
  const int n = *rc::gen::arbitrary<int>();
  Plan plan;
  plan.question = *rc::gen::arbitrary<std::string>();
  plan.lever.kind = static_cast<LeverKind>(*rc::gen::inRange(0, static_cast<int>(LeverKind::other) + 1));
  for (int i = count(); i > 0; --i) plan.lever.levels.push_back(wild_level());
  for (int i = count(); i > 0; --i) plan.constants.push_back(wild_constant());
  for (int i = count(); i > 0; --i) plan.lots.push_back(wild_id(pier.registers.lots));
  plan.warm_up_lot = wild_id(pier.registers.lots);
  for (int i = count(); i > 0; --i)
    plan.attributes.push_back(
        {*rc::gen::element<std::string>("body", "bitterness", "finish_length", "aroma_register", "?"),
         *rc::gen::arbitrary<bool>(), wild_number(), Expectation::none});
  for (int i = count(); i > 0; --i)
    plan.assessors.push_back({wild_id(pier.registers.assessors), static_cast<Role>(*rc::gen::inRange(0, 3))});
  plan.brew_pairs = *rc::gen::oneOf(rc::gen::inRange(-2, 45), rc::gen::just(n));
  for (int i = count(); i > 0; --i)
    plan.controls.push_back({static_cast<ControlKind>(*rc::gen::inRange(0, 3)), wild_id(pier.registers.lots),
                             static_cast<std::size_t>(*rc::gen::inRange(0, 6)),
                             *rc::gen::oneOf(rc::gen::inRange(-1, 9), rc::gen::just(n)), Permille(wild_number())});
  plan.pairs_per_sitting = *rc::gen::oneOf(rc::gen::inRange(-1, 12), rc::gen::just(n));
  plan.sittings = *rc::gen::oneOf(rc::gen::inRange(-1, 12), rc::gen::just(n));
  plan.cup = Volume(wild_number());
  plan.serving_way = static_cast<ServingWay>(*rc::gen::inRange(0, 3));
  plan.sip = static_cast<SipProtocol>(*rc::gen::inRange(0, 2));
  plan.blinding = static_cast<Blinding>(*rc::gen::inRange(0, 2));
  plan.engine = static_cast<EnginePolicy>(*rc::gen::inRange(0, 2));
  plan.alpha_permille = wild_number();
  if (*rc::gen::arbitrary<bool>())
    plan.rule = IfThenRule{{{"body", RuleClause::Way::falls, wild_number()}},
                           static_cast<std::size_t>(count()),
                           {wild_id(pier.registers.lots)},
                           {}};
  if (*rc::gen::arbitrary<bool>()) plan.reference_pair = ReferenceWords{wild_id(pier.registers.lots), {}, false};
  return plan;
}

RC_GTEST_PROP(Check, NeverBreaksOnAnyDraft, ()) {
  const FerryPier pier;
  const Plan plan = wild_plan(pier);
  const auto notes = check(plan, pier.registers, builtin_attributes());
  const Style hot{TemperatureUnit::fahrenheit, ','};
  bool caution = false;
  for (const auto& note : notes) {
    const Error said = wording::error_of(note, {plan, pier.registers, builtin_attributes()}, hot);
    RC_ASSERT(said.kind != ErrorKind::internal);
    RC_ASSERT(!said.field.empty());
    RC_ASSERT(!said.allowed.empty());
    caution = caution || note.weight == PlanNote::Weight::caution;
    RC_ASSERT(!(caution && note.weight == PlanNote::Weight::blocks));
  }
  RC_ASSERT(!wording::sentence(engine_forecast(plan), hot).empty());
}

RC_GTEST_PROP(Check, AnyDraftWithoutABlockHasWhatADrawNeeds, ()) {
  const FerryPier pier;
  Plan plan = pier.trial_14();
  const Plan wild = wild_plan(pier);
  // One wild part in a sound plan reaches far more of the sealable plans than a plan that is wild all over.
  switch (*rc::gen::inRange(0, 7)) {
    case 0:
      plan.lever = wild.lever;
      break;
    case 1:
      plan.lots = wild.lots;
      break;
    case 2:
      plan.assessors = wild.assessors;
      break;
    case 3:
      plan.controls = wild.controls;
      break;
    case 4:
      plan.brew_pairs = wild.brew_pairs;
      break;
    case 5:
      plan.attributes = wild.attributes;
      break;
    default:
      plan.sittings = wild.sittings;
      break;
  }
  for (const auto& note : check(plan, pier.registers, builtin_attributes()))
    if (note.weight == PlanNote::Weight::blocks) return;
  RC_ASSERT(!contrasts(plan.lever).empty());
  RC_ASSERT(!tasters(plan).empty());
  RC_ASSERT(!plan.lots.empty());
  const Needs n = needs(plan, pier.registers);
  RC_ASSERT(n.pairs <= 450);
  RC_ASSERT(n.counted_sheets == n.tasted_pairs + static_cast<int>(plan.controls.size() * tasters(plan).size()));
}

/// A sheet has one timer a cup and one place for the three notes: a house's second one would be tasted by nobody.
TEST(PlanCheck, ASecondTimedOrBandedAttributeIsRefused) {
  const FerryPier pier;
  Attribute sting = *find_attribute(builtin_attributes(), "finish_length");
  sting.id = "sting_length";
  sting.name = "Sting length";
  Attribute nose = *find_attribute(builtin_attributes(), "aroma_register");
  nose.id = "dry_nose";
  nose.name = "Dry leaf";
  std::vector<Attribute> known = builtin_attributes();
  known.insert(known.end(), {sting, nose});
  const auto blocks_of = [&](const Plan& plan) {
    std::vector<std::pair<Wrong, std::string>> out;
    for (const auto& note : check(plan, pier.registers, known))
      if (note.weight == PlanNote::Weight::blocks) out.emplace_back(note.wrong, note.named);
    return out;
  };
  Plan plan = pier.trial_14();
  plan.attributes.push_back({"sting_length", false, 1250, Expectation::none});
  EXPECT_THAT(blocks_of(plan), ElementsAre(std::pair(Wrong::second_timed, "sting_length")));
  plan.attributes.back() = {"dry_nose", false, 2, Expectation::none};
  EXPECT_THAT(blocks_of(plan), ElementsAre(std::pair(Wrong::second_banded, "dry_nose")));
  std::erase_if(plan.attributes, [](const PlanAttribute& a) { return a.attribute == "aroma_register"; });
  EXPECT_THAT(blocks_of(plan), IsEmpty());
}

}  // namespace
}  // namespace likeleaf
