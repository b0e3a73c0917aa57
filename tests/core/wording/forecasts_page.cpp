// What a plan will be able to decide, and by which test.
#include "core/wording/forecast_text.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {

Page forecasts_page() {
  Page page;
  const auto of = [&](const std::string& facts, const EngineForecast& forecast, const std::string& sentence,
                      const Style& style = celsius) {
    page.push_back({facts, wording::sentence(forecast, style), sentence});
  };
  EngineForecast f;
  f.kind = EngineForecast::Kind::exact;
  f.brew_pairs = 9;
  f.claims = 3;
  f.smallest_p = 2.0 / 512;
  f.asked_p = 0.05 / 3;
  of("exact", f,
     "9 brew pairs and 3 claims to decide: whole brew pairs are flipped, an exact test; the smallest p it can reach is "
     "0.0039, asked is 0.0167 at most.");
  f.brew_pairs = 20;
  f.claims = 1;
  f.smallest_p = 2.0 / 1'048'576;
  f.asked_p = 0.05;
  of("a very small p", f,
     "20 brew pairs and 1 claim to decide: whole brew pairs are flipped, an exact test; the smallest p it can reach is "
     "under 0,0001, asked is 0,0500 at most.",
     fahrenheit_comma);
  f.kind = EngineForecast::Kind::t;
  f.brew_pairs = 5;
  f.claims = 3;
  f.both_orders = true;
  f.brew_pairs_for_exact = 7;
  of("too few to flip", f,
     "5 brew pairs and 3 claims to decide: too few for the exact test, which needs 7; Student's t on the brew pairs "
     "decides.");
  f.both_orders = false;
  of("one order", f,
     "5 brew pairs and 3 claims to decide: each brew pair is tasted in one order only, so Student's t on the brew "
     "pairs decides, with the order taken into account.");
  f.kind = EngineForecast::Kind::describe;
  f.brew_pairs = 1;
  f.fewest_brew_pairs = 4;
  of("too few for anything", f, "This plan can describe, it cannot decide: 1 brew pair planned, 4 or more are needed.");
  f.policy = EnginePolicy::exact_only;
  of("one order, t refused", f,
     "This plan can describe, it cannot decide: the exact test needs two tasters or more on the same brews, and t is "
     "refused.");
  f.both_orders = true;
  of("t refused", f,
     "This plan can describe, it cannot decide: 1 brew pair planned, the exact test needs 7 for 3 claims to decide, "
     "and t is refused.");
  f.claims = 0;
  of("nothing to decide", f, "This plan can describe, it cannot decide: no attribute is named to decide.");
  return page;
}

}  // namespace likeleaf::book
