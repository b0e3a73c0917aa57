#include "core/stats/flip_interval.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>
#include <vector>

#include "core/stats/flip_halves.h"
#include "core/stats/flip_means.h"
#include "core/stats/flip_patterns.h"

namespace likeleaf::stats {
namespace {

struct Ends {
  Rational lower, upper;
};

/// Both ends as fractions of the caller's unit. Where such a fraction leaves 64 bits (log grids under many weights) it
/// is rounded to the grid 1/d_den, which is far finer than 1e-9 then.
template <class Count>
Result<std::optional<Ends>> ends(const Weighted& v, const Reduced& r, const Cell<Count>& lower,
                                 const Cell<Count>& upper) {
  const auto one = [&](const Cell<Count>& c) -> Result<Rational> {
    auto mean = rational(c.b, c.a);
    if (mean) mean = multiply(*mean, Rational{r.step, 1});
    if (mean) mean = add(*mean, Rational{r.base, 1});
    if (mean) mean = multiply(*mean, Rational{1, v.d_den});
    if (mean) return mean;
    const Wide nearest = (static_cast<Wide>(c.b) * r.step + c.a / 2) / c.a + r.base;
    return rational(static_cast<std::int64_t>(nearest), v.d_den);
  };
  const auto low = one(lower), high = one(upper);
  if (!low) return tl::unexpected<Error>(low.error());
  if (!high) return tl::unexpected<Error>(high.error());
  return Ends{*low, *high};
}

using Found = Result<std::optional<Ends>>;

// For δ below the estimate a pattern is at least as extreme as the one seen when the values it turns have a mean of at
// most δ (the empty set counts), or those it keeps do. So p(δ) = 2(1 + number of subset means ≤ δ)/2^G, and p > alpha
// from the K-th smallest mean on, K = ⌊alpha/2 · 2^G⌋. The upper end likewise from above.

template <class Count>
Found by_cells(const Weighted& v, const Reduced& r, std::vector<Cell<Count>> cells, Count need) {
  const auto low = select(std::span(cells), need, false), high = select(std::span(cells), need, true);
  return ends(v, r, low, high);
}

template <class Count>
Found by_table(const Weighted& v, const Reduced& r, Count need, const std::stop_token& stop, const Progress& progress) {
  auto cells = cells_by_table<Count>(r, stop, progress);
  if (!cells || stop.stop_requested()) return cancelled();
  return by_cells(v, r, std::move(*cells), need);
}

Found by_halves(const Weighted& v, const Reduced& r, std::uint64_t need, const std::stop_token& stop,
                const Progress& progress) {
  Reduced turned = r;  // the upper end is the lower end of the mirror image
  const std::int64_t top = *std::ranges::max_element(r.small);
  for (std::int64_t& d : turned.small) d = top - d;
  const auto low = Halves(r).lower_end(need, stop, progress, 0.0, 0.5);
  if (!low) return cancelled();
  auto high = Halves(turned).lower_end(need, stop, progress, 0.5, 1.0);
  if (!high) return cancelled();
  high->b = top * high->a - high->b;
  return ends(v, r, *low, *high);
}

/// As above for the patterns drawn: p(δ) = (1 + number of means ≤ δ among both sets of each pattern)/(draws + 1).
Found by_draws(const Weighted& v, const Reduced& r, double alpha, std::uint64_t seed, const std::stop_token& stop,
               const Progress& progress) {
  const Weighted sorted = in_order(v);
  std::vector<std::int64_t> products;
  for (std::size_t g = 0; g < v.size(); ++g) products.push_back(sorted.w[g] * ((sorted.d[g] - r.base) / r.step));
  const Picker weight(sorted.w), sum(products);
  const std::int64_t all_weight = std::accumulate(sorted.w.begin(), sorted.w.end(), std::int64_t{0});
  const std::int64_t all_sum = std::accumulate(products.begin(), products.end(), std::int64_t{0});
  std::vector<Cell<std::uint64_t>> means;
  means.reserve(2 * flip_draws);
  std::uint64_t empty = 0;
  const auto drawn = [&](std::span<const std::uint64_t> words) {
    const std::int64_t a = weight.sum(words), b = sum.sum(words);
    if (a == 0 || a == all_weight) ++empty;
    if (a != 0) means.push_back({a, b, 1});
    if (a != all_weight) means.push_back({all_weight - a, all_sum - b, 1});
  };
  if (!random_subsets(v.size(), seed, stop, progress, drawn)) return cancelled();
  const auto need = static_cast<std::uint64_t>(alpha * static_cast<double>(flip_draws + 1));
  if (need <= empty) return std::nullopt;
  return by_cells(v, r, std::move(means), need - empty);
}

struct Way {
  FlipMethod method = FlipMethod::exact_counts;
  Found found = std::nullopt;
};

Way work_out(const Weighted& v, const Reduced& r, double alpha, std::uint64_t seed, const std::stop_token& stop,
             const Progress& progress) {
  const std::size_t n = v.size();
  const double cells = (static_cast<double>(r.weight) + 1) * (static_cast<double>(r.sum) + 1);
  const bool table = cells <= static_cast<double>(most_cells);
  if (n > most_counted && table) return {FlipMethod::exact_shares, by_table<double>(v, r, alpha / 2, stop, progress)};
  if (n <= most_counted) {
    const auto need = static_cast<std::uint64_t>(std::ldexp(alpha / 2, static_cast<int>(n)));
    if (need == 0) return {};
    const double table_work = cells * static_cast<double>(n) / 4;
    if (n <= 20 && (!table || std::ldexp(10.0, static_cast<int>(n)) < table_work))
      return {FlipMethod::exact_counts, by_cells(v, r, cells_by_listing(r), need)};
    if (table) return {FlipMethod::exact_counts, by_table<std::uint64_t>(v, r, need, stop, progress)};
    if (n <= most_merged && test_is_counted(v))
      return {FlipMethod::exact_counts, by_halves(v, r, need, stop, progress)};
  }
  return {FlipMethod::draws, by_draws(v, r, alpha, seed, stop, progress)};
}

}  // namespace

Result<std::optional<FlipInterval>> flip_interval(const Weighted& values, double alpha, std::uint64_t seed,
                                                  const std::stop_token& stop, const Progress& progress) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  const auto reduced = reduce(values);
  if (!reduced) return fail(ErrorKind::too_large, "differences", {}, "a range below 2^60");
  if (stop.stop_requested()) return cancelled();
  const Way way = work_out(values, *reduced, alpha, seed, stop, progress);
  if (!way.found) return tl::unexpected<Error>(way.found.error());
  if (!*way.found) return std::optional<FlipInterval>{};
  const Ends& found = **way.found;
  if (progress) progress(1.0);
  return FlipInterval{found.lower.value(), found.upper.value(), found.lower, found.upper, way.method, alpha};
}

}  // namespace likeleaf::stats
