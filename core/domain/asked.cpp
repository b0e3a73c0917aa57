#include "core/domain/asked.h"

#include <algorithm>

#include "core/base/limits.h"

namespace likeleaf {
namespace {

constexpr std::int64_t far = 1'000'000'000'000;
constexpr std::int64_t most_of_a_schedule = 1'000'000'000;
constexpr std::int64_t most_milligrams = 100'000'000;

std::size_t known_level(const Plan& plan, std::size_t level) {
  return level < plan.lever.levels.size() ? level : plan.lever.reference();
}

std::int64_t part_of(const InfusionPlan& infusion, ConstantKind kind) {
  if (kind == ConstantKind::steep_time) return infusion.steep.count();
  if (kind == ConstantKind::water_mass) return infusion.water.count();
  return infusion.pour.milli_celsius();
}

bool in_schedules(ConstantKind kind) {
  return kind == ConstantKind::steep_time || kind == ConstantKind::water_mass ||
         kind == ConstantKind::water_temperature;
}

std::optional<std::int64_t> value_of_lever(const Plan& plan, ConstantKind kind, std::size_t level) {
  if (!is_numeric(plan.lever.kind) || constant_of(plan.lever.kind) != kind) return std::nullopt;
  level = known_level(plan, level);
  return level < plan.lever.levels.size() ? plan.lever.levels[level].value : std::nullopt;
}

Mass sane_mass(std::int64_t milligrams) {
  return Mass(std::clamp<std::int64_t>(milligrams, 0, most_milligrams));
}

}  // namespace

std::int64_t bounded(std::int64_t value) {
  return std::clamp(value, -far, far);
}

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

std::int64_t default_tolerance(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
      return 100;
    case ConstantKind::water_mass:
      return 2000;
    case ConstantKind::water_temperature:
    case ConstantKind::tasting_temperature:
      return 2000;
    case ConstantKind::steep_time:
      return 3000;
    default:
      return 0;
  }
}

std::int64_t tolerance_of(const Plan& plan, ConstantKind kind) {
  const Constant* held = find_constant(plan, kind);
  return bounded(held && held->tolerance ? *held->tolerance : default_tolerance(kind));
}

std::int64_t past_tolerance(const Asked& asked, std::int64_t actual) {
  const std::int64_t off = bounded(actual) - bounded(asked.value);
  const std::int64_t allowed = std::max<std::int64_t>(0, bounded(asked.tolerance));
  if (off > allowed) return off - allowed;
  if (off < -allowed) return off + allowed;
  return 0;
}

std::optional<Asked> asked(const Plan& plan, ConstantKind kind) {
  const Constant* held = find_constant(plan, kind);
  if (!held || !held->target) return std::nullopt;
  return Asked{*held->target, tolerance_of(plan, kind)};
}

std::optional<Asked> asked(const Plan& plan, ConstantKind kind, std::size_t level, int infusion) {
  const auto schedule = schedule_of(plan, level);
  const auto index = static_cast<std::size_t>(std::max(1, infusion) - 1);
  if (index < schedule.size() && in_schedules(kind))
    return Asked{part_of(schedule[index], kind), tolerance_of(plan, kind)};
  if (const auto value = value_of_lever(plan, kind, level)) return Asked{*value, tolerance_of(plan, kind)};
  return asked(plan, kind);
}

std::span<const InfusionPlan> schedule_of(const Plan& plan, std::size_t level) {
  level = known_level(plan, level);
  if (level >= plan.lever.levels.size()) return {};
  return plan.lever.levels[level].schedule;
}

ScheduleTotals totals_of(std::span<const InfusionPlan> schedule) {
  std::int64_t all_water = 0, contact = 0;
  double heat = 0;
  for (const auto& infusion : schedule) {
    const std::int64_t water = std::clamp<std::int64_t>(infusion.water.count(), 0, most_of_a_schedule);
    all_water = std::min(most_of_a_schedule, all_water + water);
    contact =
        std::min(most_of_a_schedule, contact + std::clamp<std::int64_t>(infusion.steep.count(), 0, most_of_a_schedule));
    heat += static_cast<double>(infusion.pour.milli_celsius()) * static_cast<double>(water);
  }
  return {Mass(all_water), Duration(contact), all_water > 0 ? heat / static_cast<double>(all_water) : 0};
}

int infusion_count(const Plan& plan, std::size_t level) {
  return std::max(1, static_cast<int>(schedule_of(plan, level).size()));
}

int infusion_count(const Plan& plan, std::size_t level, const Brew& brew) {
  int count = std::max(infusion_count(plan, level), static_cast<int>(brew.infusions.size()));
  for (const auto& stamp : brew.stamps)
    if (!stamp.undone) count = std::max(count, std::min(stamp.infusion, static_cast<int>(most_infusions)));
  return count;
}

int infusion_count(const Plan& plan, const Brew& brew) {
  return infusion_count(plan, brew.level, brew);
}

std::optional<Mass> planned_leaf(const Plan& plan, std::size_t level) {
  const auto leaf = asked(plan, ConstantKind::leaf_dose, level, 1);
  return leaf ? std::optional(sane_mass(leaf->value)) : std::nullopt;
}

std::optional<Mass> planned_water(const Plan& plan, std::size_t level) {
  if (const auto schedule = schedule_of(plan, level); !schedule.empty())
    return sane_mass(totals_of(schedule).water.count());
  const auto water = asked(plan, ConstantKind::water_mass, level, 1);
  return water ? std::optional(sane_mass(water->value)) : std::nullopt;
}

std::optional<Mass> leaf_of_every_brew(const Plan& plan) {
  if (plan.lever.kind == LeverKind::leaf_dose) return std::nullopt;
  return planned_leaf(plan, plan.lever.reference());
}

Duration planned_contact(const Plan& plan, std::size_t level) {
  if (const auto schedule = schedule_of(plan, level); !schedule.empty()) return totals_of(schedule).contact;
  const auto steep = asked(plan, ConstantKind::steep_time, level, 1);
  return Duration(std::clamp<std::int64_t>(steep ? steep->value : 0, 0, most_of_a_schedule));
}

}  // namespace likeleaf
