#include "core/stats/hodges_lehmann.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/stats/wide.h"

namespace likeleaf::stats {

Result<HodgesLehmann> hodges_lehmann(std::span<const std::int64_t> values, std::int64_t den, double alpha) {
  const std::size_t n = values.size();
  if (n == 0) return fail(ErrorKind::missing, "values");
  if (den < 1) return fail(ErrorKind::bad_value, "grid", {}, "1 or more");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  if (n > 4000) return fail(ErrorKind::too_large, "values", {}, "at most 4000");
  for (const std::int64_t v : values)
    if (wide_abs(v) > (Wide{1} << 60)) return fail(ErrorKind::too_large, "values");
  std::vector<std::int64_t> walsh;  // twice the averages
  walsh.reserve(n * (n + 1) / 2);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i; j < n; ++j) walsh.push_back(values[i] + values[j]);
  std::ranges::sort(walsh);
  const std::size_t m = walsh.size();
  const auto unit = static_cast<long double>(den);
  HodgesLehmann out;
  out.estimate =
      static_cast<double>(static_cast<long double>(static_cast<Wide>(walsh[(m - 1) / 2]) + walsh[m / 2]) / (4 * unit));

  // Lower half of the untied signed-rank distribution: shares of the 2^n patterns whose ranks 1 … n sum to v.
  std::vector<double> share(m / 2 + 1, 0.0);
  share[0] = 1;
  for (std::size_t r = 1, reached = 0; r <= n; ++r) {
    reached = std::min(share.size() - 1, reached + r);
    for (std::size_t v = reached; v >= r; --v) share[v] += share[v - r];
    for (std::size_t v = 0; v <= reached; ++v) share[v] *= 0.5;
  }
  // The largest k with P(V ≤ k) ≤ alpha/2; the ends are the Walsh averages k + 1 from either side.
  double tail = 0;
  std::size_t k = 0;
  bool any = false;
  for (std::size_t v = 0; v < share.size() && tail + share[v] <= alpha / 2; ++v) {
    tail += share[v];
    k = v;
    any = true;
  }
  if (any && k < m - 1 - k)
    out.interval = HodgesLehmannInterval{static_cast<double>(static_cast<long double>(walsh[k]) / (2 * unit)),
                                         static_cast<double>(static_cast<long double>(walsh[m - 1 - k]) / (2 * unit)),
                                         1 - 2 * tail};
  return out;
}

}  // namespace likeleaf::stats
