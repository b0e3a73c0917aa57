// check(): people, attributes, controls, sittings, and what the plan will be able to say.
#include <algorithm>
#include <set>

#include "core/planning/engine_rule.h"
#include "core/planning/needs.h"
#include "core/planning/plan_check_parts.h"

namespace likeleaf::plan_check {
namespace {

constexpr int most_brew_pairs = 40;
constexpr int pairs_by_default = 4;
constexpr int pairs_without_override = 6;
constexpr int most_pairs_in_a_sitting = 40;
constexpr int codes_there_are = 900;
constexpr std::size_t attributes_side_by_side = 3;
constexpr int fewest_solo_pairs = 6;

bool is_solo(const Plan& plan) {
  return plan.blinding == Blinding::self && tasters(plan).size() == 1;
}

void check_person_once(const Given& given, Notes& notes) {
  const PlanPlace place{PlanField::assessors};
  std::set<std::pair<IdOf<Assessor>, Role>> seen;
  for (const auto& person : given.plan.assessors) {
    if (!find_record(given.registers.assessors, person.id))
      notes.block({.wrong = Wrong::unknown_assessor, .place = place, .person = person.id});
    else if (!seen.insert({person.id, person.role}).second)
      notes.block({.wrong = Wrong::assessor_twice, .place = place, .person = person.id});
  }
}

void check_margin(const PlanAttribute& chosen, const Attribute& attribute, Notes& notes) {
  const bool ratio = attribute.scale == Scale::seconds;
  const std::int64_t low = ratio ? 1001 : 1;
  const std::int64_t high = ratio ? 10'000 : attribute.scale == Scale::register_bands ? 40 : 20;
  if (chosen.margin >= low && chosen.margin <= high) return;
  const auto margin = [&](std::int64_t value) { return ratio ? Quantity(Ratio(value)) : Quantity(HalfPoints(value)); };
  PlanNote note{.wrong = Wrong::margin_out_of_range,
                .place = {.field = PlanField::margin, .attribute = attribute.id},
                .given = margin(chosen.margin),
                .lowest = margin(low),
                .highest = margin(high)};
  if (!chosen.deciding) return notes.caution(std::move(note));
  if (chosen.margin == (ratio ? 1000 : 0)) note.wrong = Wrong::no_margin;
  notes.block(std::move(note));
}

/// A sheet has one timer a cup and one place for base, middle and top notes; a second of either would be lost in Taste.
void check_one_of(Scale scale, Wrong wrong, const Given& given, Notes& notes) {
  std::set<std::string> ids;
  for (const auto& chosen : given.plan.attributes) {
    const auto* attribute = find_attribute(given.attributes, chosen.attribute);
    if (attribute && attribute->scale == scale && ids.insert(attribute->id).second && ids.size() > 1)
      notes.block({.wrong = wrong, .place = {PlanField::attributes}, .named = attribute->id});
  }
}

void check_clause(const Given& given, std::size_t index, Notes& notes) {
  const RuleClause& clause = given.plan.rule->clauses[index];
  const PlanPlace place{PlanField::clause, index};
  const auto chosen = std::ranges::find(given.plan.attributes, clause.attribute, &PlanAttribute::attribute);
  if (chosen == given.plan.attributes.end())
    notes.block({.wrong = Wrong::clause_outside_plan, .place = place, .named = clause.attribute});
  else if (!chosen->deciding)
    notes.caution({.wrong = Wrong::clause_not_deciding, .place = place, .named = clause.attribute});
  if (clause.way != RuleClause::Way::holds && clause.by <= 0)
    notes.block({.wrong = Wrong::clause_by_nothing, .place = {PlanField::clause_amount, index}, .count = clause.by});
}

void check_dilution(const Control& control, std::size_t index, Notes& notes) {
  constexpr Permille least(1), most(900), usual_least(100), usual_most(150);
  const PlanPlace place{PlanField::dilution, index};
  if (control.dilution < least || control.dilution > most)
    notes.block({.wrong = Wrong::dilution_out_of_range,
                 .place = place,
                 .given = control.dilution,
                 .lowest = least,
                 .highest = most});
  else if (control.dilution < usual_least || control.dilution > usual_most)
    notes.caution({.wrong = Wrong::unusual_dilution,
                   .place = place,
                   .given = control.dilution,
                   .lowest = usual_least,
                   .highest = usual_most});
}

void check_control(const Given& given, std::size_t index, int sittings, Notes& notes) {
  const Plan& plan = given.plan;
  const Control& control = plan.controls[index];
  const PlanPlace place{PlanField::control, index};
  if (control.sitting < 1 || control.sitting > sittings)
    notes.block({.wrong = Wrong::unknown_sitting, .place = place, .count = control.sitting, .most = sittings});
  const bool of_the_trial = std::ranges::find(plan.lots, control.lot) != plan.lots.end();
  if (control.kind == ControlKind::repeat ? !of_the_trial : !of_the_trial && !given.knows(control.lot))
    notes.block({.wrong = control.kind == ControlKind::repeat ? Wrong::lot_outside_trial : Wrong::unknown_lot,
                 .place = place,
                 .lot = control.lot});
  if (control.level >= plan.lever.levels.size())
    notes.block({.wrong = Wrong::unknown_level, .place = place, .count = static_cast<std::int64_t>(control.level) + 1});
  if (control.kind == ControlKind::yardstick) check_dilution(control, index, notes);
}

/// Does what is brewed fill the cups?
void check_liquor(const Given& given, const Needs& need, Notes& notes) {
  const Plan& plan = given.plan;
  const auto brewed = liquor_of_a_brew(plan, plan.lever.reference());
  if (!brewed) return;
  if (*brewed < need.liquor_per_brew)
    notes.caution({.wrong = Wrong::cups_not_filled,
                   .place = {PlanField::cup_volume},
                   .given = *brewed,
                   .lowest = need.liquor_per_brew});
  const auto people = static_cast<std::int64_t>(plan.serving_way == ServingWay::own_brews ? 1 : tasters(plan).size());
  for (std::size_t i = 0; i < plan.controls.size(); ++i) {
    const Control& control = plan.controls[i];
    if (control.kind != ControlKind::yardstick) continue;
    const std::int64_t kept = 1000 - std::clamp<std::int64_t>(control.dilution.count(), 0, 1000);
    const Volume wanted(need.cup.count() * people * (1000 + kept) / 1000);
    if (*brewed * brews_of_a_yardstick >= wanted) continue;
    notes.caution({.wrong = Wrong::yardstick_not_filled,
                   .place = {PlanField::yardstick, i},
                   .given = *brewed * brews_of_a_yardstick,
                   .lowest = wanted});
  }
}

/// What a lone taster owes to being believed (methods.md section 6).
void check_solo(const Given& given, const Needs& need, Notes& notes) {
  const Plan& plan = given.plan;
  if (!is_solo(plan)) return;
  if (need.brew_pairs < fewest_solo_pairs)
    notes.caution({.wrong = Wrong::few_solo_pairs, .place = {PlanField::brew_pairs}, .count = need.brew_pairs});
  const auto blanks = std::ranges::count(plan.controls, ControlKind::blank, &Control::kind);
  if (blanks * 4 < need.counted_sheets)
    notes.caution({.wrong = Wrong::few_solo_blanks,
                   .place = {PlanField::blank_pairs},
                   .count = blanks,
                   .most = need.counted_sheets});
  if (need.sittings < 2)
    notes.caution({.wrong = Wrong::few_solo_days, .place = {PlanField::sittings}, .count = need.sittings});
}

/// Is there a sitting without a pair, and how full is the fullest?
void check_shapes(const Plan& plan, const Needs& need, Notes& notes) {
  int most = 0;
  for (const auto& shape : sitting_shapes(plan)) {
    most = std::max(most, shape.contrast_pairs + shape.controls);
    if (plan.sittings > 0 && shape.contrast_pairs + shape.controls == 0 && need.brew_pairs > 0) {
      notes.block({.wrong = Wrong::empty_sitting, .place = {PlanField::sittings}, .count = plan.sittings});
      break;
    }
  }
  if (plan.sittings < 0)
    notes.block({.wrong = Wrong::negative_sittings, .place = {PlanField::sittings}, .count = plan.sittings});
  if (most > pairs_by_default)
    notes.caution({.wrong = most > pairs_without_override ? Wrong::over_six_pairs : Wrong::over_four_pairs,
                   .place = {PlanField::pairs_per_sitting},
                   .count = most});
}

}  // namespace

void check_people(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  check_person_once(given, notes);
  const auto tasting = tasters(plan);
  if (tasting.empty()) notes.block({.wrong = Wrong::no_taster, .place = {PlanField::assessors}});
  const auto tastes = [&](IdOf<Assessor> id) { return std::ranges::find(tasting, id) != tasting.end(); };
  bool prepared = false;
  std::set<std::pair<IdOf<Assessor>, Role>> named;
  for (const auto& person : plan.assessors) {
    prepared = prepared || person.role == Role::preparer;
    if (!named.insert({person.id, person.role}).second) continue;
    if (person.role == Role::preparer && tastes(person.id) && !is_solo(plan))
      notes.block({.wrong = Wrong::preparer_tastes, .place = {PlanField::preparer}, .person = person.id});
    if (person.role == Role::head && tastes(person.id) && !is_solo(plan))
      notes.caution({.wrong = Wrong::head_tastes, .place = {PlanField::head_taster}, .person = person.id});
  }
  if (!prepared && plan.blinding == Blinding::preparer)
    notes.caution({.wrong = Wrong::no_preparer, .place = {PlanField::preparer}});
  if (plan.blinding == Blinding::self && tasting.size() > 1)
    notes.caution({.wrong = Wrong::several_self_blinded,
                   .place = {PlanField::self_blinded},
                   .count = static_cast<std::int64_t>(tasting.size())});
}

void check_attributes(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  const PlanPlace place{PlanField::attributes};
  if (plan.attributes.empty()) notes.block({.wrong = Wrong::no_attributes, .place = place});
  std::set<std::string> seen;
  for (const auto& chosen : plan.attributes) {
    const Attribute* attribute = find_attribute(given.attributes, chosen.attribute);
    if (!attribute)
      notes.block({.wrong = Wrong::unknown_attribute, .place = place, .named = chosen.attribute});
    else if (!seen.insert(chosen.attribute).second)
      notes.block({.wrong = Wrong::attribute_twice, .place = place, .named = chosen.attribute});
    else
      check_margin(chosen, *attribute, notes);
  }
  check_one_of(Scale::seconds, Wrong::second_timed, given, notes);
  check_one_of(Scale::register_bands, Wrong::second_banded, given, notes);
  if (plan.sip == SipProtocol::attribute_by_attribute && plan.attributes.size() > attributes_side_by_side)
    notes.block({.wrong = Wrong::too_many_side_by_side,
                 .place = {PlanField::sip_protocol},
                 .count = static_cast<std::int64_t>(plan.attributes.size())});
}

void check_rule(const Given& given, Notes& notes) {
  if (!given.plan.rule) return;
  const IfThenRule& rule = *given.plan.rule;
  const Plan& plan = given.plan;
  const PlanPlace place{PlanField::rule};
  if (rule.clauses.empty()) notes.caution({.wrong = Wrong::rule_without_condition, .place = place});
  for (std::size_t i = 0; i < rule.clauses.size(); ++i) check_clause(given, i, notes);
  if (rule.to_level >= plan.lever.levels.size())
    notes.block({.wrong = Wrong::unknown_level, .place = place, .count = static_cast<std::int64_t>(rule.to_level) + 1});
  for (const auto& lot : rule.leaves)
    if (std::ranges::find(plan.lots, lot) == plan.lots.end())
      notes.block({.wrong = Wrong::lot_outside_trial, .place = place, .lot = lot});
}

void check_controls(const Given& given, Notes& notes) {
  const auto sittings = static_cast<int>(sitting_shapes(given.plan).size());
  for (std::size_t i = 0; i < given.plan.controls.size(); ++i) check_control(given, i, sittings, notes);
}

void check_sittings(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  if (plan.brew_pairs < 1 || plan.brew_pairs > most_brew_pairs)
    notes.block({.wrong = Wrong::brew_pairs_out_of_range,
                 .place = {PlanField::brew_pairs},
                 .count = plan.brew_pairs,
                 .most = most_brew_pairs});
  if (plan.pairs_per_sitting < 1 || plan.pairs_per_sitting > most_pairs_in_a_sitting)
    notes.block({.wrong = Wrong::sitting_out_of_range,
                 .place = {PlanField::pairs_per_sitting},
                 .count = plan.pairs_per_sitting,
                 .most = most_pairs_in_a_sitting});
  if (plan.cup.count() <= 0) notes.block({.wrong = Wrong::no_cup, .place = {PlanField::cup_volume}});

  const Needs need = needs(plan, given.registers);
  check_shapes(plan, need, notes);
  // Spares are a quarter of the pairs, at least six, so that a spilt pair can be brewed again under codes of its own.
  const int spares = std::max(6, (need.pairs + 3) / 4);
  const int codes = 2 * (need.pairs + spares);
  if (codes > codes_there_are)
    notes.block(
        {.wrong = Wrong::too_many_codes, .place = {PlanField::blind_codes}, .count = codes, .most = codes_there_are});
  check_liquor(given, need, notes);
  check_solo(given, need, notes);
}

void check_power(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  constexpr Permille least_alpha(1), most_alpha(200);
  const Permille alpha(plan.alpha_permille);
  if (alpha < least_alpha || alpha > most_alpha)
    notes.block({.wrong = Wrong::alpha_out_of_range,
                 .place = {PlanField::alpha},
                 .given = alpha,
                 .lowest = least_alpha,
                 .highest = most_alpha});
  const EngineForecast forecast = engine_forecast(plan);
  if (forecast.kind == EngineForecast::Kind::describe)
    notes.caution({.wrong = Wrong::cannot_decide, .place = {PlanField::verdict}, .forecast = forecast});
  const auto lots = static_cast<int>(std::min<std::size_t>(plan.lots.size(), 1000));
  if (lots < 2 || forecast.brew_pairs == 0) return;
  const int each = forecast.brew_pairs / static_cast<int>(plan.lots.size());
  const double p = smallest_p_between_lots(lots, each);
  if (each >= 2 && p > 0.05)
    notes.caution({.wrong = Wrong::leaf_never_shown, .place = {PlanField::lots}, .count = lots, .most = each, .p = p});
}

}  // namespace likeleaf::plan_check
