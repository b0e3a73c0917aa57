#pragma once
// The t engine of the verdict (methods.md section 2).
#include <optional>

#include "core/base/result.h"
#include "core/stats/brew_pairs.h"

namespace likeleaf::stats {

enum class TState {
  fitted,         ///< se, df, t and p hold
  no_spread,      ///< no residual at all: no t test, look at the sheets
  describe_only,  ///< every brew pair had the same single order: effect and lean to the first cup cannot be told apart
  too_few         ///< G < 2, or G < 4 where an order is lacking
};

enum class TModel {
  mean,      ///< both orders in every brew pair: weighted mean, G − 1 df
  with_lean  ///< some brew pair lacks an order: weighted least squares on x_g, G − 2 df
};

/// With state other than fitted only estimate (and slope) mean anything: se 0, df 0, t 0, p 1.
struct TFit {
  TState state = TState::too_few;
  TModel model = TModel::mean;
  std::size_t groups = 0;
  double estimate = 0;
  double slope = 0;  ///< with_lean: mean D with B first minus with A first, i.e. twice the lean; else 0
  double se = 0;
  int df = 0;
  double t = 0;
  double p = 1;  ///< two-sided, of estimate = 0
};

/// mean: est = Σ w·d, variance Σ w²(d − est)² · G/(G − 1). with_lean: weighted least squares of d_g on x_g (0 or ±½)
/// with weights w_g (Σ w = 1). With x̄ = Σ w·x and S = Σ w(x − x̄)² the intercept is linear in the data,
///   est = Σ c·d,  c = w · (1 − x̄ (x − x̄)/S),
/// and its variance is Σ c² r² · G/(G − 2) with the fitted residuals r: the same kind of estimate (each brew pair's own
/// square, corrected for the parameters fitted) as in the first case. Errors: missing when there is no brew pair.
Result<TFit> t_fit(const Weighted& values);

struct TInterval {
  double lower = 0, upper = 0;
  double alpha = 0.05;
};
/// est ± t·se at confidence 1 − alpha; nothing unless the state is fitted and 0 < alpha < 1.
std::optional<TInterval> t_interval(const TFit& fit, double alpha);

}  // namespace likeleaf::stats
