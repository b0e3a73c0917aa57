#include "core/design/order.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace likeleaf::design {

std::vector<std::vector<std::size_t>> williams_rows(std::size_t treatments) {
  const std::size_t n = treatments;
  std::vector<std::size_t> first;
  for (std::size_t place = 0; place < n; ++place)
    first.push_back(place % 2 == 1 ? (place + 1) / 2 : (n - place / 2) % n);
  std::vector<std::vector<std::size_t>> rows;
  for (std::size_t shift = 0; shift < n; ++shift) {
    std::vector<std::size_t> row;
    for (const auto treatment : first) row.push_back((treatment + shift) % n);
    rows.push_back(std::move(row));
  }
  if (n % 2 == 1 && n > 1)
    for (std::size_t i = 0; i < n; ++i) rows.emplace_back(rows[i].rbegin(), rows[i].rend());
  return rows;
}

std::vector<std::vector<std::size_t>> pair_orders(Draw& draw, std::size_t pairs, std::size_t owners) {
  std::vector<std::vector<std::size_t>> orders(owners);
  if (pairs == 0) return orders;
  const auto rows = williams_rows(pairs);
  const auto named = random_order(draw, pairs);
  const auto who = random_order(draw, owners);
  std::vector<std::size_t> in_square;
  for (std::size_t i = 0; i < owners; ++i) {
    // Whole squares are used up one after the other, so that places stay balanced to one at any number of owners.
    if (i % pairs == 0) in_square = random_order(draw, pairs);
    const std::size_t square = (i / pairs) % (rows.size() / pairs);
    for (const auto treatment : rows[square * pairs + in_square[i % pairs]]) orders[who[i]].push_back(named[treatment]);
  }
  return orders;
}

namespace {

struct Spread {
  std::vector<std::size_t> lot_of_set;
  std::vector<std::size_t> sitting_of_set;

  [[nodiscard]] bool met(const Wish& wish) const {
    for (std::size_t i = 0; i < lot_of_set.size(); ++i)
      if (lot_of_set[i] == wish.lot && sitting_of_set[i] == wish.sitting) return true;
    return false;
  }
  [[nodiscard]] std::size_t met(const std::vector<Wish>& wishes) const {
    return static_cast<std::size_t>(
        std::count_if(wishes.begin(), wishes.end(), [this](const Wish& wish) { return met(wish); }));
  }
};

/// The trade of two sets that meets one wish more, between sittings as near as possible.
std::optional<std::pair<std::size_t, std::size_t>> best_trade(Spread& spread, const Wish& wish,
                                                              const std::vector<Wish>& wishes) {
  const std::size_t before = spread.met(wishes);
  std::optional<std::pair<std::size_t, std::size_t>> best;
  std::size_t nearest = 0;
  for (std::size_t here = 0; here < spread.lot_of_set.size(); ++here) {
    if (spread.sitting_of_set[here] != wish.sitting) continue;
    for (std::size_t there = 0; there < spread.lot_of_set.size(); ++there) {
      if (spread.lot_of_set[there] != wish.lot) continue;
      const std::size_t other = spread.sitting_of_set[there];
      const std::size_t distance = other > wish.sitting ? other - wish.sitting : wish.sitting - other;
      if (best && distance >= nearest) continue;
      std::swap(spread.lot_of_set[here], spread.lot_of_set[there]);
      const bool better = spread.met(wishes) > before;
      std::swap(spread.lot_of_set[here], spread.lot_of_set[there]);
      if (!better) continue;
      best = {here, there};
      nearest = distance;
    }
  }
  return best;
}

}  // namespace

std::vector<std::size_t> spread_lots(Draw& draw, std::size_t lots, const std::vector<std::size_t>& sitting_of_set,
                                     const std::vector<Wish>& wishes) {
  const auto turn = random_order(draw, lots);
  Spread spread{{}, sitting_of_set};
  for (std::size_t i = 0; i < sitting_of_set.size(); ++i) spread.lot_of_set.push_back(turn[i % lots]);
  for (const auto& wish : wishes) {
    if (spread.met(wish)) continue;
    if (const auto trade = best_trade(spread, wish, wishes))
      std::swap(spread.lot_of_set[trade->first], spread.lot_of_set[trade->second]);
  }
  return spread.lot_of_set;
}

}  // namespace likeleaf::design
