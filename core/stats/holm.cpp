#include "core/stats/holm.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>

namespace likeleaf::stats {

Result<std::vector<HolmItem>> holm(std::span<const double> p, double alpha) {
  if (p.empty()) return fail(ErrorKind::missing, "p values");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  for (const double x : p)
    if (!(x >= 0 && x <= 1)) return fail(ErrorKind::bad_value, "p", fmt::format("{}", x), "0 to 1");
  const std::size_t k = p.size();
  std::vector<std::size_t> by_p(k);
  std::iota(by_p.begin(), by_p.end(), std::size_t{0});
  std::ranges::stable_sort(by_p, {}, [&](std::size_t i) { return p[i]; });
  std::vector<HolmItem> out(k);
  double running = 0;
  bool passing = true;
  double level = 0;
  for (std::size_t first = 0, last = 0; first < k; first = last) {
    // A group of equal p stands or falls at its first, strictest place: what passes there passes at the later ones too.
    while (last < k && p[by_p[last]] == p[by_p[first]]) ++last;
    const double value = p[by_p[first]];
    running = std::max(running, std::min(1.0, static_cast<double>(k - first) * value));
    if (passing) {
      level = alpha / static_cast<double>(k - first);
      passing = value <= level;
    }
    for (std::size_t i = first; i < last; ++i)
      out[by_p[i]] = {value, running, static_cast<int>(first) + 1, level, passing};
  }
  return out;
}

}  // namespace likeleaf::stats
