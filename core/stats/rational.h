#pragma once
// Exact fractions in 64 bits. Means of half steps, averages of two order means and weights 1/(lots × brew pairs) are
// fractions; kept as such, ties stay ties and an end of an interval that lies on the margin lies exactly on it.
#include <compare>
#include <cstdint>
#include <optional>
#include <span>
#include <string>

#include "core/base/result.h"

namespace likeleaf::stats {

/// num/den in lowest terms with den > 0. Build it with rational(); the members are for reading.
struct Rational {
  std::int64_t num = 0;
  std::int64_t den = 1;
  [[nodiscard]] double value() const;                ///< the nearest double (to one rounding)
  [[nodiscard]] std::string text() const;            ///< "5/8"; "2" when whole; ASCII minus
  bool operator==(const Rational&) const = default;  ///< lowest terms make this exact
};

/// Exact comparison (cross products in 128 bits).
std::strong_ordering compare(const Rational& a, const Rational& b);
inline std::strong_ordering operator<=>(const Rational& a, const Rational& b) {
  return compare(a, b);
}

/// num/den reduced; den may be negative. Errors: bad_value when den is 0, too_large when it does not fit 64 bits.
Result<Rational> rational(std::int64_t num, std::int64_t den);
/// a + b and a − b and a·b, exact. Errors: too_large when the reduced result does not fit 64 bits.
Result<Rational> add(const Rational& a, const Rational& b);
Result<Rational> subtract(const Rational& a, const Rational& b);
Result<Rational> multiply(const Rational& a, const Rational& b);
/// −a (the num of a Rational is never the lowest 64-bit number).
Rational negate(const Rational& a);

/// Σ weights·values / (Σ weights · den), exact. Weights must be positive. Errors: missing when empty, bad_value for a
/// weight below 1 or unequal lengths, too_large when it does not fit.
Result<Rational> weighted_mean(std::span<const std::int64_t> values, std::span<const std::int64_t> weights,
                               std::int64_t den);

/// A share of a whole number of equally likely cases, in lowest terms.
struct Fraction {
  std::uint64_t num = 0;
  std::uint64_t den = 1;
  [[nodiscard]] double value() const;
  [[nodiscard]] std::string text() const;  ///< "863/16384"; "1/1" when all
  bool operator==(const Fraction&) const = default;
};
/// num/den reduced; den > 0.
Fraction fraction(std::uint64_t num, std::uint64_t den);

}  // namespace likeleaf::stats
