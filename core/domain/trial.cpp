#include "core/domain/trial.h"

#include <algorithm>
#include <set>

namespace likeleaf {

Stage stage(const Trial& trial) {
  if (!trial.sealed) return Stage::plan;
  if (trial.unmasked) return Stage::unmasked;
  // A sealed trial without a single live serving has nothing to unmask.
  return open_sheets(trial).empty() && !live_servings(trial).empty() ? Stage::all_locked : Stage::brew_and_taste;
}

std::vector<const BlindServing*> live_servings(const Trial& trial) {
  std::set<IdOf<Pair>> voided;
  for (const auto& v : trial.voids) voided.insert(v.pair);
  std::vector<const BlindServing*> out;
  for (const auto& serving : trial.servings)
    if (!voided.contains(serving.pair)) out.push_back(&serving);
  std::ranges::stable_sort(out, [](const BlindServing* x, const BlindServing* y) {
    return std::pair(x->sitting, x->place) < std::pair(y->sitting, y->place);
  });
  return out;
}

std::vector<const BlindServing*> open_sheets(const Trial& trial) {
  std::vector<const BlindServing*> out = live_servings(trial);
  std::erase_if(out, [&](const BlindServing* serving) {
    const auto sheet = trial.sheets.find(serving->id);
    return sheet != trial.sheets.end() && sheet->second && sheet->second->locked.has_value();
  });
  return out;
}

}  // namespace likeleaf
