#include "core/wording/plan_note_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/wording/errors.h"
#include "core/wording/forecast_text.h"
#include "core/wording/one_variable_text.h"

namespace likeleaf::wording {
namespace {

// ---- names ----

template <class Record>
std::string record_name(const std::vector<Record>& records, IdOf<Record> id, std::string Record::*name,
                        std::string_view nobody) {
  const Record* record = find_record(records, id);
  if (record && !(record->*name).empty()) return record->*name;
  return id.empty() ? std::string(nobody) : id.text();
}

std::string lot_text(IdOf<Lot> id, const NotedPlan& of) {
  return record_name(of.registers.lots, id, &Lot::code, "no lot chosen");
}

std::string person_text(IdOf<Assessor> id, const NotedPlan& of) {
  return record_name(of.registers.assessors, id, &Assessor::alias, "nobody chosen");
}

std::string attribute_text(const std::string& id, const NotedPlan& of) {
  const Attribute* attribute = find_attribute(of.attributes, id);
  return attribute ? attribute->name : shown_value(id);
}

std::string held_name(std::size_t index, const NotedPlan& of) {
  if (index >= of.plan.constants.size()) return constant_name(ConstantKind::other);
  const Constant& held = of.plan.constants[index];
  return held.kind == ConstantKind::other && !held.name.empty() ? held.name : constant_name(held.kind);
}

std::string field_text(const PlanPlace& place, const NotedPlan& of) {
  const auto of_level = [&](ConstantKind part) {
    return fmt::format("level {}, {}", place.index + 1, constant_name(part));
  };
  switch (place.field) {
    case PlanField::question:
      return "question";
    case PlanField::lever_name:
      return "what changes";
    case PlanField::levels:
      return "levels";
    case PlanField::level:
      return fmt::format("level {}", place.index + 1);
    case PlanField::infusion_pour:
      return of_level(ConstantKind::water_temperature);
    case PlanField::infusion_steep:
      return of_level(ConstantKind::steep_time);
    case PlanField::infusion_water:
      return of_level(ConstantKind::water_mass);
    case PlanField::present_way:
      return "present way";
    case PlanField::constant:
      return held_name(place.index, of);
    case PlanField::tolerance:
      return held_name(place.index, of) + ", tolerance";
    case PlanField::leaf_dose:
      return constant_name(ConstantKind::leaf_dose);
    case PlanField::water_mass:
      return constant_name(ConstantKind::water_mass);
    case PlanField::lots:
      return "lots";
    case PlanField::stock:
      return "stock of " + lot_text(place.lot, of);
    case PlanField::warm_up_leaf:
      return "warm-up leaf";
    case PlanField::reference_pair:
      return "open reference pair";
    case PlanField::assessors:
      return "assessors";
    case PlanField::preparer:
      return "preparer";
    case PlanField::head_taster:
      return "head taster";
    case PlanField::self_blinded:
      return "self-blinded";
    case PlanField::attributes:
      return "attributes";
    case PlanField::margin:
      return attribute_text(place.attribute, of) + ", margin";
    case PlanField::sip_protocol:
      return "sip protocol";
    case PlanField::rule:
    case PlanField::clause:
      return "if-then rule";
    case PlanField::clause_amount:
      return "if-then rule, by how much";
    case PlanField::control:
      return "controls";
    case PlanField::dilution:
      return "yardstick, dilution";
    case PlanField::yardstick:
      return "yardstick";
    case PlanField::blank_pairs:
      return "blank pairs";
    case PlanField::cup_volume:
      return "cup volume";
    case PlanField::brew_pairs:
      return "brew pairs";
    case PlanField::pairs_per_sitting:
      return "pairs a sitting";
    case PlanField::sittings:
      return "sittings";
    case PlanField::blind_codes:
      return "blind codes";
    case PlanField::alpha:
      return "alpha";
    case PlanField::verdict:
      return "what it can say";
    case PlanField::one_variable:
      break;
  }
  return "one variable";
}

// ---- amounts ----

std::string percent(Permille value, const Style& style) {
  const bool whole = value.count() % 10 == 0;
  return decimal_text(bounded(value.count()), 1, whole ? 0 : 1, style) + " %";
}

/// An amount as it stands in a plan.
struct AmountText {
  const Style& style;
  std::string operator()(Mass m) const { return mass_text(Mass(bounded(m.count())), style); }
  std::string operator()(Volume v) const { return volume_text(Volume(bounded(v.count())), style); }
  std::string operator()(Duration d) const { return duration_text(Duration(bounded(d.count())), style); }
  std::string operator()(Temperature t) const {
    return temperature_text(Temperature(bounded(t.milli_celsius())), style);
  }
  std::string operator()(TemperatureStep s) const { return step_text(TemperatureStep(bounded(s.count())), style); }
  std::string operator()(Permille p) const {
    return decimal_text(std::clamp<std::int64_t>(p.count(), -9999, 9999), 3, 3, style);
  }
  std::string operator()(HalfPoints h) const {
    return decimal_text(std::clamp<std::int64_t>(h.count(), -1'000'000, 1'000'000) * 5, 1, 1, style);
  }
  std::string operator()(Ratio r) const { return "×" + decimal_text(bounded(r.count()), 3, 2, style); }
};

std::string amount(const std::optional<Quantity>& quantity, const Style& style) {
  return quantity ? std::visit(AmountText{style}, *quantity) : std::string();
}

/// What may be: from the lowest to `highest`, which is of the same kind.
struct RangeText {
  const Quantity& highest;
  const Style& style;
  std::string operator()(Temperature low) const {
    const bool fahrenheit = style.temperature == TemperatureUnit::fahrenheit;
    const auto degrees = [&](Temperature t) {
      return decimal_text(fahrenheit ? t.milli_celsius() * 9 / 5 + 32'000 : t.milli_celsius(), 3, 0, style);
    };
    return fmt::format("{} to {} {}: water does not get hotter than boiling", degrees(low),
                       degrees(std::get<Temperature>(highest)), fahrenheit ? "°F" : "°C");
  }
  std::string operator()(Mass low) const { return thousands(low.count(), std::get<Mass>(highest).count(), "g"); }
  std::string operator()(Duration low) const {
    return thousands(low.count(), std::get<Duration>(highest).count(), "s");
  }
  std::string operator()(HalfPoints) const {
    return fmt::format("half a point to {} points", std::get<HalfPoints>(highest).count() / 2);
  }
  std::string operator()(Ratio low) const {
    return fmt::format("a ratio above {}, at most {}", AmountText{style}(low),
                       AmountText{style}(std::get<Ratio>(highest)));
  }
  template <class Kind>
  std::string operator()(Kind low) const {
    return fmt::format("{} to {}", AmountText{style}(low), AmountText{style}(std::get<Kind>(highest)));
  }

 private:
  /// Grams of milligrams, seconds of milliseconds. Something has to be there unless nothing at all may be.
  static std::string thousands(std::int64_t low, std::int64_t high, std::string_view unit) {
    if (low > 0) return fmt::format("more than 0 {0}, at most {1} {0}", unit, high / 1000);
    return fmt::format("0 to {} {}", high / 1000, unit);
  }
};

std::string range(const PlanNote& note, const Style& style) {
  return std::visit(RangeText{note.highest.value(), style}, note.lowest.value());
}

Permille permille(const std::optional<Quantity>& quantity) {
  return std::get<Permille>(quantity.value());
}

std::string percents(const PlanNote& note, const Style& style) {
  return percent(permille(note.lowest), style) + " to " + percent(permille(note.highest), style);
}

// ---- what there is ----

/// "3 tasters"; never one alone.
std::string several(const PlanNote& note, std::string_view of_what) {
  return fmt::format("{} {}", note.count, of_what);
}

std::string value_text(const PlanNote& note, const NotedPlan& of, const Style& style) {
  switch (note.wrong) {
    case Wrong::too_few_levels:
    case Wrong::clause_by_nothing:
    case Wrong::brew_pairs_out_of_range:
    case Wrong::sitting_out_of_range:
    case Wrong::empty_sitting:
    case Wrong::negative_sittings:
    case Wrong::over_six_pairs:
    case Wrong::over_four_pairs:
    case Wrong::too_many_codes:
    case Wrong::few_solo_pairs:
    case Wrong::few_solo_days:
      return fmt::format("{}", note.count);
    case Wrong::no_level_value:
      return note.named;
    case Wrong::equal_levels:
      return note.given ? amount(note.given, style) : note.named;
    case Wrong::several_present_ways:
      return several(note, "levels ticked");
    case Wrong::unknown_record:
      return shown_value(note.named);
    case Wrong::lever_held_too:
      return lever_name(of.plan.lever.kind);
    case Wrong::lot_twice:
    case Wrong::unknown_lot:
    case Wrong::lot_outside_trial:
    case Wrong::warm_up_in_trial:
      return lot_text(note.lot, of);
    case Wrong::unknown_assessor:
    case Wrong::assessor_twice:
    case Wrong::preparer_tastes:
    case Wrong::head_tastes:
      return person_text(note.person, of);
    case Wrong::several_self_blinded:
      return several(note, "tasters");
    case Wrong::unknown_attribute:
    case Wrong::attribute_twice:
    case Wrong::second_timed:
    case Wrong::second_banded:
    case Wrong::clause_outside_plan:
    case Wrong::clause_not_deciding:
      return attribute_text(note.named, of);
    case Wrong::too_many_side_by_side:
      return several(note, "attributes");
    case Wrong::unknown_level:
      return fmt::format("level {}", note.count);
    case Wrong::unknown_sitting:
      return fmt::format("sitting {}", note.count);
    case Wrong::dilution_out_of_range:
      return fmt::format("{} ‰", permille(note.given).count());
    case Wrong::unusual_dilution:
      return decimal_text(permille(note.given).count(), 1, 1, style) + " %";
    case Wrong::no_cup:
      return "0 ml or less";
    case Wrong::cups_not_filled:
      return "a brew has to fill " + amount(note.lowest, style);
    case Wrong::yardstick_not_filled:
      return "its cups take " + amount(note.lowest, style);
    case Wrong::few_solo_blanks:
      return fmt::format("{} in {} pairs", note.count, note.most);
    case Wrong::cannot_decide:
      return fmt::format("{} brew pairs", note.forecast.value().brew_pairs);
    case Wrong::leaf_never_shown:
      return fmt::format("{} lots of {} brew pairs", note.count, note.most);
    case Wrong::several_variables:
      return problem_text(note.problem.value(), style);
    default:
      return amount(note.given, style);
  }
}

// ---- what is allowed ----

std::string allowed_text(const PlanNote& note, const Style& style) {
  switch (note.wrong) {
    case Wrong::no_question:
      return "the one thing that this trial asks";
    case Wrong::lever_unnamed:
      return "a name for what changes";
    case Wrong::too_few_levels:
      return "two levels or more";
    case Wrong::no_level_value:
      return "a number: " + range(note, style);
    case Wrong::no_level_name:
      return "a name";
    case Wrong::no_level_name_or_schedule:
      return "a name or a schedule of infusions";
    case Wrong::equal_levels:
      return "levels that differ";
    case Wrong::several_present_ways:
      return "one level at most";
    case Wrong::out_of_range:
    case Wrong::no_margin:
    case Wrong::margin_out_of_range:
    case Wrong::alpha_out_of_range:
      return range(note, style);
    case Wrong::unknown_record:
      return "one of the house's registers";
    case Wrong::lever_held_too:
      return "what changes cannot be held as well; a tolerance alone may stand";
    case Wrong::constant_twice:
      return "each constant once";
    case Wrong::negative_tolerance:
      return "0 or more";
    case Wrong::usual_tolerance:
      return fmt::format("none given: ±{} is taken", amount(note.lowest, style));
    case Wrong::no_leaf_dose:
      return "a mass for each brew, else the leaf needed cannot be worked out";
    case Wrong::no_water_mass:
      return "a mass for each brew, else the water needed cannot be worked out";
    case Wrong::no_lots:
      return "one lot or more";
    case Wrong::lot_twice:
      return "each lot once";
    case Wrong::unknown_lot:
      return "a lot of the registers";
    case Wrong::lot_outside_trial:
      return "a lot of this trial";
    case Wrong::no_warm_up:
      return "a leaf outside the trial, tasted first and not counted";
    case Wrong::warm_up_in_trial:
      return "a leaf outside the trial";
    case Wrong::stock_not_entered:
      return amount(note.lowest, style) + " are needed; the stock was never entered";
    case Wrong::stock_too_small:
      return amount(note.lowest, style) + " are needed";
    case Wrong::unknown_assessor:
      return "an assessor of the registers";
    case Wrong::assessor_twice:
      return "each assessor once";
    case Wrong::no_taster:
      return "one taster or more";
    case Wrong::preparer_tastes:
      return "somebody who does not taste, since the preparer knows the key";
    case Wrong::head_tastes:
      return "better not among the tasters: the question is known";
    case Wrong::no_preparer:
      return "somebody who brews, knows the key and does not taste";
    case Wrong::several_self_blinded:
      return "one taster; several need a preparer";
    case Wrong::no_attributes:
      return "one attribute or more";
    case Wrong::unknown_attribute:
      return "a known attribute";
    case Wrong::attribute_twice:
      return "each attribute once";
    case Wrong::second_timed:
      return "one timed attribute: after a sip one finish can be timed";
    case Wrong::second_banded:
      return "one attribute of base, middle and top notes: the sheet has one place for them";
    case Wrong::too_many_side_by_side:
      return "three attributes at most when tasting attribute by attribute; else cup by cup";
    case Wrong::rule_without_condition:
      return "a condition: which attribute falls, rises or holds";
    case Wrong::clause_outside_plan:
      return "an attribute of this plan";
    case Wrong::clause_not_deciding:
      return "a deciding attribute; of the others the rule could only say that it cannot say";
    case Wrong::clause_by_nothing:
      return "more than nothing";
    case Wrong::unknown_level:
      return "a level of this plan";
    case Wrong::unknown_sitting:
      return fmt::format("sitting 1 to {}", note.most);
    case Wrong::dilution_out_of_range:
      return percents(note, style);
    case Wrong::unusual_dilution:
      return percents(note, style) + " is usual";
    case Wrong::brew_pairs_out_of_range:
      return fmt::format("1 to {} a lot", note.most);
    case Wrong::sitting_out_of_range:
      return fmt::format("1 to {}", note.most);
    case Wrong::no_cup:
      return "more than 0 ml";
    case Wrong::empty_sitting:
      return "a pair or more in each";
    case Wrong::negative_sittings:
      return "0 (as many as needed) or more";
    case Wrong::over_six_pairs:
      return "six at most unless it is overridden on purpose; the report says so";
    case Wrong::over_four_pairs:
      return "four, since palates tire; the report says so";
    case Wrong::too_many_codes:
      return fmt::format("at most {} three-digit codes in a trial, spare codes included", note.most);
    case Wrong::cups_not_filled:
      return fmt::format("about {} of liquor come from one brew", amount(note.given, style));
    case Wrong::yardstick_not_filled:
      return fmt::format("about {} come from its two brews", amount(note.given, style));
    case Wrong::few_solo_pairs:
      return "six or more for a lone taster";
    case Wrong::few_solo_blanks:
      return "one in every four pairs for a lone taster";
    case Wrong::few_solo_days:
      return "two days or more for a lone taster";
    case Wrong::cannot_decide:
      return sentence(note.forecast.value(), style);
    case Wrong::leaf_never_shown:
      return fmt::format("can never show Depends on the leaf: the smallest p is {}", number_text(note.p, 3, style));
    case Wrong::several_variables:
      break;
  }
  return "the lever alone";
}

}  // namespace

Error error_of(const PlanNote& note, const NotedPlan& of, const Style& style) {
  return {kind_of(note.wrong), field_text(note.place, of), value_text(note, of, style), allowed_text(note, style), {}};
}

std::string sentence(const PlanNote& note, const NotedPlan& of, const Style& style) {
  // What a plan cannot say is said as it stands.
  if (note.wrong == Wrong::cannot_decide) return allowed_text(note, style);
  return sentence(error_of(note, of, style));
}

}  // namespace likeleaf::wording
