// check(): the lever, the constants, the leaf.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/planning/needs.h"
#include "core/planning/plan_notes.h"

namespace likeleaf::plan_check {
namespace {

constexpr std::int64_t boiling = 100'000;  // milli-°C; a bench high up boils lower, its own check says so
constexpr std::int64_t longest_steep = 86'400'000;
constexpr std::int64_t most_mass = 100'000'000;

struct Range {
  std::int64_t low, high;
  std::string_view text;
};

Range range_of(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return {1, most_mass, "more than 0 g, at most 100000 g"};
    case ConstantKind::steep_time:
      return {1, longest_steep, "more than 0 s, at most 86400 s"};
    case ConstantKind::longest_hold:
      return {0, longest_steep, "0 to 86400 s"};
    default:
      return {0, boiling, "0 to 100 °C: water does not get hotter than boiling"};
  }
}

bool within(const Range& range, std::int64_t value) {
  return value >= range.low && value <= range.high;
}

std::string level_field(std::size_t index) {
  return fmt::format("level {}", index + 1);
}

void check_schedule(const Level& level, std::size_t index, Notes& notes) {
  const auto look = [&](ConstantKind kind, std::int64_t value) {
    const Range range = range_of(kind);
    if (!within(range, value))
      notes.block(ErrorKind::bad_value, level_field(index) + ", " + constant_name(kind), quantity_text(kind, value),
                  std::string(range.text));
  };
  for (const auto& infusion : level.schedule) {
    look(ConstantKind::water_temperature, infusion.pour.milli_celsius());
    look(ConstantKind::steep_time, infusion.steep.count());
    look(ConstantKind::water_mass, infusion.water.count());
  }
}

bool needs_schedule(LeverKind kind) {
  return kind == LeverKind::brew_schedule || kind == LeverKind::infusion_number;
}

void check_level(const Lever& lever, std::size_t index, Notes& notes) {
  const Level& level = lever.levels[index];
  check_schedule(level, index, notes);
  if (const auto kind = constant_of(lever.kind); kind && is_numeric(lever.kind)) {
    const Range range = range_of(*kind);
    if (!level.value)
      notes.block(ErrorKind::missing, level_field(index), level.label, "a number: " + std::string(range.text));
    else if (!within(range, *level.value))
      notes.block(ErrorKind::bad_value, level_field(index), quantity_text(*kind, *level.value),
                  std::string(range.text));
    return;
  }
  if (level.label.empty() && level.schedule.empty())
    notes.block(ErrorKind::missing, level_field(index), "",
                needs_schedule(lever.kind) ? "a name or a schedule of infusions" : "a name");
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
      notes.block(ErrorKind::duplicate, "levels",
                  is_numeric(lever.kind) && kind ? level_text(lever, i, Style{}) : level.label, "levels that differ");
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

void check_record(const Given& given, const Constant& constant, Notes& notes) {
  if (!knows_record(given, constant.kind, constant.record))
    notes.block(ErrorKind::not_found, constant_name(constant.kind), shown_value(constant.record),
                "one of the house's registers");
}

void check_number(const Constant& constant, Notes& notes) {
  const Range range = range_of(constant.kind);
  if (constant.target && !within(range, *constant.target))
    notes.block(ErrorKind::bad_value, constant_name(constant.kind), quantity_text(constant.kind, *constant.target),
                std::string(range.text));
  if (constant.tolerance && *constant.tolerance < 0)
    notes.block(ErrorKind::bad_value, constant_name(constant.kind) + ", tolerance",
                quantity_text(constant.kind, *constant.tolerance), "0 or more");
  if (constant.target && !constant.tolerance && default_tolerance(constant.kind) > 0)
    notes.caution(
        constant_name(constant.kind) + ", tolerance", "",
        fmt::format("none given: ±{} is taken", quantity_text(constant.kind, default_tolerance(constant.kind))),
        ErrorKind::missing);
}

void check_amounts(const Given& given, Notes& notes) {
  if (!planned_leaf(given.plan, given.plan.lever.reference()))
    notes.caution("leaf dose", "", "a mass for each brew, else the leaf needed cannot be worked out",
                  ErrorKind::missing);
  if (!planned_water(given.plan, given.plan.lever.reference()))
    notes.caution("water mass", "", "a mass for each brew, else the water needed cannot be worked out",
                  ErrorKind::missing);
}

}  // namespace

bool has_number(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
    case ConstantKind::water_temperature:
    case ConstantKind::steep_time:
    case ConstantKind::tasting_temperature:
    case ConstantKind::longest_hold:
      return true;
    default:
      return false;
  }
}

std::string quantity_text(ConstantKind kind, std::int64_t value) {
  constexpr std::int64_t far = 1'000'000'000'000;  // keeps the arithmetic of rounding from overflowing
  value = std::clamp(value, -far, far);
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return mass_text(Mass(value), Style{});
    case ConstantKind::steep_time:
    case ConstantKind::longest_hold:
      return duration_text(Duration(value), Style{});
    default:
      return step_text(TemperatureStep(value), Style{});
  }
}

void check_lever(const Given& given, Notes& notes) {
  const Lever& lever = given.plan.lever;
  if (lever.kind == LeverKind::other && lever.name.empty())
    notes.block(ErrorKind::missing, "what changes", "", "a name for what changes");
  if (lever.levels.size() < 2)
    notes.block(ErrorKind::missing, "levels", fmt::format("{}", lever.levels.size()), "two levels or more");
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    check_level(lever, i, notes);
    if (!knows_record(given, constant_of(lever.kind), lever.levels[i].record))
      notes.block(ErrorKind::not_found, level_field(i), shown_value(lever.levels[i].record),
                  "one of the house's registers");
  }
  check_levels_differ(lever, notes);
  const auto ticked = std::ranges::count_if(lever.levels, &Level::present_way);
  if (ticked > 1)
    notes.block(ErrorKind::duplicate, "present way", fmt::format("{} levels ticked", ticked), "one level at most");
}

void check_constants(const Given& given, Notes& notes) {
  const auto own = constant_of(given.plan.lever.kind);
  std::set<ConstantKind> seen;
  for (const auto& constant : given.plan.constants) {
    const std::string name =
        constant.kind == ConstantKind::other && !constant.name.empty() ? constant.name : constant_name(constant.kind);
    // With a tolerance alone it says how closely the levels themselves must be kept.
    if (own == constant.kind && says_something(constant))
      notes.block(ErrorKind::conflict, name, lever_name(given.plan.lever.kind),
                  "what changes cannot be held as well; a tolerance alone may stand");
    if (constant.kind != ConstantKind::other && !seen.insert(constant.kind).second)
      notes.block(ErrorKind::duplicate, name, "", "each constant once");
    if (has_number(constant.kind)) check_number(constant, notes);
    check_record(given, constant, notes);
  }
  check_amounts(given, notes);
}

void check_lots(const Given& given, Notes& notes) {
  const Plan& plan = given.plan;
  if (plan.lots.empty()) notes.block(ErrorKind::missing, "lots", "", "one lot or more");
  std::set<IdOf<Lot>> seen;
  for (const auto& lot : plan.lots) {
    if (!seen.insert(lot).second)
      notes.block(ErrorKind::duplicate, "lots", given.lot_text(lot), "each lot once");
    else if (!given.knows(lot))
      notes.block(ErrorKind::not_found, "lots", given.lot_text(lot), "a lot of the registers");
  }
  if (plan.warm_up_lot.empty())
    notes.caution("warm-up leaf", "", "a leaf outside the trial, tasted first and not counted", ErrorKind::missing);
  else if (!given.knows(plan.warm_up_lot))
    notes.block(ErrorKind::not_found, "warm-up leaf", given.lot_text(plan.warm_up_lot), "a lot of the registers");
  else if (seen.contains(plan.warm_up_lot))
    notes.caution("warm-up leaf", given.lot_text(plan.warm_up_lot), "a leaf outside the trial");
  if (plan.reference_pair && !plan.reference_pair->lot.empty() && !given.knows(plan.reference_pair->lot))
    notes.block(ErrorKind::not_found, "open reference pair", given.lot_text(plan.reference_pair->lot),
                "a lot of the registers");
}

void check_stock(const Given& given, Notes& notes) {
  for (const auto& need : needs(given.plan, given.registers).lots) {
    const Mass leaf = need.leaf + need.open_reference_leaf;
    if (leaf.count() == 0 || !given.knows(need.lot)) continue;
    const std::string field = "stock of " + given.lot_text(need.lot);
    const std::string allowed = mass_text(leaf, Style{}) + " are needed";
    if (!need.stock)
      notes.caution(field, "", allowed + "; the stock was never entered", ErrorKind::missing);
    else if (!need.lasts)
      notes.block(ErrorKind::bad_value, field, mass_text(*need.stock, Style{}), allowed);
  }
}

}  // namespace likeleaf::plan_check
