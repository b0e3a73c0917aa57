// Its twin on what was really brewed is in core/acts/drift.cpp.
#include "core/planning/one_variable.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/base/number_text.h"

namespace likeleaf {
namespace {

constexpr double most_alignment = 0.5;       // of ±1 codes, methods.md 5
constexpr double seconds_of_age = 120;       // two minutes lie between two cups anyway
constexpr std::int64_t far = 1'000'000'000;  // drafts may hold anything; sums stay far from overflow

struct Totals {
  std::int64_t water = 0, contact = 0;
  double mean_pour = 0;
};

Totals totals(const std::vector<InfusionPlan>& schedule) {
  Totals out;
  double heat = 0;
  for (const auto& infusion : schedule) {
    const std::int64_t water = std::clamp<std::int64_t>(infusion.water.count(), 0, far);
    out.water = std::min(far, out.water + water);
    out.contact = std::min(far, out.contact + std::clamp<std::int64_t>(infusion.steep.count(), 0, far));
    heat += static_cast<double>(infusion.pour.milli_celsius()) * static_cast<double>(water);
  }
  if (out.water > 0) out.mean_pour = heat / static_cast<double>(out.water);
  return out;
}

/// In which totals the schedules of the levels differ.
std::vector<std::string> schedule_differences(const Lever& lever) {
  std::vector<Totals> all;
  for (const auto& level : lever.levels)
    if (!level.schedule.empty()) all.push_back(totals(level.schedule));
  std::vector<std::string> out;
  const auto differs = [&](auto member) {
    return std::ranges::any_of(all, [&](const Totals& t) { return t.*member != all.front().*member; });
  };
  if (all.size() < 2) return out;
  if (differs(&Totals::water)) out.emplace_back("total water");
  if (differs(&Totals::contact)) out.emplace_back("contact time");
  if (differs(&Totals::mean_pour)) out.emplace_back("mean pour temperature");
  return out;
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (std::size_t i = 0; i < words.size(); ++i)
    out += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return out;
}

void check_schedules(const Lever& lever, std::vector<std::string>& problems) {
  std::vector<std::string> others = schedule_differences(lever);
  const bool whole_schedule = lever.kind == LeverKind::brew_schedule || lever.kind == LeverKind::infusion_number;
  if (whole_schedule) {
    if (others.size() >= 2)
      problems.push_back("the schedules differ in " + joined(others) +
                         " at once, so no one of them can be named as the cause");
    return;
  }
  if (lever.kind == LeverKind::water_temperature) std::erase(others, "mean pour temperature");
  if (lever.kind == LeverKind::steep_time) std::erase(others, "contact time");
  if (!others.empty()) problems.push_back("the levels also differ in " + joined(others));
}

bool held(const Plan& plan, ConstantKind kind) {
  const Constant* constant = find_constant(plan, kind);
  return constant && (!constant->text.empty() || !constant->record.empty());
}

bool changes_heat(LeverKind kind) {
  return kind == LeverKind::water_temperature || kind == LeverKind::brew_schedule || kind == LeverKind::infusion_number;
}

RidingAlong code(std::string what, double alignment) {
  return RidingAlong{std::move(what), std::fabs(alignment) > most_alignment, alignment, {}};
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
  const Level& l = plan.lever.levels[level];
  if (!l.schedule.empty()) return static_cast<double>(totals(l.schedule).contact) / 1000.0;
  if (plan.lever.kind == LeverKind::steep_time && l.value) return static_cast<double>(*l.value) / 1000.0;
  return 0;
}

/// Both poured together, the level that steeps longer is ready later and stands for less time: the largest difference.
RidingAlong liquor_age(const Plan& plan) {
  RidingAlong out{"liquor age", false, 0, "s"};
  for (const auto& contrast : contrasts(plan.lever)) {
    const double younger = steep_seconds(plan, contrast.b) - steep_seconds(plan, contrast.a);
    if (std::fabs(younger) > std::fabs(out.alignment)) out.alignment = -younger;
  }
  out.aligned = std::fabs(out.alignment) > seconds_of_age;
  return out;
}

std::string problem_of(const RidingAlong& riding, const Plan& plan) {
  if (riding.what == "pour order") return "pour order: with a single brew pair one level is always poured first";
  if (riding.what == "chill path")
    return "chill path: no way of chilling is held, and the warmer liquor takes longer to cool";
  if (riding.what == "liquor age")
    return fmt::format("liquor age: poured together, the liquors differ in age by {} s",
                       number_text(std::fabs(riding.alignment), 0, Style{}));
  if (riding.what == "boiler batch")
    return "boiler batch: no water is held, so each level may come from a boil of its own";
  return fmt::format("{}: it goes with the {}", riding.what, lever_name(plan.lever.kind));
}

}  // namespace

OneVariable one_variable(const Plan& plan) {
  OneVariable out;
  const LeverKind kind = plan.lever.kind;
  check_schedules(plan.lever, out.problems);
  out.riding.push_back(code("chill path", changes_heat(kind) && !held(plan, ConstantKind::chill) ? 1 : 0));
  out.riding.push_back(code("pour order", pour_alignment(plan)));
  out.riding.push_back(liquor_age(plan));
  out.riding.push_back(
      code("boiler batch", kind == LeverKind::water_temperature && !held(plan, ConstantKind::water) ? 1 : 0));
  // Where the vessel is what changes it is the lever, not something that rides on it; one person brews both levels of a
  // brew pair in every way of serving.
  out.riding.push_back(code("vessel", 0));
  out.riding.push_back(code("preparer", 0));
  for (const auto& riding : out.riding)
    if (riding.aligned) out.problems.push_back(problem_of(riding, plan));
  out.holds = out.problems.empty();
  return out;
}

}  // namespace likeleaf
