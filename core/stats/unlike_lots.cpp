#include "core/stats/unlike_lots.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/stats/distributions.h"
#include "core/stats/random.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

constexpr std::uint64_t most_named = 1'000'000'000'000'000'000u;

/// G!/(n₁! n₂! …), nothing above 10^18.
std::optional<std::uint64_t> ways_of(std::span<const std::int64_t> sizes) {
  Wide ways = 1;
  std::int64_t placed = 0;
  for (const std::int64_t n : sizes)
    for (std::int64_t k = 1; k <= n; ++k) {
      ways = ways * ++placed / k;  // a product of binomial coefficients: whole at every step
      if (ways > most_named) return std::nullopt;
    }
  return static_cast<std::uint64_t>(ways);
}

/// In how many ways lots of equal size can change names: a whole number up to 2^53 is all that is needed of it.
double namings(std::span<const std::int64_t> sizes) {
  std::map<std::int64_t, int> alike;
  double same = 1;
  for (const std::int64_t n : sizes) same *= ++alike[n];
  return same;
}

std::optional<double> smallest_p(std::span<const std::int64_t> sizes) {
  const auto ways = ways_of(sizes);
  if (sizes.size() < 2 || !ways) return std::nullopt;
  return std::min(1.0, namings(sizes) / static_cast<double>(*ways));
}

/// Σ S²·(L/n) with L the least common multiple of the sizes: the statistic times L, whole.
struct Statistic {
  std::vector<Wide> factor;
  [[nodiscard]] Wide of(std::span<const std::int64_t> sums) const {
    Wide total = 0;
    for (std::size_t l = 0; l < sums.size(); ++l) total += static_cast<Wide>(sums[l]) * sums[l] * factor[l];
    return total;
  }
};

struct LotListing {
  std::span<const std::int64_t> d;
  const Statistic& statistic;
  Wide seen;
  const std::stop_token& stop;
  std::span<const std::int64_t> sizes;
  std::vector<std::int64_t> room, sums;
  std::uint64_t ways = 0, extreme = 0;

  bool place(std::size_t i) {  // false when stopped
    if (i == d.size()) {
      extreme += statistic.of(sums) >= seen;
      return ++ways % 4096 != 0 || !stop.stop_requested();
    }
    for (std::size_t l = 0; l < room.size(); ++l) {
      if (room[l] == 0) continue;
      // Two empty lots of one size are the same but for their names: only the first is tried, which leaves out the same
      // number of twins of every way.
      bool twin = false;
      for (std::size_t k = 0; k < l && !twin; ++k)
        twin = room[k] == sizes[k] && room[l] == sizes[l] && sizes[k] == sizes[l];
      if (twin) continue;
      --room[l];
      sums[l] += d[i];
      const bool go_on = place(i + 1);
      sums[l] -= d[i];
      ++room[l];
      if (!go_on) return false;
    }
    return true;
  }
};

}  // namespace

std::optional<double> smallest_lots_p(std::span<const std::int32_t> sizes) {
  std::vector<std::int64_t> n;
  for (const std::int32_t s : sizes)
    if (s > 0) n.push_back(s);
  return smallest_p(n);
}

Result<UnlikeLots> unlike_lots(const Weighted& values, std::uint64_t seed, const std::stop_token& stop,
                               const Progress& progress) {
  const std::size_t n = values.size();
  if (n == 0) return fail(ErrorKind::missing, "brew pairs");
  const auto lots = static_cast<std::size_t>(values.lots);
  UnlikeLots out;
  if (lots < 2) return out;
  std::vector<std::int64_t> sizes(lots, 0), sums(lots, 0);
  for (const std::int32_t l : values.lot) ++sizes[static_cast<std::size_t>(l)];
  out.ways = ways_of(sizes);
  if (n == lots) {
    out.state = UnlikeState::one_pair_each;
    return out;
  }

  // Moving all values by the same amount adds the same to Σ S²/n of every way: begin at the lowest, for small numbers.
  const std::int64_t base = *std::ranges::min_element(values.d);
  std::vector<std::int64_t> d;
  Wide total = 0, common = 0;
  for (const std::int64_t v : values.d) common = wide_gcd(common, static_cast<Wide>(v) - base);
  for (const std::int64_t v : values.d) {
    const Wide off = (static_cast<Wide>(v) - base) / std::max<Wide>(common, 1);
    total += off;
    if (total > (Wide{1} << 60)) return fail(ErrorKind::too_large, "differences");
    d.push_back(static_cast<std::int64_t>(off));
  }
  Wide all = 1;
  for (const std::int64_t k : sizes) {
    all = wide_lcm(all, k, Wide{1} << 40);
    if (all == 0) return fail(ErrorKind::too_large, "lots");
  }
  // Σ S²·L/n ≤ total²·L.
  if (static_cast<long double>(total) * static_cast<long double>(total) * static_cast<long double>(all) > 1e38L)
    return fail(ErrorKind::too_large, "differences");
  Statistic statistic;
  for (const std::int64_t k : sizes) statistic.factor.push_back(all / k);
  for (std::size_t g = 0; g < n; ++g) sums[static_cast<std::size_t>(values.lot[g])] += d[g];
  const Wide seen = statistic.of(sums);

  // Sums of squares times L·n: between = n·Σ S²L/n_l − L·total², within = L·n·Σ d² − n·Σ S²L/n_l.
  {
    long double squares = 0;
    for (const std::int64_t v : d) squares += static_cast<long double>(v) * static_cast<long double>(v);
    const auto scale = static_cast<long double>(all);
    const auto by_lot = static_cast<long double>(seen) / scale;
    const auto mean_square =
        static_cast<long double>(total) * static_cast<long double>(total) / static_cast<long double>(n);
    bool flat = true;  // every lot has only one value
    for (std::size_t g = 0; g < n && flat; ++g)
      for (std::size_t h = g + 1; h < n && flat; ++h) flat = values.lot[g] != values.lot[h] || d[g] == d[h];
    if (!flat)
      out.f = static_cast<double>(std::max(0.0L, by_lot - mean_square) / static_cast<long double>(lots - 1) /
                                  ((squares - by_lot) / static_cast<long double>(n - lots)));
  }

  out.state = UnlikeState::asked;
  out.smallest_p = smallest_p(sizes);
  if (out.ways && static_cast<double>(*out.ways) / namings(sizes) <= static_cast<double>(most_ways)) {
    LotListing listing{d, statistic, seen, stop, sizes, sizes, std::vector<std::int64_t>(lots, 0)};
    if (!listing.place(0)) return fail(ErrorKind::cancelled);
    out.exact = fraction(listing.extreme, listing.ways);
    out.p = out.exact->value();
  } else {
    std::ranges::sort(d);  // the draws must not depend on the order of the rows
    Draws draws(seed, Stream::unlike_lots);
    std::uint64_t extreme = 0;
    for (std::uint64_t i = 0; i < lot_draws; ++i) {
      if (i % 4096 == 0) {
        if (stop.stop_requested()) return fail(ErrorKind::cancelled);
        if (progress) progress(static_cast<double>(i) / static_cast<double>(lot_draws));
      }
      draws.shuffle(std::span(d));
      std::size_t at = 0;
      for (std::size_t l = 0; l < lots; ++l) {
        sums[l] = 0;
        for (std::int64_t k = 0; k < sizes[l]; ++k) sums[l] += d[at++];
      }
      extreme += statistic.of(sums) >= seen;
    }
    out.draws = lot_draws;
    out.p = static_cast<double>(extreme + 1) / static_cast<double>(lot_draws + 1);
  }
  if (progress) progress(1.0);
  return out;
}

namespace {

/// Takes columns one by one out of what is left of y (modified Gram–Schmidt under weights); a column that the earlier
/// ones already explain adds nothing to the rank.
class Fit {
 public:
  Fit(std::vector<double> y, std::vector<double> weight) : left_(std::move(y)), weight_(std::move(weight)) {}

  void add(std::vector<double> column) {
    const double before = dot(column, column);
    for (int pass = 0; pass < 2; ++pass)  // the second pass removes what rounding left of the first
      for (const auto& q : basis_) subtract(column, q, dot(column, q));
    const double after = dot(column, column);
    if (!(after > 1e-18 * before) || before == 0) return;
    const double scale = 1 / std::sqrt(after);
    for (double& x : column) x *= scale;
    subtract(left_, column, dot(left_, column));
    basis_.push_back(std::move(column));
  }
  [[nodiscard]] int rank() const { return static_cast<int>(basis_.size()); }
  [[nodiscard]] double squares() const { return dot(left_, left_); }

 private:
  std::vector<double> left_, weight_;
  std::vector<std::vector<double>> basis_;

  [[nodiscard]] double dot(const std::vector<double>& a, const std::vector<double>& b) const {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += weight_[i] * a[i] * b[i];
    return sum;
  }
  static void subtract(std::vector<double>& from, const std::vector<double>& q, double times) {
    for (std::size_t i = 0; i < from.size(); ++i) from[i] -= times * q[i];
  }
};

}  // namespace

Result<LotsByAssessor> unlike_lots_one_pair(std::span<const TastedPair> tasted, std::int32_t lots, std::int64_t grid) {
  if (tasted.empty()) return fail(ErrorKind::missing, "tasted pairs");
  if (grid < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", grid), "1 or more");
  if (lots < 1) return fail(ErrorKind::bad_value, "lots", fmt::format("{}", lots), "1 or more");
  LotsByAssessor out;
  out.sheets.assign(static_cast<std::size_t>(lots), 0.0);
  std::vector<TastedPair> rows(tasted.begin(), tasted.end());
  // One order of rows, so that sums in doubles do not depend on the caller's.
  std::ranges::sort(rows, {}, [](const TastedPair& t) { return std::tuple(t.brew_pair, t.assessor, t.b_first, t.d); });
  std::vector<std::int32_t> assessors;
  std::vector<double> y, weight, order;
  double count = 0;
  const std::int64_t origin = rows.front().d;
  for (const TastedPair& t : rows) {
    if (t.brew_pair < 0 || t.brew_pair >= lots)
      return fail(ErrorKind::bad_value, "lot", fmt::format("{}", t.brew_pair), "one of the trial");
    if (t.halves != 1 && t.halves != 2)
      return fail(ErrorKind::bad_value, "weight", fmt::format("{}", t.halves), "1 or 2 halves");
    assessors.push_back(t.assessor);
    y.push_back(static_cast<double>(static_cast<long double>(static_cast<Wide>(t.d) - origin) / grid));
    weight.push_back(t.halves / 2.0);
    order.push_back(t.b_first ? 1.0 : -1.0);
    out.sheets[static_cast<std::size_t>(t.brew_pair)] += t.halves / 2.0;
    count += t.halves / 2.0;
  }
  std::ranges::sort(assessors);
  assessors.erase(std::unique(assessors.begin(), assessors.end()), assessors.end());
  const auto column = [&](auto&& member) {
    std::vector<double> c;
    for (const TastedPair& t : rows) c.push_back(member(t) ? 1.0 : 0.0);
    return c;
  };
  double scale = 0;
  for (std::size_t i = 0; i < y.size(); ++i) scale += weight[i] * y[i] * y[i];
  Fit fit(y, weight);
  fit.add(std::vector<double>(rows.size(), 1.0));
  for (const std::int32_t a : assessors) fit.add(column([a](const TastedPair& t) { return t.assessor == a; }));
  fit.add(order);
  const int rank_without = fit.rank();
  const double without = fit.squares();
  for (std::int32_t l = 0; l < lots; ++l) fit.add(column([l](const TastedPair& t) { return t.brew_pair == l; }));
  const double with = fit.squares();
  out.df_lots = fit.rank() - rank_without;
  out.df_cross = static_cast<int>(std::floor(count)) - fit.rank();
  if (lots < 2 || assessors.size() < 2 || out.df_lots < lots - 1 || out.df_cross < 1) return out;
  out.ms_lots = std::max(0.0, without - with) / out.df_lots;
  // A residual that is there at all is at least a grid step; what is far below is rounding.
  if (with <= 1e-22 * scale) {
    out.state = CrossState::no_spread;
    if (without <= 1e-22 * scale) out.ms_lots = 0;
    return out;
  }
  out.state = CrossState::fitted;
  out.ms_cross = with / out.df_cross;
  out.f = out.ms_lots / out.ms_cross;
  out.p = f_sf(out.f, out.df_lots, out.df_cross);
  return out;
}

}  // namespace likeleaf::stats
