// What goes with the level, as brewed.
#include "core/acts/one_variable_as_brewed.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <memory>

#include "core/acts/amendment.h"
#include "core/acts/bench_sitting.h"
#include "core/domain/asked.h"

namespace likeleaf {
namespace {

using Value = std::function<std::optional<double>(const Brew&, const Brew&)>;

struct BrewPair {
  std::shared_ptr<const Brew> a, b;
};

std::vector<BrewPair> contrast_brews(const Trial& trial) {
  std::vector<BrewPair> out;
  for (const auto& pair : counted_pairs(trial)) {
    auto a = amended_brew(trial, pair.cup_a.brew);
    auto b = amended_brew(trial, pair.cup_b.brew);
    if (pair.kind == PairKind::contrast && a && b) out.push_back({a, b});
  }
  return out;
}

std::optional<double> mean_over(const std::vector<BrewPair>& pairs, const Value& value) {
  double sum = 0;
  int n = 0;
  for (const auto& pair : pairs)
    if (const auto v = value(*pair.a, *pair.b)) {
      sum += *v;
      ++n;
    }
  if (n == 0) return std::nullopt;
  return sum / n;
}

/// +1 where b was poured first. Without both stamps the planned order of brewing stands for it.
std::optional<double> poured_first(const Brew& a, const Brew& b) {
  const Stamp* pour_a = standing(a, StampKind::pour_start);
  const Stamp* pour_b = standing(b, StampKind::pour_start);
  if (pour_a && pour_b && pour_a->at.utc_ms != pour_b->at.utc_ms)
    return elapsed(pour_b->at, pour_a->at).count() > 0 ? 1 : -1;
  if (a.number == b.number) return std::nullopt;
  return b.number < a.number ? 1 : -1;
}

std::optional<double> liquor_age(const Brew& a, const Brew& b) {
  const Stamp* ready_a = standing(a, StampKind::ready);
  const Stamp* ready_b = standing(b, StampKind::ready);
  if (!ready_a || !ready_b) return std::nullopt;
  return static_cast<double>(elapsed(ready_b->at, ready_a->at).count()) / 1000.0;
}

/// +1 where b went another way than planned and a did not (or both, each its own), −1 the other way round.
double chill_code(const Brew& a, const Brew& b, const std::string& planned) {
  const std::string& way_a = a.chill.empty() ? planned : a.chill;
  const std::string& way_b = b.chill.empty() ? planned : b.chill;
  if (way_a == way_b) return 0;
  return way_b != planned ? 1 : -1;
}

struct Measured {
  ConstantKind kind;
  Riding what;
};
constexpr Measured measured[] = {{ConstantKind::leaf_dose, Riding::leaf_dose},
                                 {ConstantKind::water_mass, Riding::water_mass},
                                 {ConstantKind::water_temperature, Riding::water_temperature},
                                 {ConstantKind::steep_time, Riding::steep_time}};

/// Do the levels themselves ask for different values of this?
bool set_by_lever(const Plan& plan, ConstantKind kind) {
  if (constant_of(plan.lever.kind) == kind) return true;
  return kind != ConstantKind::leaf_dose &&
         std::ranges::any_of(plan.lever.levels, [](const Level& l) { return !l.schedule.empty(); });
}

std::vector<RidingAlong> measure_constants(const Plan& plan, const std::vector<BrewPair>& pairs) {
  std::vector<RidingAlong> out;
  for (const Measured& one : measured) {
    const ConstantKind kind = one.kind;  // not a binding: clang 14 captures none
    if (set_by_lever(plan, kind)) continue;
    const auto mean = mean_over(pairs, [&](const Brew& a, const Brew& b) -> std::optional<double> {
      const auto value_a = as_brewed(a, kind, 1);
      const auto value_b = as_brewed(b, kind, 1);
      if (!value_a || !value_b) return std::nullopt;
      return static_cast<double>(bounded(*value_b) - bounded(*value_a)) / 1000.0;
    });
    if (!mean) continue;
    const double tolerance = static_cast<double>(tolerance_of(plan, kind)) / 1000.0;
    out.push_back({one.what, std::fabs(*mean) > tolerance, *mean});
  }
  return out;
}

/// What was measured, in order.
std::vector<RidingAlong> ridings(const Plan& plan, const std::vector<BrewPair>& pairs) {
  std::vector<RidingAlong> out;
  const auto codes = [&](Riding what, const Value& value) {
    if (const auto mean = mean_over(pairs, value)) out.push_back({what, std::fabs(*mean) > most_alignment, *mean});
  };
  const Constant* chill = find_constant(plan, ConstantKind::chill);
  const std::string planned_way = chill ? chill->text : std::string();
  const bool noted =
      std::ranges::any_of(pairs, [](const BrewPair& p) { return !p.a->chill.empty() || !p.b->chill.empty(); });
  // With no way planned and none noted the plan's own doubt stands.
  if (!planned_way.empty() || noted)
    codes(Riding::chill_path, [&](const Brew& a, const Brew& b) { return chill_code(a, b, planned_way); });
  codes(Riding::pour_order, poured_first);
  if (const auto mean = mean_over(pairs, liquor_age))
    out.push_back({Riding::liquor_age, std::fabs(*mean) * 1000 > static_cast<double>(age_tolerance.count()), *mean});
  for (const auto& riding : measure_constants(plan, pairs)) out.push_back(riding);
  return out;
}

}  // namespace

OneVariable one_variable_as_brewed(const Trial& trial) {
  if (!trial.sealed || !trial.key) return one_variable(trial.draft);
  const Plan& plan = trial.sealed->plan;
  OneVariable out = one_variable(plan);
  // What was measured speaks instead of what was only planned for it.
  for (const auto& riding : ridings(plan, contrast_brews(trial))) {
    std::erase_if(out.riding, [&](const RidingAlong& planned) { return planned.what == riding.what; });
    std::erase_if(out.problems, [&](const OneVariableProblem& problem) {
      return problem.kind == OneVariableProblem::Kind::as_planned && problem.riding.what == riding.what;
    });
    out.riding.push_back(riding);
    if (riding.aligned) out.problems.push_back({OneVariableProblem::Kind::as_brewed, {}, riding});
  }
  out.holds = out.problems.empty();
  return out;
}

}  // namespace likeleaf
