#include "core/planning/one_variable.h"

#include <algorithm>
#include <cmath>

#include "core/domain/asked.h"

namespace likeleaf {
namespace {

/// In which totals the schedules of the levels differ.
std::vector<ScheduleTotal> schedule_differences(const Lever& lever) {
  std::vector<ScheduleTotals> all;
  for (const auto& level : lever.levels)
    if (!level.schedule.empty()) all.push_back(totals_of(level.schedule));
  std::vector<ScheduleTotal> out;
  const auto differs = [&](auto member) {
    return std::ranges::any_of(all, [&](const ScheduleTotals& t) { return t.*member != all.front().*member; });
  };
  if (all.size() < 2) return out;
  if (differs(&ScheduleTotals::water)) out.push_back(ScheduleTotal::water);
  if (differs(&ScheduleTotals::contact)) out.push_back(ScheduleTotal::contact_time);
  if (differs(&ScheduleTotals::mean_pour)) out.push_back(ScheduleTotal::mean_pour_temperature);
  return out;
}

void check_schedules(const Lever& lever, std::vector<OneVariableProblem>& problems) {
  using enum OneVariableProblem::Kind;
  std::vector<ScheduleTotal> others = schedule_differences(lever);
  const bool whole_schedule = lever.kind == LeverKind::brew_schedule || lever.kind == LeverKind::infusion_number;
  if (whole_schedule) {
    if (others.size() >= 2) problems.push_back({schedules_differ, std::move(others), {}});
    return;
  }
  if (lever.kind == LeverKind::water_temperature) std::erase(others, ScheduleTotal::mean_pour_temperature);
  if (lever.kind == LeverKind::steep_time) std::erase(others, ScheduleTotal::contact_time);
  if (!others.empty()) problems.push_back({also_differ, std::move(others), {}});
}

bool held(const Plan& plan, ConstantKind kind) {
  const Constant* constant = find_constant(plan, kind);
  return constant && (!constant->text.empty() || !constant->record.empty());
}

bool changes_heat(LeverKind kind) {
  return kind == LeverKind::water_temperature || kind == LeverKind::brew_schedule || kind == LeverKind::infusion_number;
}

RidingAlong code(Riding what, double alignment) {
  return RidingAlong{what, std::fabs(alignment) > most_alignment, alignment};
}

/// With an odd number of brew pairs one level is poured first once more than the other.
double pour_alignment(const Plan& plan) {
  const int people =
      plan.serving_way == ServingWay::own_brews ? std::max(1, static_cast<int>(tasters(plan).size())) : 1;
  const int sets =
      static_cast<int>(std::max<std::size_t>(1, plan.lots.size())) * std::clamp(plan.brew_pairs, 1, 40) * people;
  return sets % 2 == 0 ? 0.0 : 1.0 / sets;
}

double steep_seconds(const Plan& plan, std::size_t level) {
  return static_cast<double>(planned_contact(plan, level).count()) / 1000.0;
}

/// Both poured together, the level that steeps longer is ready later and stands for less time: the largest difference.
RidingAlong liquor_age(const Plan& plan) {
  RidingAlong out{Riding::liquor_age, false, 0};
  for (const auto& contrast : contrasts(plan.lever)) {
    const double younger = steep_seconds(plan, contrast.b) - steep_seconds(plan, contrast.a);
    if (std::fabs(younger) > std::fabs(out.alignment)) out.alignment = -younger;
  }
  out.aligned = std::fabs(out.alignment) * 1000 > static_cast<double>(age_tolerance.count());
  return out;
}

}  // namespace

RidingUnit unit_of(Riding what) {
  switch (what) {
    case Riding::liquor_age:
    case Riding::steep_time:
      return RidingUnit::seconds;
    case Riding::leaf_dose:
    case Riding::water_mass:
      return RidingUnit::grams;
    case Riding::water_temperature:
      return RidingUnit::degrees;
    default:
      return RidingUnit::code;
  }
}

OneVariable one_variable(const Plan& plan) {
  OneVariable out;
  const LeverKind kind = plan.lever.kind;
  check_schedules(plan.lever, out.problems);
  out.riding.push_back(code(Riding::chill_path, changes_heat(kind) && !held(plan, ConstantKind::chill) ? 1 : 0));
  out.riding.push_back(code(Riding::pour_order, pour_alignment(plan)));
  out.riding.push_back(liquor_age(plan));
  out.riding.push_back(
      code(Riding::boiler_batch, kind == LeverKind::water_temperature && !held(plan, ConstantKind::water) ? 1 : 0));
  // Where the vessel is what changes it is the lever, not something that rides on it; one person brews both levels of a
  // brew pair in every way of serving.
  out.riding.push_back(code(Riding::vessel, 0));
  out.riding.push_back(code(Riding::preparer, 0));
  for (const auto& riding : out.riding)
    if (riding.aligned) out.problems.push_back({OneVariableProblem::Kind::as_planned, {}, riding});
  out.holds = out.problems.empty();
  return out;
}

}  // namespace likeleaf
