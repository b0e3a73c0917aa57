#include "core/stats/flip_means.h"

#include <numeric>
#include <type_traits>

#include "core/stats/flip_patterns.h"

namespace likeleaf::stats {

std::optional<Reduced> reduce(const Weighted& v) {
  Reduced out;
  out.base = *std::ranges::min_element(v.d);
  std::int64_t common = 0;
  for (const std::int64_t d : v.d) {
    const Wide off = static_cast<Wide>(d) - out.base;
    if (off > most_sum) return std::nullopt;
    common = std::gcd(common, static_cast<std::int64_t>(off));
  }
  out.step = std::max<std::int64_t>(common, 1);
  std::int64_t shared = 0;
  for (const std::int64_t w : v.w) shared = std::gcd(shared, w);
  Wide sum = 0;
  for (std::size_t g = 0; g < v.size(); ++g) {
    out.w.push_back(v.w[g] / shared);
    out.small.push_back((v.d[g] - out.base) / out.step);
    out.weight += out.w.back();
    sum += static_cast<Wide>(out.w.back()) * out.small.back();
    if (sum > most_sum) return std::nullopt;
  }
  out.sum = static_cast<std::int64_t>(sum);
  return out;
}

template <class Count>
std::optional<std::vector<Cell<Count>>> cells_by_table(const Reduced& r, const std::stop_token& stop,
                                                       const Progress& progress) {
  const std::int64_t wide = r.sum + 1;
  std::vector<Count> table(static_cast<std::size_t>((r.weight + 1) * wide), Count{0});
  table[0] = 1;
  std::int64_t weight = 0, sum = 0;
  for (std::size_t g = 0; g < r.w.size(); ++g) {
    if (stop.stop_requested()) return std::nullopt;
    if (progress) progress(static_cast<double>(g) / static_cast<double>(r.w.size()));
    const std::int64_t add = r.w[g] * r.small[g];
    for (std::int64_t a = weight; a >= 0; --a) {
      const Count* const from = table.data() + a * wide;
      Count* const to = table.data() + (a + r.w[g]) * wide + add;
      for (std::int64_t b = 0; b <= sum; ++b) to[b] += from[b];
    }
    weight += r.w[g];
    sum += add;
    if constexpr (std::is_floating_point_v<Count>)
      for (Count& c : table) c *= 0.5;
  }
  std::vector<Cell<Count>> cells;
  for (std::int64_t a = 1; a <= r.weight; ++a)
    for (std::int64_t b = 0; b <= r.sum; ++b)
      if (const Count c = table[static_cast<std::size_t>(a * wide + b)]; c > 0) cells.push_back({a, b, c});
  return cells;
}

template std::optional<std::vector<Cell<std::uint64_t>>> cells_by_table(const Reduced&, const std::stop_token&,
                                                                        const Progress&);
template std::optional<std::vector<Cell<double>>> cells_by_table(const Reduced&, const std::stop_token&,
                                                                 const Progress&);

std::vector<Cell<std::uint64_t>> cells_by_listing(const Reduced& r) {
  std::vector<Cell<std::uint64_t>> cells{{0, 0, 1}};
  cells.reserve(std::size_t{1} << r.w.size());
  for (std::size_t g = 0; g < r.w.size(); ++g)
    for (std::size_t i = 0, n = cells.size(); i < n; ++i)
      cells.push_back({cells[i].a + r.w[g], cells[i].b + r.w[g] * r.small[g], 1});
  cells.erase(cells.begin());  // the empty subset has no mean
  return cells;
}

}  // namespace likeleaf::stats
