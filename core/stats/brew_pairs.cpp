#include "core/stats/brew_pairs.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

constexpr Wide most_weight = Wide{1} << 30;

tl::unexpected<Error> grid_overflow() {
  return fail(ErrorKind::too_large, "differences", {}, "values whose common grid fits 60 bits");
}

bool sum_fits(const Weighted& v) {
  Wide sum = 0;
  for (std::size_t g = 0; g < v.size(); ++g) {
    sum += wide_abs(static_cast<Wide>(v.w[g]) * v.d[g]);
    if (sum > most_sum) return false;
  }
  return true;
}

/// Smallest whole weights proportional to 1/(lots · n of the lot).
Result<bool> give_weights(Weighted& v) {
  std::vector<std::int64_t> n(static_cast<std::size_t>(v.lots), 0);
  for (const std::int32_t l : v.lot) ++n[static_cast<std::size_t>(l)];
  Wide all = 1;
  for (const std::int64_t k : n) {
    if (k == 0) return fail(ErrorKind::bad_value, "lots", {}, "lots numbered from 0 without gaps");
    all = wide_lcm(all, k, most_weight);
    if (all == 0) return grid_overflow();
  }
  if (all * v.lots > most_weight) return grid_overflow();
  Wide common = all;
  for (const std::int64_t k : n) common = wide_gcd(common, all / k);
  v.w_den = static_cast<std::int64_t>(all * v.lots / common);
  v.w.clear();
  for (const std::int32_t l : v.lot)
    v.w.push_back(static_cast<std::int64_t>(all / n[static_cast<std::size_t>(l)] / common));
  return true;
}

}  // namespace

Result<Weighted> weighted(std::span<const Rational> d, std::span<const std::int32_t> lot,
                          std::span<const std::int32_t> order) {
  if (d.empty()) return fail(ErrorKind::missing, "brew pairs");
  if (lot.size() != d.size()) return fail(ErrorKind::bad_value, "lots", {}, "one for each brew pair");
  if (!order.empty() && order.size() != d.size())
    return fail(ErrorKind::bad_value, "order", {}, "one for each brew pair");
  Weighted out;
  out.lots = 0;
  for (const std::int32_t l : lot) {
    // The upper bound also keeps the table of lots small when the numbers are nonsense.
    if (l < 0 || static_cast<std::size_t>(l) >= d.size())
      return fail(ErrorKind::bad_value, "lots", fmt::format("{}", l), "lots numbered from 0 without gaps");
    out.lots = std::max(out.lots, l + 1);
  }
  out.lot.assign(lot.begin(), lot.end());
  if (order.empty()) {
    out.order.assign(d.size(), 0);
  } else {
    out.order.assign(order.begin(), order.end());
    for (const std::int32_t o : out.order)
      if (o < -1 || o > 1) return fail(ErrorKind::bad_value, "order", fmt::format("{}", o), "-1, 0 or 1");
  }
  Wide den = 1;
  for (const Rational& r : d) {
    den = wide_lcm(den, r.den, most_sum);
    if (den == 0) return grid_overflow();
  }
  out.d_den = static_cast<std::int64_t>(den);
  for (const Rational& r : d) {
    const Wide scaled = static_cast<Wide>(r.num) * (den / r.den);
    if (wide_abs(scaled) > most_sum) return grid_overflow();
    out.d.push_back(static_cast<std::int64_t>(scaled));
  }
  if (const auto ok = give_weights(out); !ok) return tl::unexpected<Error>(ok.error());
  if (!sum_fits(out)) return grid_overflow();
  return out;
}

Result<Weighted> plain(std::span<const std::int64_t> d, std::int64_t den) {
  if (d.empty()) return fail(ErrorKind::missing, "values");
  if (den < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", den), "1 or more");
  Weighted out;
  out.d.assign(d.begin(), d.end());
  out.d_den = den;
  out.w.assign(d.size(), 1);
  if (d.size() > static_cast<std::size_t>(most_weight)) return grid_overflow();
  out.w_den = static_cast<std::int64_t>(d.size());
  out.lot.assign(d.size(), 0);
  out.order.assign(d.size(), 0);
  if (!sum_fits(out)) return grid_overflow();
  return out;
}

Result<Weighted> shifted(const Weighted& values, const Rational& by) {
  Weighted out = values;
  const Wide den = wide_lcm(values.d_den, by.den, most_sum);
  if (den == 0) return grid_overflow();
  const Wide up = den / values.d_den;
  const Wide step = static_cast<Wide>(by.num) * (den / by.den);
  out.d_den = static_cast<std::int64_t>(den);
  for (std::int64_t& d : out.d) {
    const Wide moved = d * up + step;
    if (wide_abs(moved) > most_sum) return grid_overflow();
    d = static_cast<std::int64_t>(moved);
  }
  if (!sum_fits(out)) return grid_overflow();
  return out;
}

Weighted mirrored(const Weighted& values) {
  Weighted out = values;
  for (std::int64_t& d : out.d) d = -d;
  for (std::int32_t& o : out.order) o = -o;
  return out;
}

namespace {

Wide weighted_sum(const Weighted& values) {
  Wide sum = 0;
  for (std::size_t g = 0; g < values.size(); ++g) sum += static_cast<Wide>(values.w[g]) * values.d[g];
  return sum;
}

}  // namespace

Result<Rational> estimate_exact(const Weighted& values) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  const auto mean = rational(static_cast<std::int64_t>(weighted_sum(values)), values.w_den);
  if (!mean) return mean;
  return multiply(*mean, Rational{1, values.d_den});
}

double estimate(const Weighted& values) {
  return static_cast<double>(static_cast<long double>(weighted_sum(values)) /
                             (static_cast<long double>(values.w_den) * static_cast<long double>(values.d_den)));
}

bool no_spread(const Weighted& values) {
  return std::ranges::adjacent_find(values.d, std::ranges::not_equal_to{}) == values.d.end();
}

Result<BrewPairs> brew_pairs(std::span<const TastedPair> tasted, std::span<const std::int32_t> lot_of,
                             std::int64_t grid) {
  if (tasted.empty()) return fail(ErrorKind::missing, "tasted pairs");
  if (grid < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", grid), "1 or more");
  struct Orders {
    std::vector<std::int64_t> d[2], w[2];
  };
  std::map<std::int32_t, Orders> by_pair;
  for (const TastedPair& t : tasted) {
    if (t.brew_pair < 0 || static_cast<std::size_t>(t.brew_pair) >= lot_of.size())
      return fail(ErrorKind::bad_value, "brew pair", fmt::format("{}", t.brew_pair), "one of the trial");
    if (t.halves != 1 && t.halves != 2)
      return fail(ErrorKind::bad_value, "weight", fmt::format("{}", t.halves), "1 or 2 halves");
    Orders& o = by_pair[t.brew_pair];
    o.d[t.b_first].push_back(t.d);
    o.w[t.b_first].push_back(t.halves);
  }
  BrewPairs out;
  out.tasted_pairs = tasted.size();
  out.both_orders = true;
  std::vector<Rational> d;
  std::vector<std::int32_t> order;
  std::map<std::int32_t, std::int32_t> lot_number;
  for (const auto& [pair, o] : by_pair) {
    const std::int32_t lot = lot_of[static_cast<std::size_t>(pair)];
    if (lot < 0) return fail(ErrorKind::bad_value, "lot", fmt::format("{}", lot), "0 or more");
    lot_number.emplace(lot, 0);
    Result<Rational> mean[2];
    for (const int side : {0, 1})
      if (!o.d[side].empty()) {
        mean[side] = weighted_mean(o.d[side], o.w[side], grid);
        if (!mean[side]) return tl::unexpected<Error>(mean[side].error());
      }
    const bool both = !o.d[0].empty() && !o.d[1].empty();
    if (both) {
      auto value = add(*mean[0], *mean[1]);
      if (value) value = multiply(*value, Rational{1, 2});
      if (!value) return tl::unexpected<Error>(value.error());
      d.push_back(*value);
      order.push_back(0);
    } else {
      const int side = o.d[1].empty() ? 0 : 1;
      d.push_back(*mean[side]);
      order.push_back(side == 1 ? 1 : -1);
      out.both_orders = false;
    }
    out.brew_pair.push_back(pair);
  }
  for (auto& [lot, number] : lot_number) {
    number = static_cast<std::int32_t>(out.lot.size());
    out.lot.push_back(lot);
  }
  std::vector<std::int32_t> lots;
  for (const std::int32_t pair : out.brew_pair) lots.push_back(lot_number[lot_of[static_cast<std::size_t>(pair)]]);
  auto values = weighted(d, lots, order);
  if (!values) return tl::unexpected<Error>(values.error());
  out.values = std::move(*values);
  return out;
}

}  // namespace likeleaf::stats
