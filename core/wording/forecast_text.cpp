#include "core/wording/forecast_text.h"

#include <fmt/format.h>

#include "core/base/number_text.h"

namespace likeleaf::wording {
namespace {

std::string pairs_text(int n) {
  return fmt::format("{} brew pair{}", n, n == 1 ? "" : "s");
}

std::string claims_text(int k) {
  return fmt::format("{} claim{} to decide", k, k == 1 ? "" : "s");
}

std::string exact_sentence(const EngineForecast& f, const Style& style) {
  constexpr double least_shown = 0.0001;
  const auto shown = [&](double p) {
    return p < least_shown ? "under " + number_text(least_shown, 4, style) : number_text(p, 4, style);
  };
  return fmt::format(
      "{} and {}: whole brew pairs are flipped, an exact test; the smallest p it can reach is {}, asked "
      "is {} at most.",
      pairs_text(f.brew_pairs), claims_text(f.claims), shown(f.smallest_p), shown(f.asked_p));
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

std::string describe_sentence(const EngineForecast& f) {
  constexpr std::string_view verdict = "This plan can describe, it cannot decide";
  if (f.claims == 0) return fmt::format("{}: no attribute is named to decide.", verdict);
  if (f.policy == EnginePolicy::exact_only && !f.both_orders)
    return fmt::format("{}: the exact test needs two tasters or more on the same brews, and t is refused.", verdict);
  if (f.policy == EnginePolicy::exact_only)
    return fmt::format("{}: {} planned, the exact test needs {} for {}, and t is refused.", verdict,
                       pairs_text(f.brew_pairs), f.brew_pairs_for_exact, claims_text(f.claims));
  return fmt::format("{}: {} planned, {} or more are needed.", verdict, pairs_text(f.brew_pairs), f.fewest_brew_pairs);
}

}  // namespace

std::string sentence(const EngineForecast& forecast, const Style& style) {
  switch (forecast.kind) {
    case EngineForecast::Kind::exact:
      return exact_sentence(forecast, style);
    case EngineForecast::Kind::t:
      return t_sentence(forecast);
    case EngineForecast::Kind::describe:
      break;
  }
  return describe_sentence(forecast);
}

}  // namespace likeleaf::wording
