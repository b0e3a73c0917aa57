#include "core/planning/engine_rule.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace likeleaf {
namespace {

constexpr int fewest_pairs = 3;            // below this neither rule decides
constexpr int fewest_pairs_one_order = 4;  // the order costs one more degree of freedom
constexpr int most_pairs_asked = 62;       // 2^G still fits

/// 2/2^G ≤ alpha/k in whole numbers.
bool reaches(int brew_pairs, std::int64_t alpha_permille, std::int64_t claims) {
  if (alpha_permille <= 0) return false;
  alpha_permille = std::min<std::int64_t>(alpha_permille, 1000);
  const std::int64_t flips = std::int64_t{1} << std::clamp(brew_pairs, 0, 40);
  return 2 * claims * 1000 <= alpha_permille * flips;
}

int fewest_for_exact(std::int64_t alpha_permille, std::int64_t claims) {
  for (int g = fewest_pairs; g <= most_pairs_asked; ++g)
    if (reaches(g, alpha_permille, claims)) return g;
  return most_pairs_asked;
}

}  // namespace

EngineForecast engine_forecast(const Plan& plan) {
  EngineForecast f;
  const auto differences = static_cast<int>(contrasts(plan.lever).size());
  const auto people = static_cast<int>(tasters(plan).size());
  const bool own = plan.serving_way == ServingWay::own_brews;
  const int sets = static_cast<int>(plan.lots.size()) * std::clamp(plan.brew_pairs, 0, 40);
  f.brew_pairs = differences == 0 || people == 0 ? 0 : sets * (own ? people : 1);
  f.claims = static_cast<int>(std::ranges::count_if(plan.attributes, &PlanAttribute::deciding)) * differences;
  f.both_orders = !own && people >= 2;
  if (f.claims > 0) f.brew_pairs_for_exact = fewest_for_exact(plan.alpha_permille, f.claims);
  f.exact_possible = f.claims > 0 && f.both_orders && f.brew_pairs >= fewest_pairs &&
                     reaches(f.brew_pairs, plan.alpha_permille, f.claims);

  f.fewest_brew_pairs = f.both_orders ? fewest_pairs : fewest_pairs_one_order;
  f.policy = plan.engine;
  f.smallest_p = std::ldexp(2.0, -f.brew_pairs);
  if (f.claims > 0) f.asked_p = static_cast<double>(plan.alpha_permille) / 1000.0 / f.claims;
  const bool t_possible = f.claims > 0 && f.brew_pairs >= f.fewest_brew_pairs && plan.engine == EnginePolicy::automatic;
  if (f.exact_possible)
    f.kind = EngineForecast::Kind::exact;
  else if (t_possible)
    f.kind = EngineForecast::Kind::t;
  return f;
}

double smallest_p_between_lots(int lots, int pairs_of_a_lot) {
  if (lots < 2 || pairs_of_a_lot < 2) return 1;
  // Lots of one size may swap names without changing the statistic, hence the L! in the numerator.
  const auto log_factorial = [](int n) { return std::lgamma(static_cast<double>(n) + 1.0); };
  return std::exp(log_factorial(lots) + lots * log_factorial(pairs_of_a_lot) - log_factorial(lots * pairs_of_a_lot));
}

}  // namespace likeleaf
