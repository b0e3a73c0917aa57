#pragma once
// The one-variable check (methods.md 5): may the levels differ in the lever alone?
#include <vector>

#include "core/domain/plan.h"

namespace likeleaf {

/// What can go with the levels of a lever.
enum class Riding {
  chill_path,
  pour_order,
  liquor_age,
  boiler_batch,
  vessel,
  preparer,
  // What is only known of brews: how closely it was kept.
  leaf_dose,
  water_mass,
  water_temperature,
  steep_time
};

/// What an alignment is counted in.
enum class RidingUnit { code, seconds, grams, degrees };  ///< degrees: of a Celsius step
RidingUnit unit_of(Riding what);

struct RidingAlong {
  Riding what = Riding::chill_path;
  bool aligned = false;  ///< |mean of ±1 codes| > 0.5 or mean difference past tolerance
  double alignment = 0;  ///< mean of the ±1 codes, or mean difference (b − a) in the thing's unit
  bool operator==(const RidingAlong&) const = default;
};

/// Totals in which the schedules of two levels can differ.
enum class ScheduleTotal { water, contact_time, mean_pour_temperature };

/// One thing beside the lever in which the levels differ.
struct OneVariableProblem {
  enum class Kind {
    schedules_differ,  ///< whole schedules that differ in several totals: no one of them can be named as the cause
    also_differ,       ///< a single lever whose schedules differ in more than it
    as_planned,        ///< something rides along by the plan
    as_brewed          ///< something rode along as brewed
  } kind = Kind::as_planned;
  std::vector<ScheduleTotal> totals;  ///< of the first two
  RidingAlong riding;                 ///< of the last two
  bool operator==(const OneVariableProblem&) const = default;
};

struct OneVariable {
  bool holds = true;  ///< nothing but the lever differs
  std::vector<OneVariableProblem> problems;
  std::vector<RidingAlong> riding;
};
/// As planned. What was brewed is judged by core/acts/one_variable_as_brewed.h.
OneVariable one_variable(const Plan& plan);

/// Of ±1 codes (methods.md 5): a mean further from 0 than this goes with the level.
inline constexpr double most_alignment = 0.5;
/// Liquors may differ by so much in age: two minutes lie between two cups anyway.
inline constexpr Duration age_tolerance = seconds(120);

}  // namespace likeleaf
