// check(): the lever, the constants, the leaf.
#include <algorithm>
#include <set>

#include "core/domain/asked.h"
#include "core/domain/limits.h"
#include "core/planning/needs.h"
#include "core/planning/plan_check_parts.h"

namespace likeleaf::plan_check {
namespace {

Quantity target_of(ConstantKind kind, std::int64_t value) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return Mass(value);
    case ConstantKind::steep_time:
    case ConstantKind::longest_hold:
      return Duration(value);
    default:
      return Temperature(value);
  }
}

Quantity tolerance_of(ConstantKind kind, std::int64_t value) {
  const Quantity target = target_of(kind, value);
  return std::holds_alternative<Temperature>(target) ? Quantity(TemperatureStep(value)) : target;
}

PlanNote out_of_range(PlanPlace place, ConstantKind kind, std::int64_t value) {
  const Range range = planned_range(kind);
  return {.wrong = Wrong::out_of_range,
          .place = std::move(place),
          .given = target_of(kind, value),
          .lowest = target_of(kind, range.low),
          .highest = target_of(kind, range.high)};
}

PlanPlace level_place(std::size_t index) {
  return {PlanField::level, index};
}

void check_schedule(const Level& level, std::size_t index, Notes& notes) {
  for (std::size_t i = 0; i < level.schedule.size(); ++i) {
    const auto look = [&](PlanField field, ConstantKind kind, std::int64_t value) {
      if (!planned_range(kind).holds(value)) notes.block(out_of_range({field, index, i}, kind, value));
    };
    const InfusionPlan& infusion = level.schedule[i];
    look(PlanField::infusion_pour, ConstantKind::water_temperature, infusion.pour.milli_celsius());
    look(PlanField::infusion_steep, ConstantKind::steep_time, infusion.steep.count());
    look(PlanField::infusion_water, ConstantKind::water_mass, infusion.water.count());
  }
}

bool needs_schedule(LeverKind kind) {
  return kind == LeverKind::brew_schedule || kind == LeverKind::infusion_number;
}

void check_level(const Lever& lever, std::size_t index, Notes& notes) {
  const Level& level = lever.levels[index];
  check_schedule(level, index, notes);
  if (const auto kind = constant_of(lever.kind); kind && is_numeric(lever.kind)) {
    const Range range = planned_range(*kind);
    if (!level.value)
      notes.block({.wrong = Wrong::no_level_value,
                   .place = level_place(index),
                   .lowest = target_of(*kind, range.low),
                   .highest = target_of(*kind, range.high),
                   .named = level.label});
    else if (!range.holds(*level.value))
      notes.block(out_of_range(level_place(index), *kind, *level.value));
    return;
  }
  if (level.label.empty() && level.schedule.empty())
    notes.block({.wrong = needs_schedule(lever.kind) ? Wrong::no_level_name_or_schedule : Wrong::no_level_name,
                 .place = level_place(index)});
}

bool same_level(const Lever& lever, const Level& x, const Level& y) {
  if (is_numeric(lever.kind)) return x.value && y.value && *x.value == *y.value;
  // Two names for one schedule are one level; so are two unnamed labels of nothing (missing says so already).
  if (!x.schedule.empty() && !y.schedule.empty()) return x.schedule == y.schedule;
  if (!x.record.empty() && x.record == y.record) return true;
  return !x.label.empty() && x.label == y.label;
}

void check_levels_differ(const Lever& lever, Notes& notes) {
  for (std::size_t i = 0; i < lever.levels.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) {
      if (!same_level(lever, lever.levels[i], lever.levels[j])) continue;
      const auto kind = constant_of(lever.kind);
      const Level& level = lever.levels[i];
      PlanNote note{.wrong = Wrong::equal_levels, .place = {PlanField::levels}};
      if (is_numeric(lever.kind) && kind)
        note.given = target_of(*kind, *level.value);
      else
        note.named = level.label;
      notes.block(std::move(note));
      return;
    }
}

bool says_something(const Constant& constant) {
  return constant.target || !constant.text.empty() || !constant.record.empty();
}

/// Waters and vessels of the registers; nothing else is looked up.
bool knows_record(const Given& given, std::optional<ConstantKind> kind, const std::string& record) {
  if (record.empty()) return true;
  if (kind == ConstantKind::water) {
    const auto id = IdOf<Water>::parse(record);
    return id && find_record(given.registers.waters, *id);
  }
  if (kind == ConstantKind::vessel) {
    const auto id = IdOf<Vessel>::parse(record);
    return id && find_record(given.registers.vessels, *id);
  }
  return true;
}

void check_number(const Constant& constant, std::size_t index, Notes& notes) {
  const ConstantKind kind = constant.kind;
  if (constant.target && !planned_range(kind).holds(*constant.target))
    notes.block(out_of_range({PlanField::constant, index}, kind, *constant.target));
  if (constant.tolerance && *constant.tolerance < 0)
    notes.block({.wrong = Wrong::negative_tolerance,
                 .place = {PlanField::tolerance, index},
                 .given = tolerance_of(kind, *constant.tolerance)});
  if (constant.target && !constant.tolerance && default_tolerance(kind) > 0)
    notes.caution({.wrong = Wrong::usual_tolerance,
                   .place = {PlanField::tolerance, index},
                   .lowest = tolerance_of(kind, default_tolerance(kind))});
}

void check_amounts(const Given& given, Notes& notes) {
  if (!planned_leaf(given.plan, given.plan.lever.reference()))
    notes.caution({.wrong = Wrong::no_leaf_dose, .place = {PlanField::leaf_dose}});
  if (!planned_water(given.plan, given.plan.lever.reference()))
    notes.caution({.wrong = Wrong::no_water_mass, .place = {PlanField::water_mass}});
}

}  // namespace

void check_lever(const Given& given, Notes& notes) {
  const Lever& lever = given.plan.lever;
  if (lever.kind == LeverKind::other && lever.name.empty())
    notes.block({.wrong = Wrong::lever_unnamed, .place = {PlanField::lever_name}});
  if (lever.levels.size() < 2)
    notes.block({.wrong = Wrong::too_few_levels,
                 .place = {PlanField::levels},
                 .count = static_cast<std::int64_t>(lever.levels.size())});
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    check_level(lever, i, notes);
    if (!knows_record(given, constant_of(lever.kind), lever.levels[i].record))
      notes.block({.wrong = Wrong::unknown_record, .place = level_place(i), .named = lever.levels[i].record});
  }
  check_levels_differ(lever, notes);
  const auto ticked = std::ranges::count_if(lever.levels, &Level::present_way);
  if (ticked > 1)
    notes.block({.wrong = Wrong::several_present_ways, .place = {PlanField::present_way}, .count = ticked});
}

void check_constants(const Given& given, Notes& notes) {
  const auto own = constant_of(given.plan.lever.kind);
  std::set<ConstantKind> seen;
  for (std::size_t i = 0; i < given.plan.constants.size(); ++i) {
    const Constant& constant = given.plan.constants[i];
    const PlanPlace place{PlanField::constant, i};
    // With a tolerance alone it says how closely the levels themselves must be kept.
    if (own == constant.kind && says_something(constant)) notes.block({.wrong = Wrong::lever_held_too, .place = place});
    if (constant.kind != ConstantKind::other && !seen.insert(constant.kind).second)
      notes.block({.wrong = Wrong::constant_twice, .place = place});
    if (has_number(constant.kind)) check_number(constant, i, notes);
    if (!knows_record(given, constant.kind, constant.record))
      notes.block({.wrong = Wrong::unknown_record, .place = place, .named = constant.record});
  }
  check_amounts(given, notes);
}

void check_lots(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  const PlanPlace lots{PlanField::lots}, warm_up{PlanField::warm_up_leaf};
  if (plan.lots.empty()) notes.block({.wrong = Wrong::no_lots, .place = lots});
  std::set<IdOf<Lot>> seen;
  for (const auto& lot : plan.lots) {
    if (!seen.insert(lot).second)
      notes.block({.wrong = Wrong::lot_twice, .place = lots, .lot = lot});
    else if (!given.knows(lot))
      notes.block({.wrong = Wrong::unknown_lot, .place = lots, .lot = lot});
  }
  if (plan.warm_up_lot.empty())
    notes.caution({.wrong = Wrong::no_warm_up, .place = warm_up});
  else if (!given.knows(plan.warm_up_lot))
    notes.block({.wrong = Wrong::unknown_lot, .place = warm_up, .lot = plan.warm_up_lot});
  else if (seen.contains(plan.warm_up_lot))
    notes.caution({.wrong = Wrong::warm_up_in_trial, .place = warm_up, .lot = plan.warm_up_lot});
  if (plan.reference_pair && !plan.reference_pair->lot.empty() && !given.knows(plan.reference_pair->lot))
    notes.block({.wrong = Wrong::unknown_lot, .place = {PlanField::reference_pair}, .lot = plan.reference_pair->lot});
}

void check_stock(const Given& given, Notes& notes) {
  for (const auto& need : needs(given.plan, given.registers).lots) {
    const Mass leaf = need.leaf + need.open_reference_leaf;
    if (leaf.count() == 0 || !given.knows(need.lot)) continue;
    const PlanPlace place{.field = PlanField::stock, .lot = need.lot};
    if (!need.stock)
      notes.caution({.wrong = Wrong::stock_not_entered, .place = place, .lowest = leaf});
    else if (!need.lasts)
      notes.block({.wrong = Wrong::stock_too_small, .place = place, .given = *need.stock, .lowest = leaf});
  }
}

}  // namespace likeleaf::plan_check
