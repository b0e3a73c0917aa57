#include "core/stats/signed_rank.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <vector>

namespace likeleaf::stats {

Result<std::optional<SignedRank>> signed_rank(std::span<const std::int64_t> values, Zeros zeros, std::uint64_t seed) {
  if (values.empty()) return fail(ErrorKind::missing, "values");
  std::vector<std::int64_t> kept;
  for (const std::int64_t v : values) {
    if (v == std::numeric_limits<std::int64_t>::min()) return fail(ErrorKind::too_large, "values");
    if (v != 0 || zeros == Zeros::pratt) kept.push_back(v);
  }
  std::ranges::sort(kept, {}, [](std::int64_t v) { return std::abs(v); });
  // Twice the midrank of a tie group at places first + 1 … last (from 1) is first + last + 1.
  std::vector<std::int64_t> ranks;
  SignedRank out;
  for (std::size_t first = 0, last = 0; first < kept.size(); first = last) {
    while (last < kept.size() && std::abs(kept[last]) == std::abs(kept[first])) ++last;
    const auto rank = static_cast<std::int64_t>(first + last + 1);
    for (std::size_t i = first; i < last; ++i) {
      if (kept[i] == 0) continue;
      ranks.push_back(kept[i] > 0 ? rank : -rank);
      if (kept[i] > 0) out.v_plus2 += rank;
    }
  }
  if (ranks.empty()) return std::optional<SignedRank>{};
  const auto flipped = sign_flip(ranks, seed);
  if (!flipped) return tl::unexpected<Error>(flipped.error());
  out.n = ranks.size();
  out.method = flipped->method;
  out.two_sided = flipped->two_sided;
  out.greater = flipped->greater;
  out.less = flipped->less;
  return std::optional<SignedRank>(out);
}

}  // namespace likeleaf::stats
