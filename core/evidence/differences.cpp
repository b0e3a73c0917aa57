#include "core/evidence/differences.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/evidence/cup_values.h"

namespace likeleaf::evidence {
namespace {

/// Brew pairs of a contrast in the plan's order of lots, then by set; those whose sheets were all excluded keep their
/// place, because the plan had them.
struct Places {
  std::vector<IdOf<Lot>> lots;
  std::vector<IdOf<Assessor>> assessors;
  std::map<std::pair<int, int>, int> brew_pairs;  // lot index and set → index

  template <class Record>
  static int index(std::vector<IdOf<Record>>& known, IdOf<Record> id) {
    const auto found = std::find(known.begin(), known.end(), id);
    if (found != known.end()) return static_cast<int>(found - known.begin());
    known.push_back(id);
    return static_cast<int>(known.size()) - 1;
  }
};

Places places(const Unmasked& unmasked, Contrast contrast) {
  Places result;
  result.lots = unmasked.plan().plan.lots;
  for (const auto& assessor : unmasked.plan().plan.assessors)
    if (assessor.role != Role::preparer) result.assessors.push_back(assessor.id);
  for (const auto& pairing : unmasked.pairings()) {
    if (pairing.kind != PairKind::contrast || pairing.levels != contrast) continue;
    result.brew_pairs[{Places::index(result.lots, pairing.lot), pairing.set}] = 0;
    Places::index(result.assessors, pairing.assessor);
  }
  int next = 0;
  for (auto& [key, index] : result.brew_pairs) index = next++;
  return result;
}

}  // namespace

Differences differences(const Unmasked& unmasked, const Attribute& attribute, Contrast contrast, CutOff cut_off,
                        bool drop_late_exclusions) {
  Places where = places(unmasked, contrast);
  Differences result;
  result.scale = attribute.scale;
  for (const auto& [key, index] : where.brew_pairs) result.brew_pair_lot.push_back(key.first);
  const auto usable = [&](const Pairing& pairing) {
    return cup_difference(cup_a(pairing), cup_b(pairing), attribute, cut_off);
  };
  for (const auto& [pairing, lot, set, twin] : contrast_pairings(unmasked, contrast, drop_late_exclusions)) {
    if (any_cut_off(cup_a(*pairing), cup_b(*pairing), attribute)) ++result.cut_off;
    const auto difference = usable(*pairing);
    if (!difference) {
      ++result.missing;
      continue;
    }
    if (difference->faint) ++result.faint;
    if (difference->strong) ++result.strong;
    Difference value;
    value.lot = Places::index(where.lots, lot);
    value.brew_pair = where.brew_pairs.at({value.lot, set});
    value.assessor = Places::index(where.assessors, pairing->assessor);
    value.b_first = pairing->b_first();
    value.d = difference->d;
    value.half_weight = twin && usable(*twin) ? 1 : 2;
    result.values.push_back(value);
  }
  for (const auto& id : where.lots) result.lots.push_back(id.text());
  for (const auto& id : where.assessors) result.assessors.push_back(id.text());
  return result;
}

}  // namespace likeleaf::evidence
