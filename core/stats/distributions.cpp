#include "core/stats/distributions.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/non_central_t.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <limits>

namespace likeleaf::stats {
namespace {

namespace bm = boost::math;
const bm::normal standard;

}  // namespace

double normal_cdf(double z) {
  return std::isinf(z) ? (z > 0 ? 1.0 : 0.0) : bm::cdf(standard, z);
}
double normal_sf(double z) {
  return normal_cdf(-z);
}
double normal_quantile(double p) {
  return bm::quantile(standard, p);
}

double student_t_cdf(double t, double df) {
  return student_t_sf(-t, df);
}

double student_t_sf(double t, double df) {
  const bm::students_t law(df);
  if (std::isinf(t)) return t > 0 ? 0.0 : 1.0;
  return bm::cdf(bm::complement(law, t));
}

double student_t_upper_quantile(double q, double df) {
  return bm::quantile(bm::complement(bm::students_t(df), q));
}

double f_sf(double f, double df1, double df2) {
  const bm::fisher_f law(df1, df2);
  if (std::isinf(f) && f > 0) return 0.0;
  return bm::cdf(bm::complement(law, f));
}

double chi2_sf(double x, double df) {
  const bm::chi_squared law(df);
  if (std::isinf(x) && x > 0) return 0.0;
  return bm::cdf(bm::complement(law, x));
}

double binomial_upper_tail(int x, int n, double p) {
  const bm::binomial law(n, p);
  if (x <= 0) return 1.0;
  if (x > n) return 0.0;
  return bm::cdf(bm::complement(law, x - 1));
}

double binomial_lower_tail(int x, int n, double p) {
  const bm::binomial law(n, p);
  if (x < 0) return 0.0;
  if (x >= n) return 1.0;
  return bm::cdf(law, x);
}

double beta_quantile(double p, double a, double b) {
  return bm::quantile(bm::beta_distribution<>(a, b), p);
}

double beta_upper_quantile(double q, double a, double b) {
  return bm::quantile(bm::complement(bm::beta_distribution<>(a, b), q));
}

double noncentral_t_cdf(double t, double df, double nc) {
  return bm::cdf(bm::non_central_t(df, nc), t);
}

double noncentral_t_sf(double t, double df, double nc) {
  return bm::cdf(bm::complement(bm::non_central_t(df, nc), t));
}

double sd_ratio_density(double u, double df) {
  if (u < 0) return 0.0;
  // 2 (df/2)^(df/2) u^(df−1) exp(−df u²/2) / Γ(df/2), in logs because both ends overflow for large df.
  if (u == 0) return df > 1 ? 0.0 : std::sqrt(2.0 / 3.14159265358979323846);
  const double half = df / 2;
  return std::exp(std::log(2.0) + half * std::log(half) + (df - 1) * std::log(u) - half * u * u - bm::lgamma(half));
}

}  // namespace likeleaf::stats
