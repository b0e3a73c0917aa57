#include "core/stats/describe.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/stats/wide.h"

namespace likeleaf::stats {

Result<Description> describe(std::span<const double> values) {
  if (values.empty()) return fail(ErrorKind::missing, "values");
  for (const double v : values)
    if (!std::isfinite(v)) return fail(ErrorKind::bad_value, "values", fmt::format("{}", v), "finite numbers");
  std::vector<double> x(values.begin(), values.end());
  std::ranges::sort(x);
  Description out;
  out.n = x.size();
  const auto n = static_cast<double>(out.n);
  double sum = 0;
  for (const double v : x) sum += v / n;
  out.mean = sum;
  if (out.n > 1) {
    double squares = 0;
    for (const double v : x) squares += (v - out.mean) * (v - out.mean);
    out.sd = x.front() == x.back() ? 0.0 : std::sqrt(squares / (n - 1));
  }
  const auto quartile = [&](std::size_t k) {
    const std::size_t at = (out.n - 1) * k;
    const std::size_t i = at / 4;
    const double share = static_cast<double>(at % 4) / 4;
    return share == 0 ? x[i] : x[i] + share * (x[i + 1] - x[i]);
  };
  out.lowest = x.front();
  out.lower_quartile = quartile(1);
  out.median = quartile(2);
  out.upper_quartile = quartile(3);
  out.highest = x.back();
  return out;
}

Result<Description> describe(std::span<const std::int64_t> values, std::int64_t den) {
  if (values.empty()) return fail(ErrorKind::missing, "values");
  if (den < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", den), "1 or more");
  std::vector<std::int64_t> x(values.begin(), values.end());
  std::ranges::sort(x);
  Description out;
  out.n = x.size();
  const auto n = static_cast<Wide>(out.n);
  // Deviations from the lowest value: small numbers, whose squares and sums stay exact.
  const Wide range = static_cast<Wide>(x.back()) - x.front();
  if (range > 0 && range > (Wide{1} << 62) / n) return fail(ErrorKind::too_large, "values");
  Wide sum = 0, squares = 0;
  for (const std::int64_t v : x) {
    const Wide off = static_cast<Wide>(v) - x.front();
    sum += off;
    squares += off * off;
  }
  const auto unit = static_cast<long double>(den);
  out.mean = static_cast<double>(static_cast<long double>(sum + n * x.front()) / (static_cast<long double>(n) * unit));
  if (out.n > 1)
    out.sd = static_cast<double>(
        std::sqrt(static_cast<long double>(n * squares - sum * sum) / static_cast<long double>(n * (n - 1))) / unit);
  const auto quartile = [&](std::size_t k) {
    const std::size_t at = (out.n - 1) * k;
    const std::size_t i = at / 4;
    const auto part = static_cast<Wide>(at % 4);
    const Wide four = Wide{4} * x[i] + (part == 0 ? 0 : part * (static_cast<Wide>(x[i + 1]) - x[i]));
    return static_cast<double>(static_cast<long double>(four) / (4 * unit));
  };
  out.lowest = static_cast<double>(x.front()) / static_cast<double>(den);
  out.lower_quartile = quartile(1);
  out.median = quartile(2);
  out.upper_quartile = quartile(3);
  out.highest = static_cast<double>(x.back()) / static_cast<double>(den);
  return out;
}

}  // namespace likeleaf::stats
