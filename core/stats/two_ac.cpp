#include "core/stats/two_ac.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/stats/distributions.h"

namespace likeleaf::stats {

Result<TwoAc> two_ac(int less, int cannot_tell, int more) {
  if (less < 0 || cannot_tell < 0 || more < 0)
    return fail(ErrorKind::bad_value, "counts", fmt::format("{}, {}, {}", less, cannot_tell, more), "0 or more");
  const double lo = less, mid = cannot_tell, hi = more, n = lo + mid + hi;
  if (n == 0) return fail(ErrorKind::missing, "counts");
  TwoAc out;
  out.less = less;
  out.cannot_tell = cannot_tell;
  out.more = more;
  out.share_less = lo / n;
  out.share_cannot_tell = mid / n;
  out.share_more = hi / n;

  // Two parameters fit three shares exactly, and with d′ = 0 the best τ fits the share of "can't tell" exactly and
  // halves the rest. So the likelihood ratio needs neither τ nor d′, and is finite when a count is 0.
  const double told = lo + hi;
  const auto part = [&](double count) { return count > 0 ? count * std::log(2 * count / told) : 0.0; };
  out.lr = less == more ? 0.0 : std::max(0.0, 2 * (part(lo) + part(hi)));
  out.p = out.lr == 0 ? 1.0 : chi2_sf(out.lr, 1);

  if (told == 0) {
    out.state = TwoAcState::nobody_could_tell;
  } else if (less == 0) {
    out.state = TwoAcState::nobody_less;
  } else if (more == 0) {
    out.state = TwoAcState::nobody_more;
  } else {
    // Φ⁻¹ of 1 − share, from the share itself: no digits are lost and less = more gives exactly 0.
    const double z1 = normal_quantile(lo / n), z2 = -normal_quantile(hi / n);
    out.state = TwoAcState::fitted;
    out.d_prime = less == more ? 0.0 : -(z1 + z2) / std::numbers::sqrt2;
    out.tau = cannot_tell == 0 ? 0.0 : (z2 - z1) / std::numbers::sqrt2;
  }
  return out;
}

}  // namespace likeleaf::stats
