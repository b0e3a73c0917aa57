#pragma once
// Wilcoxon's signed-rank test, exact over sign patterns given the midranks. A check in the annex; decides nothing.
#include <cstdint>
#include <optional>
#include <span>

#include "core/stats/sign_flip.h"

namespace likeleaf::stats {

enum class Zeros {
  pratt,   ///< zeros are ranked, then left out of the sum (Pratt 1959, JASA 54)
  dropped  ///< zeros are removed before ranking (Wilcoxon 1945)
};

struct SignedRank {
  std::size_t n = 0;         ///< values that carry a sign
  std::int64_t v_plus2 = 0;  ///< twice the sum of the positive midranks: a whole number
  FlipMethod method = FlipMethod::exact_counts;
  Share two_sided, greater, less;  ///< greater: the values tend to be positive
};

/// Nothing when all values are zero: there is no test. Errors: missing when empty, those of sign_flip.
Result<std::optional<SignedRank>> signed_rank(std::span<const std::int64_t> values, Zeros zeros, std::uint64_t seed);

}  // namespace likeleaf::stats
