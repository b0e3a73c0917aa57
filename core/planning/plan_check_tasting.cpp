// check(): people, attributes, controls, sittings, and what the plan will be able to say.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/base/number_text.h"
#include "core/planning/engine_rule.h"
#include "core/planning/needs.h"
#include "core/planning/plan_notes.h"

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
  std::set<std::pair<IdOf<Assessor>, Role>> seen;
  for (const auto& person : given.plan.assessors) {
    if (!find_record(given.registers.assessors, person.id))
      notes.block(ErrorKind::not_found, "assessors", given.person_text(person.id), "an assessor of the registers");
    else if (!seen.insert({person.id, person.role}).second)
      notes.block(ErrorKind::duplicate, "assessors", given.person_text(person.id), "each assessor once");
  }
}

void check_margin(const PlanAttribute& chosen, const Attribute& attribute, Notes& notes) {
  const bool ratio = attribute.scale == Scale::seconds;
  const std::int64_t low = ratio ? 1001 : 1;
  const std::int64_t high = ratio ? 10'000 : attribute.scale == Scale::register_bands ? 40 : 20;
  if (chosen.margin >= low && chosen.margin <= high) return;
  const std::string value =
      ratio ? "×" + decimal_text(chosen.margin, 3, 2, Style{})
            : decimal_text(std::clamp<std::int64_t>(chosen.margin, -1'000'000, 1'000'000) * 5, 1, 1, Style{});
  const std::string field = attribute.name + ", margin";
  const std::string allowed =
      ratio ? "a ratio above ×1.00, at most ×10.00" : fmt::format("half a point to {} points", high / 2);
  if (chosen.deciding)
    notes.block(chosen.margin == (ratio ? 1000 : 0) ? ErrorKind::missing : ErrorKind::bad_value, field, value, allowed);
  else
    notes.caution(field, value, allowed);
}

std::string clause_name(const Given& given, const RuleClause& clause) {
  const Attribute* attribute = find_attribute(given.attributes, clause.attribute);
  return attribute ? attribute->name : shown_value(clause.attribute);
}

void check_clause(const Given& given, const RuleClause& clause, Notes& notes) {
  const auto chosen = std::ranges::find(given.plan.attributes, clause.attribute, &PlanAttribute::attribute);
  if (chosen == given.plan.attributes.end())
    notes.block(ErrorKind::not_found, "if-then rule", clause_name(given, clause), "an attribute of this plan");
  else if (!chosen->deciding)
    notes.caution("if-then rule", clause_name(given, clause),
                  "a deciding attribute; of the others the rule could only say that it cannot say");
  if (clause.way != RuleClause::Way::holds && clause.by <= 0)
    notes.block(ErrorKind::bad_value, "if-then rule, by how much", fmt::format("{}", clause.by), "more than nothing");
}

void check_control(const Given& given, const Control& control, int sittings, Notes& notes) {
  const Plan& plan = given.plan;
  if (control.sitting < 1 || control.sitting > sittings)
    notes.block(ErrorKind::not_found, "controls", fmt::format("sitting {}", control.sitting),
                sittings == 0 ? "no sitting is planned yet" : fmt::format("sitting 1 to {}", sittings));
  const bool of_the_trial = std::ranges::find(plan.lots, control.lot) != plan.lots.end();
  if (control.kind == ControlKind::repeat ? !of_the_trial : !of_the_trial && !given.knows(control.lot))
    notes.block(ErrorKind::not_found, "controls", given.lot_text(control.lot),
                control.kind == ControlKind::repeat ? "a lot of this trial" : "a lot of the registers");
  if (control.level >= plan.lever.levels.size())
    notes.block(ErrorKind::not_found, "controls", fmt::format("level {}", control.level + 1), "a level of this plan");
  if (control.kind != ControlKind::yardstick) return;
  const std::int64_t dilution = control.dilution.count();
  if (dilution < 1 || dilution > 900)
    notes.block(ErrorKind::bad_value, "yardstick, dilution", fmt::format("{} ‰", dilution), "0.1 % to 90 %");
  else if (dilution < 100 || dilution > 150)
    notes.caution("yardstick, dilution", decimal_text(dilution, 1, 1, Style{}) + " %", "10 % to 15 % is usual");
}

/// Does what is brewed fill the cups?
void check_liquor(const Given& given, const Needs& need, Notes& notes) {
  const Plan& plan = given.plan;
  const auto brewed = liquor_of_a_brew(plan, plan.lever.reference());
  if (!brewed) return;
  if (*brewed < need.liquor_per_brew)
    notes.caution("cup volume", fmt::format("a brew has to fill {}", volume_text(need.liquor_per_brew, Style{})),
                  fmt::format("about {} of liquor come from one brew", volume_text(*brewed, Style{})));
  const auto people = static_cast<std::int64_t>(plan.serving_way == ServingWay::own_brews ? 1 : tasters(plan).size());
  for (const auto& control : plan.controls) {
    if (control.kind != ControlKind::yardstick) continue;
    const std::int64_t kept = 1000 - std::clamp<std::int64_t>(control.dilution.count(), 0, 1000);
    const Volume wanted(need.cup.count() * people * (1000 + kept) / 1000);
    if (*brewed * brews_of_a_yardstick >= wanted) continue;
    notes.caution(
        "yardstick", fmt::format("its cups take {}", volume_text(wanted, Style{})),
        fmt::format("about {} come from its two brews", volume_text(*brewed * brews_of_a_yardstick, Style{})));
  }
}

/// What a lone taster owes to being believed (methods.md section 6).
void check_solo(const Given& given, const Needs& need, Notes& notes) {
  const Plan& plan = given.plan;
  if (!is_solo(plan)) return;
  if (need.brew_pairs < fewest_solo_pairs)
    notes.caution("brew pairs", fmt::format("{}", need.brew_pairs), "six or more for a lone taster");
  const auto blanks = std::ranges::count(plan.controls, ControlKind::blank, &Control::kind);
  if (blanks * 4 < need.counted_sheets)
    notes.caution("blank pairs", fmt::format("{} in {} pairs", blanks, need.counted_sheets),
                  "one in every four pairs for a lone taster");
  if (need.sittings < 2)
    notes.caution("sittings", fmt::format("{}", need.sittings), "two days or more for a lone taster");
}

}  // namespace

void check_people(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  check_person_once(given, notes);
  const auto tasting = tasters(plan);
  if (tasting.empty()) notes.block(ErrorKind::missing, "assessors", "", "one taster or more");
  const auto tastes = [&](IdOf<Assessor> id) { return std::ranges::find(tasting, id) != tasting.end(); };
  bool prepared = false;
  std::set<std::pair<IdOf<Assessor>, Role>> named;
  for (const auto& person : plan.assessors) {
    prepared = prepared || person.role == Role::preparer;
    if (!named.insert({person.id, person.role}).second) continue;
    if (person.role == Role::preparer && tastes(person.id) && !is_solo(plan))
      notes.block(ErrorKind::conflict, "preparer", given.person_text(person.id),
                  "somebody who does not taste, since the preparer knows the key");
    if (person.role == Role::head && tastes(person.id) && !is_solo(plan))
      notes.caution("head taster", given.person_text(person.id), "better not among the tasters: the question is known");
  }
  if (!prepared && plan.blinding == Blinding::preparer)
    notes.caution("preparer", "", "somebody who brews, knows the key and does not taste", ErrorKind::missing);
  if (plan.blinding == Blinding::self && tasting.size() > 1)
    notes.caution("self-blinded", fmt::format("{} tasters", tasting.size()), "one taster; several need a preparer");
}

void check_attributes(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  if (plan.attributes.empty()) notes.block(ErrorKind::missing, "attributes", "", "one attribute or more");
  std::set<std::string> seen;
  for (const auto& chosen : plan.attributes) {
    const Attribute* attribute = find_attribute(given.attributes, chosen.attribute);
    if (!attribute) {
      notes.block(ErrorKind::not_found, "attributes", shown_value(chosen.attribute), "a known attribute");
      continue;
    }
    if (!seen.insert(chosen.attribute).second)
      notes.block(ErrorKind::duplicate, "attributes", attribute->name, "each attribute once");
    else
      check_margin(chosen, *attribute, notes);
  }
  if (plan.sip == SipProtocol::attribute_by_attribute && plan.attributes.size() > attributes_side_by_side)
    notes.block(ErrorKind::bad_value, "sip protocol", fmt::format("{} attributes", plan.attributes.size()),
                "three attributes at most when tasting attribute by attribute; else cup by cup");
}

void check_rule(const Given& given, Notes& notes) {
  if (!given.plan.rule) return;
  const IfThenRule& rule = *given.plan.rule;
  const Plan& plan = given.plan;
  if (rule.clauses.empty())
    notes.caution("if-then rule", "", "a condition: which attribute falls, rises or holds", ErrorKind::missing);
  for (const auto& clause : rule.clauses) check_clause(given, clause, notes);
  if (rule.to_level >= plan.lever.levels.size())
    notes.block(ErrorKind::not_found, "if-then rule", fmt::format("level {}", rule.to_level + 1),
                "a level of this plan");
  for (const auto& lot : rule.leaves)
    if (std::ranges::find(plan.lots, lot) == plan.lots.end())
      notes.block(ErrorKind::not_found, "if-then rule", given.lot_text(lot), "a lot of this trial");
}

void check_controls(const Given& given, Notes& notes) {
  const auto sittings = static_cast<int>(sitting_shapes(given.plan).size());
  for (const auto& control : given.plan.controls) check_control(given, control, sittings, notes);
}

void check_sittings(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  if (plan.brew_pairs < 1 || plan.brew_pairs > most_brew_pairs)
    notes.block(ErrorKind::bad_value, "brew pairs", fmt::format("{}", plan.brew_pairs), "1 to 40 a lot");
  if (plan.pairs_per_sitting < 1 || plan.pairs_per_sitting > most_pairs_in_a_sitting)
    notes.block(ErrorKind::bad_value, "pairs a sitting", fmt::format("{}", plan.pairs_per_sitting), "1 to 40");
  if (plan.cup.count() <= 0) notes.block(ErrorKind::bad_value, "cup volume", "0 ml or less", "more than 0 ml");

  const Needs need = needs(plan, given.registers);
  int most = 0;
  for (const auto& shape : sitting_shapes(plan)) {
    most = std::max(most, shape.contrast_pairs + shape.controls);
    if (plan.sittings > 0 && shape.contrast_pairs + shape.controls == 0 && need.brew_pairs > 0) {
      notes.block(ErrorKind::bad_value, "sittings", fmt::format("{}", plan.sittings), "a pair or more in each");
      break;
    }
  }
  if (plan.sittings < 0)
    notes.block(ErrorKind::bad_value, "sittings", fmt::format("{}", plan.sittings), "0 (as many as needed) or more");
  if (most > pairs_without_override)
    notes.caution("pairs a sitting", fmt::format("{}", most),
                  "six at most unless it is overridden on purpose; the report says so");
  else if (most > pairs_by_default)
    notes.caution("pairs a sitting", fmt::format("{}", most), "four, since palates tire; the report says so");

  // Spares are a quarter of the pairs, at least six, so that a spilt pair can be brewed again under codes of its own.
  const int spares = std::max(6, (need.pairs + 3) / 4);
  if (2 * (need.pairs + spares) > codes_there_are)
    notes.block(ErrorKind::too_large, "blind codes", fmt::format("{}", 2 * (need.pairs + spares)),
                "at most 900 three-digit codes in a trial, spare codes included");
  check_liquor(given, need, notes);
  check_solo(given, need, notes);
}

void check_power(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  if (plan.alpha_permille < 1 || plan.alpha_permille > 200)
    notes.block(ErrorKind::bad_value, "alpha",
                decimal_text(std::clamp<std::int64_t>(plan.alpha_permille, -9999, 9999), 3, 3, Style{}),
                "0.001 to 0.200");
  const EngineForecast forecast = engine_forecast(plan);
  if (forecast.kind == EngineForecast::Kind::describe)
    notes.caution("what it can say", fmt::format("{} brew pairs", forecast.brew_pairs), forecast.sentence);
  const auto lots = static_cast<int>(std::min<std::size_t>(plan.lots.size(), 1000));
  if (lots < 2 || forecast.brew_pairs == 0) return;
  const int each = forecast.brew_pairs / static_cast<int>(plan.lots.size());
  const double p = smallest_p_between_lots(lots, each);
  if (each >= 2 && p > 0.05)
    notes.caution("lots", fmt::format("{} lots of {} brew pairs", lots, each),
                  fmt::format("can never show Depends on the leaf: the smallest p is {}", number_text(p, 3, Style{})));
}

}  // namespace likeleaf::plan_check
