#pragma once
// Ordered weighted means of the subsets of brew pairs: where the interval of the flip test ends. For the .cpp files of
// this folder.
#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <stop_token>
#include <utility>
#include <vector>

#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {

/// `count` subsets with weight `a` and weighted sum `b`; their mean is b/a.
template <class Count>
struct Cell {
  std::int64_t a = 0, b = 0;
  Count count = 0;
};

template <class Count>
int order(const Cell<Count>& x, const Cell<Count>& y) {
  const Wide left = static_cast<Wide>(x.b) * y.a, right = static_cast<Wide>(y.b) * x.a;
  return left < right ? -1 : left > right ? 1 : 0;
}

/// The cell with the smallest mean such that at least `need` subsets have a mean up to it (from above for `upper`).
/// Quickselect with counts; `cells` is rearranged. need must not exceed the sum of counts by more than rounding.
template <class Count>
Cell<Count> select(std::span<Cell<Count>> cells, Count need, bool upper) {
  while (true) {
    // Median of three: the cells come in a regular order.
    const Cell<Count>*x = &cells.front(), *y = &cells[cells.size() / 2], *z = &cells.back();
    if (order(*x, *y) > 0) std::swap(x, y);
    if (order(*y, *z) > 0) std::swap(y, z);
    if (order(*x, *y) > 0) std::swap(x, y);
    const Cell<Count> pivot = *y;
    const auto rank = [&](const Cell<Count>& c) { return upper ? -order(c, pivot) : order(c, pivot); };
    const auto middle = std::partition(cells.begin(), cells.end(), [&](const auto& c) { return rank(c) < 0; });
    const auto rest = std::partition(middle, cells.end(), [&](const auto& c) { return rank(c) == 0; });
    Count before = 0, same = 0;
    for (auto c = cells.begin(); c != middle; ++c) before += c->count;
    for (auto c = middle; c != rest; ++c) same += c->count;
    if (before >= need && middle != cells.begin()) {
      cells = std::span(cells.begin(), middle);
    } else if (before + same >= need || rest == cells.end()) {
      return pivot;
    } else {
      need -= before + same;
      cells = std::span(rest, cells.end());
    }
  }
}

/// Values moved to begin at 0 and divided by their common factor: d = base + step·small.
struct Reduced {
  std::vector<std::int64_t> w, small;
  std::int64_t base = 0, step = 1, weight = 0, sum = 0;  // Σ w, Σ w·small
};
/// Nothing when the range leaves 60 bits.
std::optional<Reduced> reduce(const Weighted& v);

/// Every mean with its count, by a table over weight and sum; nothing when stopped.
template <class Count>
std::optional<std::vector<Cell<Count>>> cells_by_table(const Reduced& r, const std::stop_token& stop,
                                                       const Progress& progress);
/// Every subset but the empty one, one cell each.
std::vector<Cell<std::uint64_t>> cells_by_listing(const Reduced& r);

}  // namespace likeleaf::stats
