#include "core/stats/equivalence.h"

#include <algorithm>

#include "core/stats/distributions.h"

namespace likeleaf::stats {

Result<Equivalence> flip_equivalence(const Weighted& values, const Rational& margin, std::uint64_t seed,
                                     const std::stop_token& stop, const Progress& progress) {
  if (margin.num <= 0) return fail(ErrorKind::bad_value, "margin", margin.text(), "above 0");
  const auto up = shifted(values, margin), down = shifted(values, negate(margin));
  if (!up) return tl::unexpected<Error>(up.error());
  if (!down) return tl::unexpected<Error>(down.error());
  const auto part = [&](double from) {
    return progress ? Progress([&progress, from](double share) { progress(from + share / 2); }) : Progress();
  };
  const auto lower = sign_flip(*up, seed, stop, part(0.0));
  if (!lower) return tl::unexpected<Error>(lower.error());
  const auto upper = sign_flip(*down, seed, stop, part(0.5));
  if (!upper) return tl::unexpected<Error>(upper.error());
  Equivalence out;
  out.p_lower = lower->greater.p;
  out.p_upper = upper->less.p;
  out.p = std::max(out.p_lower, out.p_upper);
  out.p_lower_exact = lower->greater.exact;
  out.p_upper_exact = upper->less.exact;
  // Equal denominators up to reduction, and doubles of them are in the order of the fractions.
  if (out.p_lower_exact && out.p_upper_exact)
    out.p_exact = out.p_lower >= out.p_upper ? out.p_lower_exact : out.p_upper_exact;
  return out;
}

std::optional<Equivalence> t_equivalence(const TFit& fit, double margin) {
  if (fit.state != TState::fitted || !(margin > 0)) return std::nullopt;
  Equivalence out;
  out.p_lower = student_t_sf((fit.estimate + margin) / fit.se, fit.df);
  out.p_upper = student_t_cdf((fit.estimate - margin) / fit.se, fit.df);
  out.p = std::max(out.p_lower, out.p_upper);
  return out;
}

}  // namespace likeleaf::stats
