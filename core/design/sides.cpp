#include "core/design/sides.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>
#include <utility>

namespace likeleaf::design {

std::vector<char> part_assessors(Draw& draw, std::size_t assessors) {
  return random_halves(draw, assessors);
}

EvenTable::EvenTable(Draw& draw, std::size_t owners, std::size_t lots, std::size_t contrasts, std::size_t sets)
    : lots_(lots), contrasts_(contrasts), sets_(sets) {
  // With an odd number of sets each cell has one left over. Laid out as a chessboard (of three dimensions) whose layers
  // are in random order, the left-overs cancel to at most one along every row, every layer and in all.
  const auto layer = random_order(draw, owners);
  const auto row = random_order(draw, lots);
  const auto column = random_order(draw, contrasts);
  const bool corner = draw.coin();
  cells_.reserve(owners * lots * contrasts * sets);
  for (std::size_t owner = 0; owner < owners; ++owner)
    for (std::size_t lot = 0; lot < lots; ++lot)
      for (std::size_t contrast = 0; contrast < contrasts; ++contrast) {
        std::vector<char> cell(sets);
        for (std::size_t set = 0; set < sets / 2; ++set) cell[set] = 1;
        const bool even = (layer[owner] + row[lot] + column[contrast]) % 2 == 0;
        if (sets % 2 == 1) cell.back() = static_cast<char>(even == corner);
        draw.shuffle(cell);
        cells_.insert(cells_.end(), cell.begin(), cell.end());
      }
}

namespace {

int largest(const std::map<IdOf<Pair>, int>& sums) {
  int most = 0;
  for (const auto& [id, sum] : sums) most = std::max(most, std::abs(sum));
  return most;
}

int largest(const std::map<IdOf<Assessor>, int>& sums) {
  int most = 0;
  for (const auto& [id, sum] : sums) most = std::max(most, std::abs(sum));
  return most;
}

}  // namespace

Balance measure_balance(const Key& key, const std::vector<BlindServing>& servings) {
  std::map<IdOf<Brew>, int> number;
  for (const auto& brew : key.brews) number[brew.id] = brew.number;
  std::map<IdOf<Pair>, const KeyPair*> contrast;
  std::set<std::pair<IdOf<Lot>, int>> sets;
  Balance balance;
  for (const auto& pair : key.pairs) {
    if (pair.kind != PairKind::contrast) continue;
    contrast[pair.id] = &pair;
    sets.emplace(pair.lot, pair.set);
    balance.pour_order_difference += number[pair.cup_b.brew] < number[pair.cup_a.brew] ? 1 : -1;
  }
  balance.reference_set_log2 = sets.size();
  std::map<IdOf<Pair>, int> by_pair;
  std::map<IdOf<Assessor>, int> by_assessor;
  for (const auto& serving : servings) {
    const auto found = contrast.find(serving.pair);
    if (found == contrast.end()) continue;
    const int way = serving.left == found->second->code_b ? 1 : -1;
    by_pair[serving.pair] += way;
    by_assessor[serving.assessor] += way;
  }
  balance.most_unequal_in_a_pair = largest(by_pair);
  balance.most_unequal_for_an_assessor = largest(by_assessor);
  return balance;
}

}  // namespace likeleaf::design
