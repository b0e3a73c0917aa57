#include "core/stats/binomial.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "core/stats/distributions.h"

namespace likeleaf::stats {

Result<double> sign_test(int positive, int negative) {
  if (positive < 0 || negative < 0 || positive > std::numeric_limits<int>::max() - negative)
    return fail(ErrorKind::bad_value, "counts", fmt::format("{}, {}", positive, negative), "0 or more");
  if (positive + negative == 0) return fail(ErrorKind::missing, "counts");
  if (positive == negative) return 1.0;
  return std::min(1.0, 2 * binomial_lower_tail(std::min(positive, negative), positive + negative, 0.5));
}

Result<ShareInterval> clopper_pearson(int x, int n, double alpha) {
  if (n < 1 || x < 0 || x > n)
    return fail(ErrorKind::bad_value, "counts", fmt::format("{} of {}", x, n), "0 to n of n");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  ShareInterval out;
  if (x > 0) out.lower = beta_quantile(alpha / 2, x, n - x + 1);
  if (x < n) out.upper = beta_upper_quantile(alpha / 2, x + 1, n - x);
  return out;
}

Result<std::optional<int>> minimum_number(int n, double chance, double alpha) {
  if (n < 1) return fail(ErrorKind::bad_value, "n", fmt::format("{}", n), "1 or more");
  if (!(chance > 0 && chance < 1)) return fail(ErrorKind::bad_value, "chance", {}, "between 0 and 1");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  // The tail falls as x grows: the first x that is small enough, by halving.
  int fails = 0, passes = n + 1;
  while (passes - fails > 1) {
    const int x = fails + (passes - fails) / 2;
    (binomial_upper_tail(x, n, chance) <= alpha ? passes : fails) = x;
  }
  return passes > n ? std::optional<int>{} : std::optional<int>{passes};
}

}  // namespace likeleaf::stats
