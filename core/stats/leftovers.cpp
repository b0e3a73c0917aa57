#include "core/stats/leftovers.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/stats/lean.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {

Result<Leftovers> leftovers(std::span<const TastedPair> tasted, std::int64_t grid) {
  if (tasted.empty()) return fail(ErrorKind::missing, "tasted pairs");
  Leftovers out;
  std::map<std::int32_t, std::int32_t> pair_place;
  for (const TastedPair& t : tasted) {
    pair_place.emplace(t.brew_pair, 0);
    out.assessors.push_back(t.assessor);
  }
  std::int32_t next = 0;
  for (auto& [pair, place] : pair_place) place = next++;
  std::ranges::sort(out.assessors);
  out.assessors.erase(std::unique(out.assessors.begin(), out.assessors.end()), out.assessors.end());

  std::vector<TastedPair> rows(tasted.begin(), tasted.end());
  for (TastedPair& t : rows) t.brew_pair = pair_place[t.brew_pair];
  const auto by_pair = brew_pairs(rows, std::vector<std::int32_t>(static_cast<std::size_t>(next), 0), grid);
  if (!by_pair) return tl::unexpected<Error>(by_pair.error());
  const Weighted& d = by_pair->values;
  const auto lean = lean_to_first_cup(rows, grid, 0.05);
  if (!lean) return tl::unexpected<Error>(lean.error());

  // One cell an assessor and brew pair; a repeat serving and its twin are averaged by their halves.
  using Key = std::pair<std::int32_t, std::size_t>;
  std::map<Key, std::vector<TastedPair>> cells;
  for (const TastedPair& t : rows) {
    const auto at = std::ranges::lower_bound(out.assessors, t.assessor) - out.assessors.begin();
    cells[{t.brew_pair, static_cast<std::size_t>(at)}].push_back(t);
  }
  constexpr Wide limit = Wide{1} << 62;
  Wide unit = wide_lcm(grid, d.d_den, limit), halves_unit = 1;
  if (unit != 0) unit = wide_lcm(unit, lean->exact.den, limit);
  for (const auto& [key, members] : cells) {
    Wide halves = 0;
    for (const TastedPair& t : members) halves += t.halves;
    halves_unit = wide_lcm(halves_unit, halves, 1 << 20);
    if (halves_unit == 0) return fail(ErrorKind::too_large, "repeat servings");
  }
  // Exactly where it fits, and in doubles too, in case it does not.
  std::vector<Wide> exact;
  std::vector<long double> near;
  bool whole = unit != 0 && unit <= limit / halves_unit;
  for (const auto& [key, members] : cells) {
    const auto pair = static_cast<std::size_t>(key.first);
    // In a brew pair with one order d_g carries the lean already.
    const bool both = d.order[pair] == 0;
    Wide sum = 0, halves = 0;
    long double near_sum = 0;
    for (const TastedPair& t : members) {
      const int sign = !both ? 0 : t.b_first ? 1 : -1;
      halves += t.halves;
      near_sum +=
          t.halves * (static_cast<long double>(t.d) / static_cast<long double>(grid) -
                      static_cast<long double>(d.d[pair]) / static_cast<long double>(d.d_den) -
                      sign * static_cast<long double>(lean->exact.num) / static_cast<long double>(lean->exact.den));
      if (!whole) continue;
      for (const Wide part :
           {t.d * (unit / grid), d.d[pair] * (unit / d.d_den), sign * (lean->exact.num * (unit / lean->exact.den))})
        whole = whole && wide_abs(part) < limit;
      sum += t.halves *
             (t.d * (unit / grid) - d.d[pair] * (unit / d.d_den) - sign * (lean->exact.num * (unit / lean->exact.den)));
    }
    near.push_back(near_sum / static_cast<long double>(halves));
    if (whole) exact.push_back(sum * (halves_unit / halves));
  }
  out.cells.assign(out.assessors.size(), 0);
  for (const auto& [key, members] : cells) ++out.cells[key.second];
  Wide common_cells = 1;
  for (const std::int64_t n : out.cells) {
    common_cells = wide_lcm(common_cells, n, Wide{1} << 40);
    if (common_cells == 0) return fail(ErrorKind::too_large, "sheets");
  }
  for (const std::int64_t n : out.cells) out.factor.push_back(static_cast<std::int64_t>(common_cells / n));

  // The largest value for which A·(G·value)²·L keeps inside 128 bits and G·value inside 62.
  const long double most =
      std::min(
          std::sqrt(1e37L / (static_cast<long double>(out.assessors.size()) * static_cast<long double>(common_cells))),
          4e18L) /
      static_cast<long double>(next);
  std::vector<std::int64_t> values;
  if (whole) {
    Wide common = 0, largest = 0;
    for (const Wide v : exact) {
      common = wide_gcd(common, v);
      largest = std::max(largest, wide_abs(v));
    }
    common = std::max<Wide>(common, 1);
    const Wide steps = largest / common;
    whole = static_cast<long double>(steps) < most;
    if (whole) {
      for (const Wide v : exact) values.push_back(static_cast<std::int64_t>(v / common));
      out.den =
          static_cast<long double>(unit) * static_cast<long double>(halves_unit) / static_cast<long double>(common);
    }
  }
  if (!whole) {
    long double largest = 0;
    for (const long double v : near) largest = std::max(largest, std::abs(v));
    out.den = largest > 0 ? most / (2 * largest) : 1;
    for (const long double v : near) values.push_back(std::llround(v * out.den));
  }
  out.pairs.resize(static_cast<std::size_t>(next));
  std::size_t i = 0;
  for (const auto& [key, members] : cells)
    out.pairs[static_cast<std::size_t>(key.first)].push_back({key.second, values[i++]});
  return out;
}

}  // namespace likeleaf::stats
