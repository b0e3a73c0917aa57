#pragma once
// Differences without a trial around them, for tests of the verdict.
#include <string>
#include <vector>

#include "core/evidence/verdict.h"

namespace likeleaf::evidence::test {

/// d[lot][brew pair][assessor] in half points; the assessors of a brew pair take turns in who has b first.
using Table = std::vector<std::vector<std::vector<std::int64_t>>>;

inline Differences table(const Table& d, Scale scale = Scale::intensity) {
  Differences result;
  result.scale = scale;
  std::size_t assessors = 0;
  for (std::size_t lot = 0; lot < d.size(); ++lot) {
    result.lots.push_back("lot " + std::to_string(lot + 1));
    for (const auto& brew_pair : d[lot]) {
      const int g = static_cast<int>(result.brew_pair_lot.size());
      result.brew_pair_lot.push_back(static_cast<int>(lot));
      for (std::size_t k = 0; k < brew_pair.size(); ++k)
        result.values.push_back({static_cast<int>(lot), g, static_cast<int>(k),
                                 (k + static_cast<std::size_t>(g)) % 2 == 0, brew_pair[k], 2});
      assessors = std::max(assessors, brew_pair.size());
    }
  }
  for (std::size_t k = 0; k < assessors; ++k) result.assessors.push_back("taster " + std::to_string(k + 1));
  return result;
}

inline FamilyMember member(Differences differences, std::int64_t margin = 2) {
  FamilyMember result;
  result.differences = std::move(differences);
  result.margin = margin;
  return result;
}

inline AttributeFinding judge_one(const Differences& differences, std::int64_t margin = 2,
                                  const FamilySettings& settings = {}) {
  return judge({member(differences, margin)}, settings).value().front();
}

}  // namespace likeleaf::evidence::test
