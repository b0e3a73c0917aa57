#pragma once
// 128-bit whole numbers for products of 64-bit ones; for the .cpp files of this folder.
#include <cstdint>
#include <limits>

namespace likeleaf::stats {

__extension__ typedef __int128 Wide;
__extension__ typedef unsigned __int128 UWide;

/// Sums and grids stay within this, so that they and their doubles fit 64 bits.
inline constexpr Wide most_sum = Wide{1} << 60;

inline Wide wide_abs(Wide x) {
  return x < 0 ? -x : x;
}

inline Wide wide_gcd(Wide a, Wide b) {
  a = wide_abs(a);
  b = wide_abs(b);
  while (b != 0) {
    const Wide r = a % b;
    a = b;
    b = r;
  }
  return a;
}

/// Strictly inside 64 bits, so that negation is always possible.
inline bool fits(Wide x) {
  return x <= std::numeric_limits<std::int64_t>::max() && x >= -std::numeric_limits<std::int64_t>::max();
}

/// a·b/gcd, or 0 when it would pass `limit`; a, b > 0.
inline Wide wide_lcm(Wide a, Wide b, Wide limit) {
  const Wide step = b / wide_gcd(a, b);
  return step == 0 || a > limit / step ? 0 : a * step;
}

}  // namespace likeleaf::stats
