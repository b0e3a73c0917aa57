#include "core/stats/rational.h"

#include <fmt/format.h>

#include <numeric>

#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

Result<Rational> reduced(Wide num, Wide den) {
  if (den == 0) return fail(ErrorKind::bad_value, "fraction", "0", "a denominator other than 0");
  if (den < 0) {
    num = -num;
    den = -den;
  }
  const Wide g = wide_gcd(num, den);
  if (g > 1) {
    num /= g;
    den /= g;
  }
  if (!fits(num) || !fits(den)) return fail(ErrorKind::too_large, "fraction", {}, "numbers of 64 bits");
  return Rational{static_cast<std::int64_t>(num), static_cast<std::int64_t>(den)};
}

}  // namespace

double Rational::value() const {
  return static_cast<double>(static_cast<long double>(num) / static_cast<long double>(den));
}

std::string Rational::text() const {
  return den == 1 ? fmt::format("{}", num) : fmt::format("{}/{}", num, den);
}

std::strong_ordering compare(const Rational& a, const Rational& b) {
  return static_cast<Wide>(a.num) * b.den <=> static_cast<Wide>(b.num) * a.den;
}

Result<Rational> rational(std::int64_t num, std::int64_t den) {
  return reduced(num, den);
}

Result<Rational> add(const Rational& a, const Rational& b) {
  // Over the least common denominator: the products stay below 2^126 each, their sum below 2^127.
  const Wide g = std::gcd(a.den, b.den);
  return reduced(static_cast<Wide>(a.num) * (b.den / g) + static_cast<Wide>(b.num) * (a.den / g),
                 static_cast<Wide>(a.den) * (b.den / g));
}

Result<Rational> subtract(const Rational& a, const Rational& b) {
  return add(a, negate(b));
}

Result<Rational> multiply(const Rational& a, const Rational& b) {
  return reduced(static_cast<Wide>(a.num) * b.num, static_cast<Wide>(a.den) * b.den);
}

Rational negate(const Rational& a) {
  return {-a.num, a.den};
}

Result<Rational> weighted_mean(std::span<const std::int64_t> values, std::span<const std::int64_t> weights,
                               std::int64_t den) {
  if (values.empty()) return fail(ErrorKind::missing, "values");
  if (values.size() != weights.size()) return fail(ErrorKind::bad_value, "weights", {}, "one for each value");
  if (den < 1) return fail(ErrorKind::bad_value, "grid", fmt::format("{}", den), "1 or more");
  constexpr Wide most = Wide{1} << 124;
  Wide sum = 0, total = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (weights[i] < 1) return fail(ErrorKind::bad_value, "weight", fmt::format("{}", weights[i]), "1 or more");
    sum += static_cast<Wide>(values[i]) * weights[i];
    total += weights[i];
    if (wide_abs(sum) > most) return fail(ErrorKind::too_large, "values");
  }
  if (total > most / den) return fail(ErrorKind::too_large, "weights");
  return reduced(sum, total * den);
}

double Fraction::value() const {
  return static_cast<double>(static_cast<long double>(num) / static_cast<long double>(den));
}

std::string Fraction::text() const {
  return fmt::format("{}/{}", num, den);
}

Fraction fraction(std::uint64_t num, std::uint64_t den) {
  const std::uint64_t g = std::gcd(num, den);
  return g > 1 ? Fraction{num / g, den / g} : Fraction{num, den};
}

}  // namespace likeleaf::stats
