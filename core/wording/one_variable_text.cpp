#include "core/wording/one_variable_text.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/wording/phrases.h"

namespace likeleaf::wording {
namespace {

std::string total_name(ScheduleTotal total) {
  switch (total) {
    case ScheduleTotal::water:
      return "total water";
    case ScheduleTotal::contact_time:
      return "contact time";
    case ScheduleTotal::mean_pour_temperature:
      break;
  }
  return "mean pour temperature";
}

std::string total_names(const std::vector<ScheduleTotal>& totals) {
  std::vector<std::string> names;
  for (const auto total : totals) names.push_back(total_name(total));
  return listed(names);
}

/// A mean difference and its unit as the reader has it.
struct Difference {
  std::string number, unit;
};
Difference amount_of(Riding what, double value, const Style& style) {
  constexpr double fahrenheit_steps = 1.8;
  const bool fahrenheit = style.temperature == TemperatureUnit::fahrenheit;
  switch (unit_of(what)) {
    case RidingUnit::code:
      return {number_text(value, 2, style), {}};
    case RidingUnit::seconds:
      return {number_text(value, 1, style), "s"};
    case RidingUnit::grams:
      return {number_text(value, 1, style), "g"};
    case RidingUnit::degrees:
      break;
  }
  return {number_text(fahrenheit ? value * fahrenheit_steps : value, 1, style), fahrenheit ? "°F" : "°C"};
}

std::string as_planned_text(const RidingAlong& riding, const Style& style) {
  switch (riding.what) {
    case Riding::pour_order:
      return "pour order: with a single brew pair one level is always poured first";
    case Riding::chill_path:
      return "chill path: no way of chilling is held, and the warmer liquor takes longer to cool";
    case Riding::liquor_age:
      return fmt::format("liquor age: poured together, the liquors differ in age by {} s",
                         number_text(std::fabs(riding.alignment), 0, style));
    case Riding::boiler_batch:
      return "boiler batch: no water is held, so each level may come from a boil of its own";
    default:
      return fmt::format("{}: it goes with the level", riding_name(riding.what));
  }
}

std::string as_brewed_text(const RidingAlong& riding, const Style& style) {
  const auto [number, unit] = amount_of(riding.what, std::fabs(riding.alignment), style);
  if (unit.empty())
    return fmt::format("{}: as brewed it went with the level ({} of a possible 1)", riding_name(riding.what), number);
  return fmt::format("{}: as brewed the levels differed by {}{}{} on average", riding_name(riding.what), number,
                     no_break_space, unit);
}

}  // namespace

std::string riding_name(Riding what) {
  switch (what) {
    case Riding::chill_path:
      return "chill path";
    case Riding::pour_order:
      return "pour order";
    case Riding::liquor_age:
      return "liquor age";
    case Riding::boiler_batch:
      return "boiler batch";
    case Riding::vessel:
      return "vessel";
    case Riding::preparer:
      return "preparer";
    case Riding::leaf_dose:
      return constant_name(ConstantKind::leaf_dose);
    case Riding::water_mass:
      return constant_name(ConstantKind::water_mass);
    case Riding::water_temperature:
      return constant_name(ConstantKind::water_temperature);
    case Riding::steep_time:
      break;
  }
  return constant_name(ConstantKind::steep_time);
}

std::string problem_text(const OneVariableProblem& problem, const Style& style) {
  switch (problem.kind) {
    case OneVariableProblem::Kind::schedules_differ:
      return "the schedules differ in " + total_names(problem.totals) +
             " at once, so no one of them can be named as the cause";
    case OneVariableProblem::Kind::also_differ:
      return "the levels also differ in " + total_names(problem.totals);
    case OneVariableProblem::Kind::as_planned:
      return as_planned_text(problem.riding, style);
    case OneVariableProblem::Kind::as_brewed:
      break;
  }
  return as_brewed_text(problem.riding, style);
}

std::string rides_sentence(const RidingAlong& riding, const Style& style) {
  const auto [number, unit] = amount_of(riding.what, riding.alignment, style);
  return fmt::format("{} goes with the level{}.", upper_first(riding_name(riding.what)),
                     unit.empty() ? "" : fmt::format(": {} {} on average", number, unit));
}

}  // namespace likeleaf::wording
