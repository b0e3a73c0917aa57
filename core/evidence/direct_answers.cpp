#include <algorithm>

#include "core/evidence/analysis.h"
#include "core/evidence/cup_values.h"
#include "core/evidence/find_parts.h"
#include "core/stats/two_ac.h"

namespace likeleaf::evidence {
namespace {

/// −1, 0 or 1: b against a; "could not judge" counts with can't tell. Nothing when nothing was answered.
std::optional<int> choice(const Pairing& pairing, const Attribute& attribute) {
  const auto found = pairing.sheet->directs.find(attribute.id);
  if (found == pairing.sheet->directs.end()) {
    if (could_not_judge(cup_a(pairing), cup_b(pairing), attribute)) return 0;
    return std::nullopt;
  }
  if (found->second == Direct::cannot_tell) return 0;
  const Side more = found->second == Direct::left_more ? Side::left : Side::right;
  return more == pairing.side_b ? 1 : -1;
}

/// The choices in the place of the differences, so that the same engine runs over the same brew pairs.
Differences choices(const Unmasked& unmasked, const Attribute& attribute, Contrast contrast, DirectAnswers& counts) {
  Differences result;
  std::vector<std::pair<IdOf<Lot>, int>> brew_pairs;
  std::vector<IdOf<Lot>> lots;
  std::vector<IdOf<Assessor>> assessors;
  const auto index = [](auto& known, const auto& value) {
    const auto found = std::find(known.begin(), known.end(), value);
    if (found != known.end()) return static_cast<int>(found - known.begin());
    known.push_back(value);
    return static_cast<int>(known.size()) - 1;
  };
  for (const auto& [pairing, lot, set, twin] : contrast_pairings(unmasked, contrast, false)) {
    const auto answer = choice(*pairing, attribute);
    if (!answer) continue;
    ++(*answer < 0 ? counts.less : *answer > 0 ? counts.more : counts.cannot_tell);
    if (!pairing->sheet->directs.contains(attribute.id)) ++counts.could_not_judge;
    Difference value;
    value.lot = index(lots, lot);
    value.brew_pair = index(brew_pairs, std::pair{lot, set});
    value.assessor = index(assessors, pairing->assessor);
    value.b_first = pairing->b_first();
    value.d = *answer;
    value.half_weight = twin && choice(*twin, attribute) ? 1 : 2;
    if (static_cast<std::size_t>(value.brew_pair) == result.brew_pair_lot.size())
      result.brew_pair_lot.push_back(value.lot);
    result.values.push_back(value);
  }
  for (const auto& lot : lots) result.lots.push_back(lot.text());
  for (const auto& assessor : assessors) result.assessors.push_back(assessor.text());
  return result;
}

}  // namespace

Result<std::optional<DirectAnswers>> direct_answers(const Unmasked& unmasked, const Attribute& attribute,
                                                    Contrast contrast, const FamilySettings& settings, double level,
                                                    const Work& work) {
  DirectAnswers result;
  const auto values = choices(unmasked, attribute, contrast, result);
  // "Could not judge" alone is no direct answer: it only counts beside answers that were given.
  if (values.values.empty() || result.could_not_judge == static_cast<int>(values.values.size())) return std::nullopt;
  const AnalysisSettings each{level, settings.policy == EnginePolicy::automatic, false, settings.shuffle_seed,
                              settings.only_engine};
  const auto analysis = analyse(values, 1, 1, each, work);
  if (!analysis) return tl::unexpected(analysis.error());
  result.engine = analysis->engine;
  if (analysis->blocked == OpenReason::none) result.p = analysis->p_moved;
  const auto model = stats::two_ac(result.less, result.cannot_tell, result.more);
  if (!model) return tl::unexpected(model.error());
  result.tau = model->tau;
  result.d_prime = model->d_prime;
  result.p_independent = model->p;
  return result;
}

}  // namespace likeleaf::evidence
