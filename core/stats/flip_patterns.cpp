#include "core/stats/flip_patterns.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace likeleaf::stats {

Weighted in_order(const Weighted& values) {
  std::vector<std::size_t> place(values.size());
  std::iota(place.begin(), place.end(), std::size_t{0});
  std::ranges::sort(place, {}, [&](std::size_t g) { return std::pair(values.d[g], values.w[g]); });
  Weighted out = values;
  for (std::size_t i = 0; i < place.size(); ++i) {
    out.d[i] = values.d[place[i]];
    out.w[i] = values.w[place[i]];
  }
  return out;
}

}  // namespace likeleaf::stats
