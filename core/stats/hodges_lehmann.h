#pragma once
// Median of the Walsh averages (Hodges and Lehmann 1963, Ann. Math. Statist. 34). A check in the annex.
#include <cstdint>
#include <optional>
#include <span>

#include "core/base/result.h"

namespace likeleaf::stats {

struct HodgesLehmannInterval {
  double lower = 0, upper = 0;
  double achieved = 0;  ///< nominal confidence of the untied signed-rank distribution, at least 1 − alpha
};
struct HodgesLehmann {
  double estimate = 0;                            ///< median of the n(n + 1)/2 Walsh averages, zeros left in
  std::optional<HodgesLehmannInterval> interval;  ///< nothing when n is too small for the level
};

/// values stand for value/den. Errors: missing when empty, bad_value for den < 1 or alpha outside (0, 1), too_large
/// above 4 000 values or for |value| > 2⁶⁰.
Result<HodgesLehmann> hodges_lehmann(std::span<const std::int64_t> values, std::int64_t den, double alpha);

}  // namespace likeleaf::stats
