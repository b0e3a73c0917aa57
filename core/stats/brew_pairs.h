#pragma once
// From tasted pairs to one whole number per brew pair (methods.md section 1). The brew is the experimental unit: all
// cups poured from it share its luck, so everything that decides works on one value a brew pair.
#include <cstdint>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/stats/rational.h"

namespace likeleaf::stats {

/// One tasted pair: D = score(B) − score(A) of one assessor, in whole grid units.
struct TastedPair {
  std::int32_t brew_pair = 0;  ///< index of the brew pair, 0 …
  std::int32_t assessor = 0;   ///< index of the assessor, 0 …
  std::int64_t d = 0;          ///< in 1/grid (half steps: grid 2; logs: grid 10⁹)
  bool b_first = false;        ///< B was sipped first
  std::int32_t halves = 2;     ///< weight in halves: 2, or 1 for a repeat serving and for its twin
};

/// One value d_g a brew pair, with weights that give every lot the same say. Everything is a whole number:
/// d_g = d[g]/d_den, weight of g = w[g]/w_den, Σ w = w_den. All vectors have one entry a brew pair.
struct Weighted {
  std::vector<std::int64_t> d;
  std::int64_t d_den = 1;
  std::vector<std::int64_t> w;
  std::int64_t w_den = 1;
  std::vector<std::int32_t> lot;  ///< 0 … lots − 1
  std::int32_t lots = 1;
  /// Twice x_g: 0 where both orders occur, +1 where B was always first, −1 where A was.
  std::vector<std::int32_t> order;
  [[nodiscard]] std::size_t size() const { return d.size(); }
  [[nodiscard]] double value(std::size_t g) const { return static_cast<double>(d[g]) / static_cast<double>(d_den); }
};

/// Puts fractions on one grid and gives them the weights 1/(lots · brew pairs of the lot). `lot` numbers the lots from
/// 0 without gaps. `order` as in Weighted; empty means both orders everywhere. Guarantees, so that nothing below it can
/// overflow: Σ w·|d| ≤ 2⁶⁰. Errors: missing when empty, bad_value for unequal lengths or a gap in the lots, too_large
/// when the common grid leaves that range.
Result<Weighted> weighted(std::span<const Rational> d, std::span<const std::int32_t> lot,
                          std::span<const std::int32_t> order = {});
/// Every value its own brew pair, one lot, equal weights. Errors as above.
Result<Weighted> plain(std::span<const std::int64_t> d, std::int64_t den);
/// All d_g + by. Errors: too_large.
Result<Weighted> shifted(const Weighted& values, const Rational& by);
/// All d_g with the other sign (A and B swapped).
Weighted mirrored(const Weighted& values);

/// Σ w·d, exact. Errors: too_large when the reduced fraction does not fit 64 bits (the double always exists).
Result<Rational> estimate_exact(const Weighted& values);
double estimate(const Weighted& values);
/// Every d_g is the same: with a mean that is not zero this is "every brew pair gave the same answer".
bool no_spread(const Weighted& values);

struct BrewPairs {
  Weighted values;
  std::vector<std::int32_t> brew_pair;  ///< values' place g → index given by the caller (those without a score dropped)
  std::vector<std::int32_t> lot;        ///< values' lot number → the caller's lot index
  bool both_orders = false;             ///< both orders occur in every brew pair
  std::size_t tasted_pairs = 0;
};

/// d_g of every brew pair that has a tasted pair: where both orders occur the average of the two order means, so that a
/// lean to the first cup cancels, else the mean. lot_of[b] is the lot of brew pair b (any non-negative index). Errors:
/// missing when there is no tasted pair, bad_value for an index outside lot_of, a grid below 1 or halves not 1 or 2,
/// too_large as above.
Result<BrewPairs> brew_pairs(std::span<const TastedPair> tasted, std::span<const std::int32_t> lot_of,
                             std::int64_t grid);

}  // namespace likeleaf::stats
