#include "core/domain/plan.h"

#include <algorithm>

#include "core/base/number_text.h"

namespace likeleaf {

std::string lever_name(LeverKind kind) {
  switch (kind) {
    case LeverKind::water_temperature:
      return "water temperature";
    case LeverKind::steep_time:
      return "steep time";
    case LeverKind::leaf_dose:
      return "leaf dose";
    case LeverKind::water:
      return "water";
    case LeverKind::leaf_size:
      return "leaf size";
    case LeverKind::vessel:
      return "vessel";
    case LeverKind::agitation:
      return "agitation";
    case LeverKind::infusion_number:
      return "infusion number";
    case LeverKind::brew_schedule:
      return "brew schedule";
    case LeverKind::other:
      return "something else";
  }
  return "something else";
}

bool is_numeric(LeverKind kind) {
  return kind == LeverKind::water_temperature || kind == LeverKind::steep_time || kind == LeverKind::leaf_dose;
}

std::size_t Lever::reference() const {
  for (std::size_t i = 0; i < levels.size(); ++i)
    if (levels[i].present_way) return i;
  return 0;
}

std::string constant_name(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
      return "leaf dose";
    case ConstantKind::water_mass:
      return "water mass";
    case ConstantKind::water_temperature:
      return "water temperature";
    case ConstantKind::steep_time:
      return "steep time";
    case ConstantKind::water:
      return "water";
    case ConstantKind::vessel:
      return "vessel";
    case ConstantKind::preheat:
      return "preheating";
    case ConstantKind::grind:
      return "leaf size";
    case ConstantKind::strainer:
      return "strainer";
    case ConstantKind::agitation:
      return "agitation";
    case ConstantKind::chill:
      return "chilling";
    case ConstantKind::tasting_temperature:
      return "tasting temperature";
    case ConstantKind::longest_hold:
      return "longest hold";
    case ConstantKind::eyes:
      return "what hides colour";
    case ConstantKind::rinse:
      return "rinse";
    case ConstantKind::light_room:
      return "light and room";
    case ConstantKind::other:
      return "other constant";
  }
  return "other constant";
}

std::vector<IdOf<Assessor>> tasters(const Plan& plan) {
  std::vector<IdOf<Assessor>> out;
  for (const auto& person : plan.assessors)
    if (person.role == Role::taster && std::ranges::find(out, person.id) == out.end()) out.push_back(person.id);
  return out;
}

IdOf<Assessor> preparer(const Plan& plan) {
  for (const auto& person : plan.assessors)
    if (person.role == Role::preparer) return person.id;
  return {};
}

const Constant* find_constant(const Plan& plan, ConstantKind kind) {
  for (const auto& constant : plan.constants)
    if (constant.kind == kind) return &constant;
  return nullptr;
}

std::optional<ConstantKind> constant_of(LeverKind kind) {
  switch (kind) {
    case LeverKind::water_temperature:
      return ConstantKind::water_temperature;
    case LeverKind::steep_time:
      return ConstantKind::steep_time;
    case LeverKind::leaf_dose:
      return ConstantKind::leaf_dose;
    case LeverKind::water:
      return ConstantKind::water;
    case LeverKind::leaf_size:
      return ConstantKind::grind;
    case LeverKind::vessel:
      return ConstantKind::vessel;
    case LeverKind::agitation:
      return ConstantKind::agitation;
    case LeverKind::infusion_number:
    case LeverKind::brew_schedule:
    case LeverKind::other:
      return std::nullopt;
  }
  return std::nullopt;
}

std::vector<Contrast> contrasts(const Lever& lever) {
  std::vector<Contrast> out;
  const std::size_t reference = lever.reference();
  for (std::size_t level = 0; level < lever.levels.size(); ++level) {
    if (level == reference) continue;
    const auto& own = lever.levels[level].value;
    const auto& other = lever.levels[reference].value;
    const bool reference_is_higher = is_numeric(lever.kind) && own && other && *other > *own;
    out.push_back(reference_is_higher ? Contrast{level, reference} : Contrast{reference, level});
  }
  return out;
}

namespace {

std::string schedule_text(const std::vector<InfusionPlan>& schedule, const Style& style) {
  std::string out;
  for (const auto& infusion : schedule)
    out += (out.empty() ? "" : ", then ") + temperature_text(infusion.pour, style) + " for " +
           duration_text(infusion.steep, style);
  return out;
}

}  // namespace

std::string level_text(const Lever& lever, std::size_t level, const Style& style) {
  if (level >= lever.levels.size()) return {};
  const Level& l = lever.levels[level];
  if (!l.value || !is_numeric(lever.kind)) return l.label.empty() ? schedule_text(l.schedule, style) : l.label;
  switch (lever.kind) {
    case LeverKind::water_temperature:
      return temperature_text(Temperature(*l.value), style);
    case LeverKind::steep_time:
      return duration_text(Duration(*l.value), style);
    default:
      return mass_text(Mass(*l.value), style);
  }
}

}  // namespace likeleaf
