#include "core/stats/next_pairs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

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

/// Nodes and weights of Gauss and Legendre on (−1, 1).
struct Rule {
  static constexpr int points = 32;
  std::array<double, points> node{}, weight{};
  Rule() {
    for (int i = 0; i < points; ++i) {
      // Newton's method on the Legendre polynomial, from the usual cosine.
      long double x = std::cos(std::numbers::pi_v<long double> * (i + 0.75L) / (points + 0.5L)), slope = 1;
      for (int step = 0; step < 8; ++step) {
        long double p = 1, before = 0;
        for (int k = 1; k <= points; ++k) {
          const long double next = ((2 * k - 1) * x * p - (k - 1) * before) / k;
          before = p;
          p = next;
        }
        slope = points * (x * p - before) / (x * x - 1);
        x -= p / slope;
      }
      const auto at = static_cast<std::size_t>(i);
      node[at] = static_cast<double>(x);
      weight[at] = static_cast<double>(2 / ((1 - x * x) * slope * slope));
    }
  }
};

/// ∫ f(u) · density of s/σ at u, u from 0 to `top`, where the density is not negligible: twelve of its SDs to either
/// side. f is made of normal tails in q·u, so pieces of at most four of the SDs and at most 4/q keep 32 points exact to
/// the last digits (q is large at two or three brew pairs only).
template <class Function>
double over_sd(double df, double q, double top, Function f) {
  static const Rule rule;
  const double reach = 12 / std::sqrt(2 * df);
  const double from = std::max(0.0, 1 - reach), to = std::min(top, 1 + reach);
  if (to <= from) return 0;
  const int pieces = std::clamp(static_cast<int>((to - from) * std::abs(q) / 4), 6, 20'000);
  const double half = (to - from) / (2 * pieces);
  double sum = 0;
  for (int piece = 0; piece < pieces; ++piece) {
    const double middle = from + (2 * piece + 1) * half;
    for (std::size_t i = 0; i < Rule::points; ++i) {
      const double u = middle + half * rule.node[i];
      sum += rule.weight[i] * f(u) * sd_ratio_density(u, df);
    }
  }
  return sum * half;
}

double difference_power_of(int n, double delta, double sd, double alpha) {
  const double df = n - 1, nc = std::abs(delta) / sd * std::sqrt(n);
  const double q = student_t_upper_quantile(alpha / 2, df);
  // Far out the noncentral t leaves the range in which its series is good, and the power is 1 to all digits anyway once
  // nc is far above q; integration over the SD answers the rest.
  if (nc > 35)
    return std::min(1.0,
                    over_sd(df, q, 1e300, [&](double u) { return normal_sf(q * u - nc) + normal_cdf(-q * u - nc); }));
  return std::clamp(noncentral_t_sf(q, df, nc) + noncentral_t_cdf(-q, df, nc), 0.0, 1.0);
}

double equivalence_power_of(int n, double delta, double sd, double margin, double alpha) {
  const double df = n - 1, root = std::sqrt(n) / sd;
  const double q = student_t_upper_quantile(alpha, df);
  // Both tests pass when |mean| ≤ margin − q·s/√n, which is possible only for s/σ up to `top`.
  const double power = over_sd(df, q, q > 0 ? margin * root / q : 1e300, [&](double u) {
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
