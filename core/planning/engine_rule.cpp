#include "core/planning/engine_rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/base/number_text.h"

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

std::string pairs_text(int n) {
  return fmt::format("{} brew pair{}", n, n == 1 ? "" : "s");
}

std::string claims_text(int k) {
  return fmt::format("{} claim{} to decide", k, k == 1 ? "" : "s");
}

std::string exact_sentence(const EngineForecast& f, std::int64_t alpha_permille) {
  const double least = std::ldexp(2.0, -f.brew_pairs);
  const double asked = static_cast<double>(alpha_permille) / 1000.0 / f.claims;
  const auto shown = [](double p) { return p < 0.0001 ? std::string("under 0.0001") : number_text(p, 4, Style{}); };
  return fmt::format(
      "{} and {}: whole brew pairs are flipped, an exact test; the smallest p it can reach is {}, asked "
      "is {} at most.",
      pairs_text(f.brew_pairs), claims_text(f.claims), shown(least), shown(asked));
}

std::string t_sentence(const EngineForecast& f) {
  if (!f.both_orders)
    return fmt::format(
        "{} and {}: each brew pair is tasted in one order only, so Student's t on the brew pairs decides, "
        "with the order taken into account.",
        pairs_text(f.brew_pairs), claims_text(f.claims));
  return fmt::format("{} and {}: too few for the exact test, which needs {}; Student's t on the brew pairs decides.",
                     pairs_text(f.brew_pairs), claims_text(f.claims), f.brew_pairs_for_exact);
}

std::string describe_sentence(const EngineForecast& f, EnginePolicy policy) {
  constexpr std::string_view verdict = "This plan can describe, it cannot decide";
  if (f.claims == 0) return fmt::format("{}: no attribute is named to decide.", verdict);
  if (policy == EnginePolicy::exact_only && !f.both_orders)
    return fmt::format("{}: the exact test needs two tasters or more on the same brews, and t is refused.", verdict);
  if (policy == EnginePolicy::exact_only)
    return fmt::format("{}: {} planned, the exact test needs {} for {}, and t is refused.", verdict,
                       pairs_text(f.brew_pairs), f.brew_pairs_for_exact, claims_text(f.claims));
  return fmt::format("{}: {} planned, {} or more are needed.", verdict, pairs_text(f.brew_pairs),
                     f.both_orders ? fewest_pairs : fewest_pairs_one_order);
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

  const int needed = f.both_orders ? fewest_pairs : fewest_pairs_one_order;
  const bool t_possible = f.claims > 0 && f.brew_pairs >= needed && plan.engine == EnginePolicy::automatic;
  if (f.exact_possible) {
    f.kind = EngineForecast::Kind::exact;
    f.sentence = exact_sentence(f, plan.alpha_permille);
  } else if (t_possible) {
    f.kind = EngineForecast::Kind::t;
    f.sentence = t_sentence(f);
  } else {
    f.sentence = describe_sentence(f, plan.engine);
  }
  return f;
}

double smallest_p_between_lots(int lots, int pairs_of_a_lot) {
  if (lots < 2 || pairs_of_a_lot < 2) return 1;
  // Lots of one size may swap names without changing the statistic, hence the L! in the numerator.
  const auto log_factorial = [](int n) { return std::lgamma(static_cast<double>(n) + 1.0); };
  return std::exp(log_factorial(lots) + lots * log_factorial(pairs_of_a_lot) - log_factorial(lots * pairs_of_a_lot));
}

}  // namespace likeleaf
