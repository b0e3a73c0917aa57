#include "core/acts/drift.h"

#include <algorithm>
#include <memory>
#include <set>

#include "core/acts/amendment.h"
#include "core/acts/bench_sitting.h"

namespace likeleaf {
namespace {

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

Drift drift_of(const KeyedBrew& keyed, ConstantKind what, const Asked& asked, std::int64_t actual) {
  Drift d;
  d.brew = keyed.brew->id;
  d.lot = keyed.lot;
  d.set = keyed.set;
  d.level = keyed.level;
  d.brew_number = keyed.brew->number;
  d.what = what;
  d.planned = bounded(asked.value);
  d.actual = bounded(actual);
  d.tolerance = asked.tolerance;
  return d;
}

void look_at_brew(const Plan& plan, const KeyedBrew& keyed, std::vector<Drift>& out) {
  const auto look = [&](ConstantKind kind, int infusion) {
    const auto planned = asked(plan, kind, keyed.level, infusion);
    const auto actual = as_brewed(*keyed.brew, kind, infusion);
    if (!planned || !actual) return;
    if (past_tolerance(*planned, *actual) != 0) out.push_back(drift_of(keyed, kind, *planned, *actual));
  };
  look(ConstantKind::leaf_dose, 1);
  const int count = infusion_count(plan, keyed.level, *keyed.brew);
  for (int i = 1; i <= count; ++i)
    for (const auto kind : {ConstantKind::water_mass, ConstantKind::water_temperature, ConstantKind::steep_time})
      look(kind, i);
  const Constant* chill = find_constant(plan, ConstantKind::chill);
  if (!keyed.brew->chill.empty() && (!chill || keyed.brew->chill != chill->text))
    out.push_back(drift_of(keyed, ConstantKind::chill, {}, 1));
}

Drift drift_of_pair(const KeyPair& pair, const Asked& asked, std::int64_t actual) {
  Drift d;
  d.pair = pair.id;
  d.lot = pair.lot;
  d.set = pair.set;
  d.what = ConstantKind::tasting_temperature;
  d.planned = bounded(asked.value);
  d.actual = bounded(actual);
  d.tolerance = asked.tolerance;
  return d;
}

void look_at_first_sip(const Plan& plan, const KeyPair& pair, const ServedPair& served, std::vector<Drift>& out) {
  if (served.left && served.right) {
    const std::int64_t apart = std::abs(bounded(served.left->milli_celsius()) - bounded(served.right->milli_celsius()));
    if (apart > first_sip_limit) out.push_back(drift_of_pair(pair, {0, first_sip_limit}, apart));
  }
  const auto tasting = asked(plan, ConstantKind::tasting_temperature);
  if (!tasting) return;
  std::optional<Drift> worst;
  for (const auto& cup : {served.left, served.right}) {
    if (!cup) continue;
    const Drift d = drift_of_pair(pair, *tasting, cup->milli_celsius());
    if (d.past() != 0 && (!worst || std::abs(d.past()) > std::abs(worst->past()))) worst = d;
  }
  if (worst) out.push_back(*worst);
}

/// Longest time a cup of this pair stood ready before it was served.
void look_at_hold(const Trial& trial, const KeyPair& pair, const ServedPair& served, std::vector<Drift>& out) {
  const auto longest = asked(trial.sealed->plan, ConstantKind::longest_hold);
  if (!served.served || !longest) return;
  const auto look = [&](IdOf<Brew> id, std::size_t level) {
    const auto brew = find_brew(trial, id);
    const Stamp* ready = brew ? standing(*brew, StampKind::ready) : nullptr;
    if (!ready) return;
    Drift d = drift_of({brew, pair.lot, pair.set, level}, ConstantKind::longest_hold, *longest,
                       elapsed(ready->at, *served.served).count());
    d.pair = pair.id;
    if (d.past() > 0) out.push_back(d);
  };
  look(pair.cup_a.brew, pair.level_a);
  if (pair.cup_b.brew != pair.cup_a.brew) look(pair.cup_b.brew, pair.level_b);
}

}  // namespace

std::int64_t Drift::past() const {
  return past_tolerance({planned, tolerance}, actual);
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

std::vector<Drift> drifts(const Trial& trial, int sitting) {
  const auto brews = brews_of_sitting(trial, sitting);
  const auto pairs = pairs_of_sitting(trial, sitting);
  auto out = drifts(trial);
  std::erase_if(out, [&](const Drift& d) {
    return d.pair ? std::ranges::find(pairs, *d.pair, &TablePair::id) == pairs.end()
                  : std::ranges::none_of(brews, [&](const Brew* b) { return b->id == d.brew; });
  });
  return out;
}

}  // namespace likeleaf
