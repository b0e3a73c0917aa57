// Everything that check() can find: how a plan that may be sealed is broken, and what is then said of it.
#include "core/wording/plan_note_text.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "core/codec/builtin.h"
#include "tests/core/domain/ferry_pier.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {
namespace {

using test::FerryPier;
using test::id_of;

struct Case {
  Wrong wrong;
  void (*how)(FerryPier&, Plan&);
  const char* sentence;             ///< in °C with a point
  const char* elsewhere = nullptr;  ///< in °F with a comma, where that is another
};

void drop(Plan& plan, ConstantKind kind) {
  std::erase_if(plan.constants, [&](const Constant& c) { return c.kind == kind; });
}

void labels(Plan& plan, LeverKind kind, const char* first, const char* second) {
  plan.lever = Lever{kind, {}, {Level{first, {}, {}, true}, Level{second, {}, {}, false}}};
}

void infusion(Plan& plan, const InfusionPlan& second) {
  plan.lever.levels[1].schedule = {{likeleaf::celsius(68), seconds(45), grams(200)}, second};
}

const std::vector<Case>& lever_cases() {
  static const std::vector<Case> cases{
      {Wrong::no_question, [](FerryPier&, Plan& p) { p.question = " "; },
       "Question: is missing; allowed: the one thing that this trial asks."},
      {Wrong::lever_unnamed, [](FerryPier&, Plan& p) { labels(p, LeverKind::other, "a", "b"); },
       "What changes: is missing; allowed: a name for what changes."},
      {Wrong::too_few_levels, [](FerryPier&, Plan& p) { p.lever.levels.resize(1); },
       "Levels: missing: “1”; allowed: two levels or more."},
      {Wrong::no_level_value, [](FerryPier&, Plan& p) { p.lever.levels[1].value.reset(); },
       "Level 2: is missing; allowed: a number: 0 to 100 °C: water does not get hotter than boiling.",
       "Level 2: is missing; allowed: a number: 32 to 212 °F: water does not get hotter than boiling."},
      {Wrong::no_level_name, [](FerryPier&, Plan& p) { labels(p, LeverKind::agitation, "still", ""); },
       "Level 2: is missing; allowed: a name."},
      {Wrong::no_level_name_or_schedule, [](FerryPier&, Plan& p) { labels(p, LeverKind::brew_schedule, "", "b"); },
       "Level 1: is missing; allowed: a name or a schedule of infusions."},
      {Wrong::equal_levels, [](FerryPier&, Plan& p) { p.lever.levels[1].value = 88'000; },
       "Levels: is there twice: “88~°C”; allowed: levels that differ.",
       "Levels: is there twice: “190,4~°F”; allowed: levels that differ."},
      {Wrong::equal_levels, [](FerryPier&, Plan& p) { labels(p, LeverKind::agitation, "still", "still"); },
       "Levels: is there twice: “still”; allowed: levels that differ."},
      {Wrong::several_present_ways, [](FerryPier&, Plan& p) { p.lever.levels[1].present_way = true; },
       "Present way: is there twice: “2 levels ticked”; allowed: one level at most."},
      {Wrong::out_of_range, [](FerryPier&, Plan& p) { p.lever.levels[0].value = 100'500; },
       "Level 1: cannot take “100.5~°C”; allowed: 0 to 100 °C: water does not get hotter than boiling.",
       "Level 1: cannot take “212,9~°F”; allowed: 32 to 212 °F: water does not get hotter than boiling."},
      {Wrong::out_of_range,
       [](FerryPier&, Plan& p) {
         infusion(p, {likeleaf::celsius(105), seconds(45), grams(200)});
       },
       "Level 2, water temperature: cannot take “105~°C”; allowed: 0 to 100 °C: water does not get hotter than "
       "boiling.",
       "Level 2, water temperature: cannot take “221~°F”; allowed: 32 to 212 °F: water does not get hotter than "
       "boiling."},
      {Wrong::out_of_range,
       [](FerryPier&, Plan& p) {
         infusion(p, {likeleaf::celsius(68), seconds(0), grams(200)});
       },
       "Level 2, steep time: cannot take “0~s”; allowed: more than 0 s, at most 86400 s."},
      {Wrong::out_of_range,
       [](FerryPier&, Plan& p) {
         infusion(p, {likeleaf::celsius(68), seconds(45), Mass(-500)});
       },
       "Level 2, water mass: cannot take “\u22120.5~g”; allowed: more than 0 g, at most 100000 g.",
       "Level 2, water mass: cannot take “\u22120,5~g”; allowed: more than 0 g, at most 100000 g."},
      {Wrong::out_of_range, [](FerryPier&, Plan& p) { p.constants[6].target = -1500; },
       "Longest hold: cannot take “\u22121.5~s”; allowed: 0 to 86400 s.",
       "Longest hold: cannot take “\u22121,5~s”; allowed: 0 to 86400 s."},
      {Wrong::unknown_record, [](FerryPier&, Plan& p) { p.constants[2].record = "spring"; },
       "Water: not found: “spring”; allowed: one of the house's registers."},
      {Wrong::lever_held_too,
       [](FerryPier&, Plan& p) {
         p.constants.push_back(FerryPier::number(ConstantKind::water_temperature, 88'000, 1));
       },
       "Water temperature: the same record with other content is already there: “water temperature”; allowed: what "
       "changes cannot be held as well; a tolerance alone may stand."},
      {Wrong::constant_twice,
       [](FerryPier&, Plan& p) { p.constants.push_back(FerryPier::number(ConstantKind::leaf_dose, 4000, 50)); },
       "Leaf dose: is there twice; allowed: each constant once."},
      {Wrong::negative_tolerance, [](FerryPier&, Plan& p) { p.constants[5].tolerance = -1500; },
       "Tasting temperature, tolerance: cannot take “\u22121.5~°C”; allowed: 0 or more.",
       "Tasting temperature, tolerance: cannot take “\u22122,7~°F”; allowed: 0 or more."},
      {Wrong::usual_tolerance,
       [](FerryPier&, Plan& p) {
         p = FerryPier().trial_15();
         p.constants.back().tolerance.reset();
       },
       "Water temperature, tolerance: is missing; allowed: none given: ±2~°C is taken.",
       "Water temperature, tolerance: is missing; allowed: none given: ±3,6~°F is taken."},
      {Wrong::no_leaf_dose, [](FerryPier&, Plan& p) { drop(p, ConstantKind::leaf_dose); },
       "Leaf dose: is missing; allowed: a mass for each brew, else the leaf needed cannot be worked out."},
      {Wrong::no_water_mass, [](FerryPier&, Plan& p) { drop(p, ConstantKind::water_mass); },
       "Water mass: is missing; allowed: a mass for each brew, else the water needed cannot be worked out."},
  };
  return cases;
}

const std::vector<Case>& leaf_and_people_cases() {
  static const std::vector<Case> cases{
      {Wrong::no_lots, [](FerryPier&, Plan& p) { p.lots.clear(); }, "Lots: is missing; allowed: one lot or more."},
      {Wrong::lot_twice,
       [](FerryPier& f, Plan& p) {
         p.lots = {f.l12, f.l07, f.l12};
       },
       "Lots: is there twice: “L-12”; allowed: each lot once."},
      {Wrong::unknown_lot, [](FerryPier&, Plan& p) { p.lots[0] = {}; },
       "Lots: not found: “no lot chosen”; allowed: a lot of the registers."},
      {Wrong::unknown_lot, [](FerryPier&, Plan& p) { p.reference_pair->lot = id_of<Lot>(99); }, nullptr},
      {Wrong::lot_outside_trial,
       [](FerryPier& f, Plan& p) {
         p.controls[0] = {ControlKind::repeat, f.l25, 0, 1, Permille(0)};
       },
       "Controls: not found: “L-25”; allowed: a lot of this trial."},
      {Wrong::no_warm_up, [](FerryPier&, Plan& p) { p.warm_up_lot = {}; },
       "Warm-up leaf: is missing; allowed: a leaf outside the trial, tasted first and not counted."},
      {Wrong::warm_up_in_trial, [](FerryPier& f, Plan& p) { p.warm_up_lot = f.l12; },
       "Warm-up leaf: cannot take “L-12”; allowed: a leaf outside the trial."},
      {Wrong::stock_not_entered, [](FerryPier& f, Plan&) { f.registers.lots[2].stock = {}; },
       "Stock of L-18: is missing; allowed: 32~g are needed; the stock was never entered."},
      {Wrong::stock_too_small, [](FerryPier& f, Plan&) { f.registers.lots[2].stock = Mass(30'500); },
       "Stock of L-18: cannot take “30.5~g”; allowed: 32~g are needed.",
       "Stock of L-18: cannot take “30,5~g”; allowed: 32~g are needed."},
      {Wrong::unknown_assessor,
       [](FerryPier&, Plan& p) {
         p.assessors.push_back({{}, Role::taster});
       },
       "Assessors: not found: “nobody chosen”; allowed: an assessor of the registers."},
      {Wrong::assessor_twice,
       [](FerryPier& f, Plan& p) {
         p.assessors.push_back({f.k, Role::taster});
       },
       "Assessors: is there twice: “K.”; allowed: each assessor once."},
      {Wrong::no_taster,
       [](FerryPier& f, Plan& p) {
         p.assessors = {{f.h, Role::head}, {f.o, Role::preparer}};
       },
       "Assessors: is missing; allowed: one taster or more."},
      {Wrong::preparer_tastes,
       [](FerryPier& f, Plan& p) {
         p.assessors.push_back({f.o, Role::taster});
       },
       "Preparer: the same record with other content is already there: “O.”; allowed: somebody who does not taste, "
       "since the preparer knows the key."},
      {Wrong::head_tastes,
       [](FerryPier& f, Plan& p) {
         p.assessors.push_back({f.h, Role::taster});
       },
       "Head taster: cannot take “H.”; allowed: better not among the tasters: the question is known."},
      {Wrong::no_preparer,
       [](FerryPier&, Plan& p) {
         std::erase_if(p.assessors, [](const PlanAssessor& a) { return a.role == Role::preparer; });
       },
       "Preparer: is missing; allowed: somebody who brews, knows the key and does not taste."},
      {Wrong::several_self_blinded, [](FerryPier&, Plan& p) { p.blinding = Blinding::self; },
       "Self-blinded: cannot take “4 tasters”; allowed: one taster; several need a preparer."},
  };
  return cases;
}

const std::vector<Case>& rule_cases() {
  static const std::vector<Case> cases{
      {Wrong::no_attributes, [](FerryPier&, Plan& p) { p.attributes.clear(); },
       "Attributes: is missing; allowed: one attribute or more."},
      {Wrong::unknown_attribute, [](FerryPier&, Plan& p) { p.attributes[4].attribute = "sparkle"; },
       "Attributes: not found: “sparkle”; allowed: a known attribute."},
      {Wrong::attribute_twice, [](FerryPier&, Plan& p) { p.attributes[4].attribute = "body"; },
       "Attributes: is there twice: “Body”; allowed: each attribute once."},
      {Wrong::second_timed,
       [](FerryPier&, Plan& p) {
         p.attributes.push_back({"sting_length", false, 1250, Expectation::none});
       },
       "Attributes: cannot take “Sting length”; allowed: one timed attribute: after a sip one finish can be timed."},
      {Wrong::second_banded,
       [](FerryPier&, Plan& p) {
         p.attributes.push_back({"dry_nose", false, 2, Expectation::none});
       },
       "Attributes: cannot take “Dry leaf”; allowed: one attribute of base, middle and top notes: the sheet has one "
       "place for them."},
      {Wrong::no_margin, [](FerryPier&, Plan& p) { p.attributes[0].margin = 0; },
       "Bitterness, margin: missing: “0.0”; allowed: half a point to 10 points.",
       "Bitterness, margin: missing: “0,0”; allowed: half a point to 10 points."},
      {Wrong::margin_out_of_range, [](FerryPier&, Plan& p) { p.attributes[6].margin = 900; },
       "Finish length, margin: cannot take “×0.90”; allowed: a ratio above ×1.00, at most ×10.00.",
       "Finish length, margin: cannot take “×0,90”; allowed: a ratio above ×1,00, at most ×10,00."},
      {Wrong::too_many_side_by_side, [](FerryPier&, Plan& p) { p.sip = SipProtocol::attribute_by_attribute; },
       "Sip protocol: cannot take “8 attributes”; allowed: three attributes at most when tasting attribute by "
       "attribute; else cup by cup."},
      {Wrong::rule_without_condition, [](FerryPier&, Plan& p) { p.rule->clauses.clear(); },
       "If-then rule: is missing; allowed: a condition: which attribute falls, rises or holds."},
      {Wrong::clause_outside_plan, [](FerryPier&, Plan& p) { p.rule->clauses[0].attribute = "sparkle"; },
       "If-then rule: not found: “sparkle”; allowed: an attribute of this plan."},
      {Wrong::clause_not_deciding, [](FerryPier&, Plan& p) { p.rule->clauses[0].attribute = "astringency"; },
       "If-then rule: cannot take “Astringency”; allowed: a deciding attribute; of the others the rule could only say "
       "that it cannot say."},
      {Wrong::clause_by_nothing, [](FerryPier&, Plan& p) { p.rule->clauses[0].by = 0; },
       "If-then rule, by how much: cannot take “0”; allowed: more than nothing."},
      {Wrong::unknown_level, [](FerryPier&, Plan& p) { p.rule->to_level = 2; },
       "If-then rule: not found: “level 3”; allowed: a level of this plan."},
  };
  return cases;
}

const std::vector<Case>& serving_cases() {
  static const std::vector<Case> cases{
      {Wrong::unknown_sitting, [](FerryPier&, Plan& p) { p.controls[0].sitting = 12; },
       "Controls: not found: “sitting 12”; allowed: sitting 1 to 3."},
      {Wrong::dilution_out_of_range, [](FerryPier&, Plan& p) { p.controls[1].dilution = Permille(0); },
       "Yardstick, dilution: cannot take “0 ‰”; allowed: 0.1 % to 90 %.",
       "Yardstick, dilution: cannot take “0 ‰”; allowed: 0,1 % to 90 %."},
      {Wrong::unusual_dilution, [](FerryPier&, Plan& p) { p.controls[1].dilution = Permille(225); },
       "Yardstick, dilution: cannot take “22.5 %”; allowed: 10 % to 15 % is usual.",
       "Yardstick, dilution: cannot take “22,5 %”; allowed: 10 % to 15 % is usual."},
      {Wrong::brew_pairs_out_of_range, [](FerryPier&, Plan& p) { p.brew_pairs = 0; },
       "Brew pairs: cannot take “0”; allowed: 1 to 40 a lot."},
      {Wrong::sitting_out_of_range, [](FerryPier&, Plan& p) { p.pairs_per_sitting = 0; },
       "Pairs a sitting: cannot take “0”; allowed: 1 to 40."},
      {Wrong::no_cup, [](FerryPier&, Plan& p) { p.cup = {}; },
       "Cup volume: cannot take “0 ml or less”; allowed: more than 0 ml."},
      {Wrong::empty_sitting, [](FerryPier&, Plan& p) { p.sittings = 13; },
       "Sittings: cannot take “13”; allowed: a pair or more in each."},
      {Wrong::negative_sittings, [](FerryPier&, Plan& p) { p.sittings = -1; },
       "Sittings: cannot take “-1”; allowed: 0 (as many as needed) or more."},
      {Wrong::over_six_pairs,
       [](FerryPier&, Plan& p) {
         p.controls.clear();
         p.pairs_per_sitting = 9;
       },
       "Pairs a sitting: cannot take “9”; allowed: six at most unless it is overridden on purpose; the report says "
       "so."},
      {Wrong::over_four_pairs,
       [](FerryPier&, Plan& p) {
         p.controls.clear();
         p.pairs_per_sitting = 5;
       },
       "Pairs a sitting: cannot take “5”; allowed: four, since palates tire; the report says so."},
      {Wrong::too_many_codes,
       [](FerryPier&, Plan& p) {
         p.controls.clear();
         p.serving_way = ServingWay::own_brews;
         p.brew_pairs = 25;
       },
       "Blind codes: too large: “940”; allowed: at most 900 three-digit codes in a trial, spare codes included."},
      {Wrong::cups_not_filled, [](FerryPier&, Plan& p) { p.cup = Volume(60'500); },
       "Cup volume: cannot take “a brew has to fill 242~ml”; allowed: about 188~ml of liquor come from one brew."},
      {Wrong::yardstick_not_filled, [](FerryPier&, Plan& p) { p.cup = millilitres(60); },
       "Yardstick: cannot take “its cups take 451.2~ml”; allowed: about 376~ml come from its two brews.",
       "Yardstick: cannot take “its cups take 451,2~ml”; allowed: about 376~ml come from its two brews."},
  };
  return cases;
}

void alone(FerryPier& f, Plan& p) {
  p = f.trial_16();
  p.brew_pairs = 4;
  p.controls.clear();
}

const std::vector<Case>& verdict_cases() {
  static const std::vector<Case> cases{
      {Wrong::few_solo_pairs, alone, "Brew pairs: cannot take “4”; allowed: six or more for a lone taster."},
      {Wrong::few_solo_blanks, alone,
       "Blank pairs: cannot take “0 in 4 pairs”; allowed: one in every four pairs for a lone taster."},
      {Wrong::few_solo_days, alone, "Sittings: cannot take “1”; allowed: two days or more for a lone taster."},
      {Wrong::alpha_out_of_range, [](FerryPier&, Plan& p) { p.alpha_permille = 0; },
       "Alpha: cannot take “0.000”; allowed: 0.001 to 0.200.", "Alpha: cannot take “0,000”; allowed: 0,001 to 0,200."},
      {Wrong::cannot_decide,
       [](FerryPier& f, Plan& p) {
         p.lots = {f.l12};
         p.brew_pairs = 2;
       },
       "This plan can describe, it cannot decide: 2 brew pairs planned, 3 or more are needed."},
      {Wrong::leaf_never_shown, [](FerryPier&, Plan& p) { p.brew_pairs = 2; },
       "Lots: cannot take “3 lots of 2 brew pairs”; allowed: can never show Depends on the leaf: the smallest p is "
       "0.067.",
       "Lots: cannot take “3 lots of 2 brew pairs”; allowed: can never show Depends on the leaf: the smallest p is "
       "0,067."},
      {Wrong::several_variables, [](FerryPier&, Plan& p) { drop(p, ConstantKind::chill); },
       "One variable: cannot take “chill path: no way of chilling is held, and the warmer liquor takes longer to "
       "cool”; allowed: the lever alone."},
  };
  return cases;
}

/// The program's own attributes and two of a house: another timed one, another of three bands.
const std::vector<Attribute>& known() {
  static const std::vector<Attribute> attributes = [] {
    std::vector<Attribute> out = builtin_attributes();
    for (const auto& [like, id, name] : {std::tuple{"finish_length", "sting_length", "Sting length"},
                                         std::tuple{"aroma_register", "dry_nose", "Dry leaf"}}) {
      Attribute own = *find_attribute(builtin_attributes(), like);
      own.id = id;
      own.name = name;
      out.push_back(own);
    }
    return out;
  }();
  return attributes;
}

void say(const Case& one, Page& page) {
  FerryPier pier;
  Plan plan = pier.trial_14();
  one.how(pier, plan);
  const auto notes = check(plan, pier.registers, known());
  const auto found = std::ranges::find(notes, one.wrong, &PlanNote::wrong);
  const std::string facts = "note " + std::to_string(static_cast<int>(one.wrong));
  if (found == notes.end()) {
    page.push_back({facts, "does not arise", one.sentence ? one.sentence : ""});
    return;
  }
  const wording::NotedPlan of{plan, pier.registers, known()};
  const std::string unknown =
      "Open reference pair: not found: “" + id_of<Lot>(99).text() + "”; allowed: a lot of the registers.";
  page.push_back({facts, wording::sentence(*found, of, celsius), one.sentence ? one.sentence : unknown});
  page.push_back({facts + " elsewhere", wording::sentence(*found, of, fahrenheit_comma),
                  one.elsewhere  ? one.elsewhere
                  : one.sentence ? one.sentence
                                 : unknown});
}

}  // namespace

Page plan_notes_page() {
  Page page;
  std::set<Wrong> said;
  for (const auto* cases :
       {&lever_cases(), &leaf_and_people_cases(), &rule_cases(), &serving_cases(), &verdict_cases()})
    for (const auto& one : *cases) {
      say(one, page);
      said.insert(one.wrong);
    }
  for (int i = 0; i <= static_cast<int>(Wrong::several_variables); ++i)
    if (!said.contains(static_cast<Wrong>(i))) page.push_back({"note " + std::to_string(i), "", "a case of its own"});
  return page;
}

Page plan_note_names_page() {
  Page page;
  FerryPier pier;
  Plan plan = pier.trial_14();
  plan.constants.resize(2);
  for (auto& constant : plan.constants) constant = {};
  plan.constants[1].name = "lids";
  for (auto& lot : pier.registers.lots) lot.code.clear();
  for (auto& person : pier.registers.assessors) person.alias.clear();
  const auto of = [&](const std::string& facts, const PlanNote& note, const std::string& sentence) {
    page.push_back({facts, wording::sentence(note, {plan, pier.registers, builtin_attributes()}, celsius), sentence});
  };
  const auto held = [](std::size_t index) {
    return PlanNote{.wrong = Wrong::constant_twice, .place = {PlanField::constant, index}};
  };
  of("a constant without a name", held(0), "Other constant: is there twice; allowed: each constant once.");
  of("one with a name", held(1), "Lids: is there twice; allowed: each constant once.");
  of("one that is gone", held(2), "Other constant: is there twice; allowed: each constant once.");
  of("a lot without a code", {.wrong = Wrong::lot_twice, .place = {PlanField::lots}, .lot = pier.l12},
     "Lots: is there twice: “" + pier.l12.text() + "”; allowed: each lot once.");
  of("a taster without an alias", {.wrong = Wrong::assessor_twice, .place = {PlanField::assessors}, .person = pier.k},
     "Assessors: is there twice: “" + pier.k.text() + "”; allowed: each assessor once.");
  // At the seal even what is no block would be said by its field.
  PlanNote silent{.wrong = Wrong::cannot_decide, .place = {PlanField::verdict}, .forecast = EngineForecast{}};
  const Error said = wording::error_of(silent, {plan, pier.registers, builtin_attributes()}, celsius);
  page.push_back(
      {"what a plan cannot say, as an error", said.field + ": " + said.value, "what it can say: 0 brew pairs"});
  return page;
}

}  // namespace likeleaf::book
