#include "core/stats/lean.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

#include "core/stats/t_engine.h"

namespace likeleaf::stats {

Result<Lean> lean_to_first_cup(std::span<const TastedPair> tasted, std::int64_t grid, double alpha) {
  if (tasted.empty()) return fail(ErrorKind::missing, "tasted pairs");
  if (grid < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", grid), "1 or more");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  struct Orders {
    std::vector<std::int64_t> d[2], w[2];
  };
  std::map<std::int32_t, Orders> by_pair;
  long double sum[2] = {0, 0}, weight[2] = {0, 0};
  for (const TastedPair& t : tasted) {
    if (t.halves != 1 && t.halves != 2)
      return fail(ErrorKind::bad_value, "weight", fmt::format("{}", t.halves), "1 or 2 halves");
    Orders& o = by_pair[t.brew_pair];
    o.d[t.b_first].push_back(t.d);
    o.w[t.b_first].push_back(t.halves);
    sum[t.b_first] += static_cast<long double>(t.d) * t.halves;
    weight[t.b_first] += t.halves;
  }
  Lean out;
  if (weight[0] > 0 && weight[1] > 0)
    out.pooled = static_cast<double>((sum[1] / weight[1] - sum[0] / weight[0]) / (2 * static_cast<long double>(grid)));
  std::vector<Rational> leans;
  for (const auto& [pair, o] : by_pair) {
    if (o.d[0].empty() || o.d[1].empty()) continue;
    const auto a = weighted_mean(o.d[0], o.w[0], grid), b = weighted_mean(o.d[1], o.w[1], grid);
    if (!a) return tl::unexpected<Error>(a.error());
    if (!b) return tl::unexpected<Error>(b.error());
    auto lean = subtract(*b, *a);
    if (lean) lean = multiply(*lean, Rational{1, 2});
    if (!lean) return tl::unexpected<Error>(lean.error());
    leans.push_back(*lean);
  }
  out.brew_pairs = leans.size();
  if (leans.empty()) return out;
  // The mean and its t interval are those of one lot with equal weights.
  const auto values = weighted(leans, std::vector<std::int32_t>(leans.size(), 0));
  if (!values) return tl::unexpected<Error>(values.error());
  const auto exact = estimate_exact(*values);
  if (!exact) return tl::unexpected<Error>(exact.error());
  const auto fit = t_fit(*values);
  if (!fit) return tl::unexpected<Error>(fit.error());
  out.exact = *exact;
  out.estimate = out.lower = out.upper = exact->value();
  if (fit->state == TState::fitted) {
    const TInterval interval = *t_interval(*fit, alpha);
    out.state = LeanState::fitted;
    out.se = fit->se;
    out.df = fit->df;
    out.p = fit->p;
    out.lower = interval.lower;
    out.upper = interval.upper;
  } else {
    out.state = leans.size() == 1 ? LeanState::one_brew_pair : LeanState::no_spread;
  }
  return out;
}

}  // namespace likeleaf::stats
