#include "core/stats/t_engine.h"

#include <algorithm>
#include <cmath>

#include "core/stats/distributions.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {

Result<TFit> t_fit(const Weighted& values) {
  const std::size_t n = values.size();
  if (n == 0) return fail(ErrorKind::missing, "brew pairs");
  TFit fit;
  fit.groups = n;
  fit.estimate = estimate(values);
  const bool both = std::ranges::all_of(values.order, [](std::int32_t o) { return o == 0; });
  fit.model = both ? TModel::mean : TModel::with_lean;
  if (!both && std::ranges::all_of(values.order, [&](std::int32_t o) { return o == values.order.front(); })) {
    fit.state = TState::describe_only;
    return fit;
  }
  if (n < (both ? std::size_t{2} : std::size_t{4})) {
    fit.state = TState::too_few;
    return fit;
  }

  // Everything up to the residuals in whole numbers, so that "no spread" is a fact and not a matter of rounding. With
  // o = 2x, W = Σw, X = Σ w·o, Q = Σ w·o²:  c = w(Q − X·o)/(QW − X²),  slope/2 = Σ w(oW − X)d/(QW − X²).
  Wide W = 0, X = 0, Q = 0;
  for (std::size_t g = 0; g < n; ++g) {
    W += values.w[g];
    X += static_cast<Wide>(values.w[g]) * values.order[g];
    Q += static_cast<Wide>(values.w[g]) * values.order[g] * values.order[g];
  }
  const Wide det = both ? W : Q * W - X * X;
  Wide level = 0, half_slope = 0;
  std::vector<Wide> c(n);
  for (std::size_t g = 0; g < n; ++g) {
    const Wide w = values.w[g], o = values.order[g];
    c[g] = both ? w : w * (Q - X * o);
    level += c[g] * values.d[g];
    if (!both) half_slope += w * (o * W - X) * values.d[g];
  }
  const auto unit = static_cast<long double>(det) * static_cast<long double>(values.d_den);
  fit.estimate = static_cast<double>(static_cast<long double>(level) / unit);
  fit.slope = static_cast<double>(2 * static_cast<long double>(half_slope) / unit);
  long double squares = 0;
  for (std::size_t g = 0; g < n; ++g) {
    const Wide residual = values.d[g] * det - level - half_slope * values.order[g];
    const long double part =
        (static_cast<long double>(c[g]) / static_cast<long double>(det)) * (static_cast<long double>(residual) / unit);
    squares += part * part;
  }
  if (squares == 0) {
    fit.state = TState::no_spread;
    return fit;
  }
  fit.df = static_cast<int>(n) - (both ? 1 : 2);
  fit.se = static_cast<double>(std::sqrt(squares * static_cast<long double>(n) / static_cast<long double>(fit.df)));
  fit.t = fit.estimate / fit.se;
  fit.p = std::min(1.0, 2 * student_t_sf(std::abs(fit.t), fit.df));
  fit.state = TState::fitted;
  return fit;
}

std::optional<TInterval> t_interval(const TFit& fit, double alpha) {
  if (fit.state != TState::fitted || !(alpha > 0 && alpha < 1)) return std::nullopt;
  const double reach = student_t_upper_quantile(alpha / 2, fit.df) * fit.se;
  return TInterval{fit.estimate - reach, fit.estimate + reach, alpha};
}

}  // namespace likeleaf::stats
