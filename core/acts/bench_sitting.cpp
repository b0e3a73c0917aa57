#include "core/acts/bench_sitting.h"

#include <algorithm>
#include <set>

namespace likeleaf {
namespace {

bool voided(const Trial& trial, IdOf<Pair> pair) {
  return std::ranges::any_of(trial.voids, [&](const Void& v) { return v.pair == pair; });
}

/// Brews that were only for pairs taken out. A brew of a yardstick's jug that no cup names stays.
std::set<IdOf<Brew>> brews_taken_out(const Trial& trial) {
  std::set<IdOf<Brew>> out, kept;
  for (const auto& serving : trial.servings) {
    const auto pair = resolve_pair(trial, serving.pair);
    if (!pair) continue;
    auto& into = voided(trial, serving.pair) ? out : kept;
    into.insert(pair->cup_a.brew);
    into.insert(pair->cup_b.brew);
  }
  for (const auto& id : kept) out.erase(id);
  return out;
}

template <class Wanted>
std::vector<int> numbers_of(const Trial& trial, const KeyPair& pair, Wanted wanted) {
  std::set<int> numbers;
  for (const auto& id : {pair.cup_a.brew, pair.cup_b.brew}) {
    const auto brew = trial.brews.find(id);
    if (brew != trial.brews.end() && wanted(*brew->second)) numbers.insert(brew->second->number);
  }
  return {numbers.begin(), numbers.end()};
}

}  // namespace

std::vector<int> sittings_of(const Trial& trial) {
  std::set<int> found;
  for (const auto& serving : trial.servings) found.insert(serving.sitting);
  return {found.begin(), found.end()};
}

int sitting_of_now(const Trial& trial) {
  const auto all = sittings_of(trial);
  for (const int sitting : all)
    for (const auto* brew : brews_of_sitting(trial, sitting))
      if (next_act(trial.sealed->plan, *brew)) return sitting;
  return all.empty() ? 1 : all.back();
}

std::vector<const Brew*> brews_of_sitting(const Trial& trial, int sitting) {
  const auto out_of_play = brews_taken_out(trial);
  std::vector<const Brew*> out;
  for (const auto& [id, brew] : trial.brews)
    if (brew->sitting == sitting && !out_of_play.contains(id)) out.push_back(brew.get());
  std::ranges::sort(out, {}, [](const Brew* b) { return b->number; });
  return out;
}

std::vector<TablePair> pairs_of(const std::vector<const BlindServing*>& servings) {
  std::vector<TablePair> out;
  for (const auto* serving : servings) {
    const auto found = std::ranges::find(out, serving->pair, &TablePair::id);
    if (found != out.end())
      ++found->cups;
    else
      out.push_back({serving->pair, serving->sitting, serving->place, serving->instead_of.has_value(), 1});
  }
  std::ranges::stable_sort(out, {}, [](const TablePair& p) { return std::pair(p.sitting, p.place); });
  return out;
}

std::vector<TablePair> pairs_of_sitting(const Trial& trial, int sitting) {
  auto servings = live_servings(trial);
  std::erase_if(servings, [&](const BlindServing* s) { return s->sitting != sitting; });
  return pairs_of(servings);
}

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

std::vector<int> brews_not_ready(const Trial& trial, IdOf<Pair> pair) {
  const auto keyed = resolve_pair(trial, pair);
  if (!keyed) return {};
  return numbers_of(trial, *keyed, [](const Brew& b) { return !is_ready(b); });
}

std::vector<TakenOut> taken_out(const Trial& trial, int sitting) {
  std::vector<TakenOut> out;
  for (const auto& v : trial.voids) {
    const auto served = std::ranges::find(trial.servings, v.pair, &BlindServing::pair);
    if (served == trial.servings.end() || served->sitting != sitting) continue;
    TakenOut one{served->place, v.who, v.why, {}};
    const auto fresh = v.spare && trial.key ? resolve_pair(trial, trial.key->spares[*v.spare].pair) : std::nullopt;
    if (fresh)
      one.again = BrewedAgain{std::min(fresh->code_a, fresh->code_b), std::max(fresh->code_a, fresh->code_b),
                              numbers_of(trial, *fresh, [](const Brew&) { return true; })};
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace likeleaf
