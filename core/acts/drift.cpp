#include "core/acts/drift.h"

#include <algorithm>
#include <memory>
#include <set>

#include "core/acts/amendment.h"

namespace likeleaf {
namespace {

constexpr std::int64_t far = 1'000'000'000'000;  // imported numbers may be anything; differences must not overflow

std::int64_t bounded(std::int64_t value) {
  return std::clamp(value, -far, far);
}

/// Key pairs that count, in serving order: voided pairs and warm-ups are left out.
std::vector<KeyPair> counted_pairs(const Trial& trial) {
  std::vector<KeyPair> out;
  std::set<IdOf<Pair>> seen;
  for (const BlindServing* serving : live_servings(trial)) {
    if (!seen.insert(serving->pair).second) continue;
    const auto pair = resolve_pair(trial, serving->pair);
    if (pair && pair->kind != PairKind::warm_up) out.push_back(*pair);
  }
  return out;
}

/// With its amendments applied: what is now known of the brew, not what was first noted.
std::shared_ptr<const Brew> find_brew(const Trial& trial, IdOf<Brew> id) {
  return amended_brew(trial, id);
}

/// A brew with what the key says of it.
struct KeyedBrew {
  std::shared_ptr<const Brew> brew;
  IdOf<Lot> lot;
  int set = 0;
  std::size_t level = 0;
};

std::vector<KeyedBrew> counted_brews(const Trial& trial) {
  std::vector<KeyedBrew> out;
  std::set<IdOf<Brew>> seen;
  for (const auto& pair : counted_pairs(trial)) {
    const auto take = [&](IdOf<Brew> id, std::size_t level) {
      const auto brew = find_brew(trial, id);
      if (brew && seen.insert(id).second) out.push_back({brew, pair.lot, pair.set, level});
    };
    take(pair.cup_a.brew, pair.level_a);
    take(pair.cup_b.brew, pair.level_b);
  }
  std::ranges::stable_sort(out, {}, [](const KeyedBrew& b) { return b.brew->number; });
  return out;
}

std::int64_t tolerance_of(const Plan& plan, ConstantKind kind) {
  const Constant* constant = find_constant(plan, kind);
  return bounded(constant && constant->tolerance ? *constant->tolerance : default_tolerance(kind));
}

/// What the plan asks of one infusion (0-based) of a level: the schedule, the lever's own value, else the constant.
std::optional<std::int64_t> planned_value(const Plan& plan, ConstantKind kind, std::size_t level,
                                          std::size_t infusion) {
  if (level < plan.lever.levels.size()) {
    const Level& l = plan.lever.levels[level];
    if (infusion < l.schedule.size() && kind != ConstantKind::leaf_dose) {
      const InfusionPlan& asked = l.schedule[infusion];
      if (kind == ConstantKind::steep_time) return asked.steep.count();
      if (kind == ConstantKind::water_mass) return asked.water.count();
      if (kind == ConstantKind::water_temperature) return asked.pour.milli_celsius();
    }
    if (is_numeric(plan.lever.kind) && constant_of(plan.lever.kind) == kind) return l.value;
  }
  const Constant* constant = find_constant(plan, kind);
  return constant ? constant->target : std::nullopt;
}

std::optional<std::int64_t> actual_value(const Brew& brew, ConstantKind kind, std::size_t infusion) {
  if (kind == ConstantKind::leaf_dose) return brew.leaf ? std::optional(brew.leaf->count()) : std::nullopt;
  if (kind == ConstantKind::steep_time) {
    const auto steep = contact_time(brew, static_cast<int>(infusion) + 1);
    return steep ? std::optional(steep->count()) : std::nullopt;
  }
  if (infusion >= brew.infusions.size()) return std::nullopt;
  const Infusion& made = brew.infusions[infusion];
  if (kind == ConstantKind::water_mass) return made.water ? std::optional(made.water->count()) : std::nullopt;
  return made.pour ? std::optional(made.pour->milli_celsius()) : std::nullopt;
}

Drift drift_of(const KeyedBrew& keyed, ConstantKind what, std::int64_t planned, std::int64_t actual,
               std::int64_t tolerance) {
  Drift d;
  d.brew = keyed.brew->id;
  d.lot = keyed.lot;
  d.set = keyed.set;
  d.level = keyed.level;
  d.brew_number = keyed.brew->number;
  d.what = what;
  d.planned = bounded(planned);
  d.actual = bounded(actual);
  d.tolerance = tolerance;
  return d;
}

/// As many infusions as stamps, facts or the plan speak of.
std::size_t infusion_count(const Plan& plan, const KeyedBrew& keyed) {
  std::size_t count = std::max<std::size_t>(1, keyed.brew->infusions.size());
  if (keyed.level < plan.lever.levels.size()) count = std::max(count, plan.lever.levels[keyed.level].schedule.size());
  return count;
}

void look_at_brew(const Plan& plan, const KeyedBrew& keyed, std::vector<Drift>& out) {
  const auto look = [&](ConstantKind kind, std::size_t infusion) {
    const auto planned = planned_value(plan, kind, keyed.level, infusion);
    const auto actual = actual_value(*keyed.brew, kind, infusion);
    if (!planned || !actual) return;
    const Drift d = drift_of(keyed, kind, *planned, *actual, tolerance_of(plan, kind));
    if (d.past() != 0) out.push_back(d);
  };
  look(ConstantKind::leaf_dose, 0);
  for (std::size_t i = 0; i < infusion_count(plan, keyed); ++i)
    for (const auto kind : {ConstantKind::water_mass, ConstantKind::water_temperature, ConstantKind::steep_time})
      look(kind, i);
  const Constant* chill = find_constant(plan, ConstantKind::chill);
  if (!keyed.brew->chill.empty() && (!chill || keyed.brew->chill != chill->text))
    out.push_back(drift_of(keyed, ConstantKind::chill, 0, 1, 0));
}

const Stamp* standing(const Brew& brew, StampKind kind) {
  const Stamp* found = nullptr;
  for (const auto& stamp : brew.stamps)
    if (stamp.kind == kind && !stamp.undone) found = &stamp;
  return found;
}

Drift drift_of_pair(const KeyPair& pair, IdOf<Pair> id, std::int64_t planned, std::int64_t actual,
                    std::int64_t tolerance) {
  Drift d;
  d.pair = id;
  d.lot = pair.lot;
  d.set = pair.set;
  d.what = ConstantKind::tasting_temperature;
  d.planned = bounded(planned);
  d.actual = bounded(actual);
  d.tolerance = tolerance;
  return d;
}

void look_at_first_sip(const Plan& plan, const KeyPair& pair, const ServedPair& served, std::vector<Drift>& out) {
  if (served.left && served.right) {
    const std::int64_t apart = std::abs(bounded(served.left->milli_celsius()) - bounded(served.right->milli_celsius()));
    if (apart > first_sip_limit) out.push_back(drift_of_pair(pair, pair.id, 0, apart, first_sip_limit));
  }
  const Constant* asked = find_constant(plan, ConstantKind::tasting_temperature);
  if (!asked || !asked->target) return;
  std::optional<Drift> worst;
  for (const auto& cup : {served.left, served.right}) {
    if (!cup) continue;
    const Drift d = drift_of_pair(pair, pair.id, *asked->target, cup->milli_celsius(),
                                  tolerance_of(plan, ConstantKind::tasting_temperature));
    if (d.past() != 0 && (!worst || std::abs(d.past()) > std::abs(worst->past()))) worst = d;
  }
  if (worst) out.push_back(*worst);
}

/// Longest time a cup of this pair stood ready before it was served.
void look_at_hold(const Trial& trial, const KeyPair& pair, const ServedPair& served, std::vector<Drift>& out) {
  const Plan& plan = trial.sealed->plan;
  const Constant* longest = find_constant(plan, ConstantKind::longest_hold);
  if (!served.served || !longest || !longest->target) return;
  const auto look = [&](IdOf<Brew> id, std::size_t level) {
    const auto brew = find_brew(trial, id);
    const Stamp* ready = brew ? standing(*brew, StampKind::ready) : nullptr;
    if (!ready) return;
    Drift d = drift_of({brew, pair.lot, pair.set, level}, ConstantKind::longest_hold, *longest->target,
                       elapsed(ready->at, *served.served).count(), tolerance_of(plan, ConstantKind::longest_hold));
    d.pair = pair.id;
    if (d.past() > 0) out.push_back(d);
  };
  look(pair.cup_a.brew, pair.level_a);
  if (pair.cup_b.brew != pair.cup_a.brew) look(pair.cup_b.brew, pair.level_b);
}

}  // namespace

std::int64_t Drift::past() const {
  const std::int64_t off = bounded(actual) - bounded(planned);
  const std::int64_t allowed = std::max<std::int64_t>(0, bounded(tolerance));
  if (off > allowed) return off - allowed;
  if (off < -allowed) return off + allowed;
  return 0;
}

std::vector<Drift> drifts(const Trial& trial) {
  std::vector<Drift> out;
  if (!trial.sealed || !trial.key) return out;
  for (const auto& keyed : counted_brews(trial)) look_at_brew(trial.sealed->plan, keyed, out);
  for (const auto& pair : counted_pairs(trial)) {
    const auto served = trial.served.find(pair.id);
    if (served == trial.served.end()) continue;
    look_at_first_sip(trial.sealed->plan, pair, served->second, out);
    look_at_hold(trial, pair, served->second, out);
  }
  return out;
}

}  // namespace likeleaf
