#include "core/stats/next_pairs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/stats/distributions.h"

namespace likeleaf::stats {
namespace {

std::optional<Error> bad(int n, double delta, double sd, double alpha) {
  if (n < 2) return Error{ErrorKind::bad_value, "brew pairs", fmt::format("{}", n), "2 or more", {}};
  if (!std::isfinite(delta)) return Error{ErrorKind::bad_value, "difference", {}, "a finite number", {}};
  if (!(sd > 0 && std::isfinite(sd))) return Error{ErrorKind::bad_value, "SD", {}, "above 0", {}};
  if (!(alpha > 0 && alpha < 1)) return Error{ErrorKind::bad_value, "alpha", {}, "between 0 and 1", {}};
  return std::nullopt;
}

/// ∫ f(u) · density of s/σ at u, u from 0 to `top`, by Simpson's rule on the range where the density is not negligible.
template <class Function>
double over_sd(double df, double top, Function f) {
  const double reach = 12 / std::sqrt(2 * df);
  const double from = std::max(0.0, 1 - reach), to = std::min(top, 1 + reach);
  if (to <= from) return 0;
  constexpr int steps = 4000;
  const double h = (to - from) / steps;
  double sum = 0;
  for (int i = 0; i <= steps; ++i) {
    const double u = from + i * h;
    sum += (i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2) * f(u) * sd_ratio_density(u, df);
  }
  return sum * h / 3;
}

double difference_power_of(int n, double delta, double sd, double alpha) {
  const double df = n - 1, nc = std::abs(delta) / sd * std::sqrt(n);
  const double q = student_t_upper_quantile(alpha / 2, df);
  // Far out the noncentral t leaves the range in which its series is good, and the power is 1 to all digits anyway once
  // nc is far above q; integration over the SD answers the rest.
  if (nc > 35)
    return std::min(1.0, over_sd(df, 1e300, [&](double u) { return normal_sf(q * u - nc) + normal_cdf(-q * u - nc); }));
  return std::clamp(noncentral_t_sf(q, df, nc) + noncentral_t_cdf(-q, df, nc), 0.0, 1.0);
}

double equivalence_power_of(int n, double delta, double sd, double margin, double alpha) {
  const double df = n - 1, root = std::sqrt(n) / sd;
  const double q = student_t_upper_quantile(alpha, df);
  // Both tests pass when |mean| ≤ margin − q·s/√n, which is possible only for s/σ up to `top`.
  const double power = over_sd(df, q > 0 ? margin * root / q : 1e300, [&](double u) {
    return normal_cdf((margin - delta) * root - q * u) - normal_cdf((-margin - delta) * root + q * u);
  });
  return std::clamp(power, 0.0, 1.0);
}

/// Smallest n from 3 to most_next_pairs with enough power, which rises with n.
template <class Power>
std::optional<int> first_enough(double wanted, Power power) {
  if (power(3) >= wanted) return 3;
  int low = 3, high = 6;
  while (high < most_next_pairs && power(high) < wanted) {
    low = high;
    high *= 2;
  }
  high = std::min(high, most_next_pairs);
  if (power(high) < wanted) return std::nullopt;
  while (high - low > 1) {
    const int n = low + (high - low) / 2;
    (power(n) >= wanted ? high : low) = n;
  }
  return high;
}

std::optional<Error> bad_power(double power) {
  if (power > 0 && power < 1) return std::nullopt;
  return Error{ErrorKind::bad_value, "power", {}, "between 0 and 1", {}};
}

}  // namespace

Result<double> difference_power(int n, double delta, double sd, double alpha) {
  if (auto e = bad(n, delta, sd, alpha)) return tl::unexpected<Error>(*e);
  return difference_power_of(n, delta, sd, alpha);
}

Result<double> equivalence_power(int n, double delta, double sd, double margin, double alpha) {
  if (auto e = bad(n, delta, sd, alpha)) return tl::unexpected<Error>(*e);
  if (!(margin > 0 && std::isfinite(margin))) return fail(ErrorKind::bad_value, "margin", {}, "above 0");
  return equivalence_power_of(n, delta, sd, margin, alpha);
}

Result<std::optional<int>> pairs_for_difference(double delta, double sd, double alpha, double power) {
  if (auto e = bad(3, delta, sd, alpha)) return tl::unexpected<Error>(*e);
  if (auto e = bad_power(power)) return tl::unexpected<Error>(*e);
  if (delta == 0) return std::optional<int>{};
  return first_enough(power, [&](int n) { return difference_power_of(n, delta, sd, alpha); });
}

Result<std::optional<int>> pairs_for_equivalence(double delta, double sd, double margin, double alpha, double power) {
  if (auto e = bad(3, delta, sd, alpha)) return tl::unexpected<Error>(*e);
  if (auto e = bad_power(power)) return tl::unexpected<Error>(*e);
  if (!(margin > 0 && std::isfinite(margin))) return fail(ErrorKind::bad_value, "margin", {}, "above 0");
  if (std::abs(delta) >= margin) return std::optional<int>{};
  return first_enough(power, [&](int n) { return equivalence_power_of(n, delta, sd, margin, alpha); });
}

}  // namespace likeleaf::stats
