// What went past its tolerance, in its own unit, and what that may do.
#include "core/base/entropy.h"
#include "core/wording/drift_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {
namespace {

Drift drift(ConstantKind what, std::int64_t planned, std::int64_t actual, std::int64_t tolerance) {
  Drift out;
  out.set = 2;
  out.what = what;
  out.planned = planned;
  out.actual = actual;
  out.tolerance = tolerance;
  return out;
}

Drift of_pair(Drift drift) {
  FixedEntropy ids(3);
  drift.pair = IdOf<Pair>::make(ids);
  return drift;
}

}  // namespace

Page drifts_page() {
  Page page;
  const SealedPlan plan = two_temperatures();
  const auto of = [&](const std::string& facts, const Drift& drift, const std::string& sentence,
                      const Style& style = celsius) {
    const std::string effect = wording::drift_effect(drift);
    page.push_back({facts, wording::drift_text(drift, "L-12", plan, style) + "." + (effect.empty() ? "" : " ") + effect,
                    sentence});
  };
  auto steep = drift(ConstantKind::steep_time, 45'000, 50'000, 3'000);
  steep.level = 0;
  of("steeped longer", steep,
     "L-12, second brew pair, 88~°C: steep time 50~s for 45~s, 2~s past the ±3~s allowed. May add to bitterness, "
     "astringency and body.");
  of("steeped longer, read in °F", steep,
     "L-12, second brew pair, 190,4~°F: steep time 50~s for 45~s, 2~s past the ±3~s allowed. May add to bitterness, "
     "astringency and body.",
     fahrenheit_comma);
  of("steeped shorter", drift(ConstantKind::steep_time, 45'000, 40'500, 3'000),
     "L-12, second brew pair: steep time 40,5~s for 45~s, 1,5~s past the ±3~s allowed. May take from bitterness, "
     "astringency and body.",
     celsius_comma);
  of("more leaf", drift(ConstantKind::leaf_dose, 4'000, 4'300, 100),
     "L-12, second brew pair: leaf dose 4.3~g for 4~g, 0.2~g past the ±0.1~g allowed. May add to bitterness, "
     "astringency and body.");
  of("less leaf", drift(ConstantKind::leaf_dose, 4'000, 3'700, 100),
     "L-12, second brew pair: leaf dose 3,7~g for 4~g, 0,2~g past the ±0,1~g allowed. May take from bitterness, "
     "astringency and body.",
     celsius_comma);
  of("more water", drift(ConstantKind::water_mass, 200'000, 210'000, 4'000),
     "L-12, second brew pair: water mass 210~g for 200~g, 6~g past the ±4~g allowed. May weaken everything.");
  of("less water", drift(ConstantKind::water_mass, 200'000, 190'000, 4'000),
     "L-12, second brew pair: water mass 190~g for 200~g, 6~g past the ±4~g allowed. May strengthen everything.");
  of("hotter water", drift(ConstantKind::water_temperature, 80'000, 82'500, 1'000),
     "L-12, second brew pair: water temperature 82.5~°C for 80~°C, 1.5~°C past the ±1~°C allowed. May add to "
     "bitterness and astringency.");
  of("cooler water, read in °F", drift(ConstantKind::water_temperature, 80'000, 77'500, 1'000),
     "L-12, second brew pair: water temperature 171,5~°F for 176~°F, 2,7~°F past the ±1,8~°F allowed. May take from "
     "bitterness and astringency.",
     fahrenheit_comma);
  of("cups apart at first sip", of_pair(drift(ConstantKind::tasting_temperature, 0, 1'400, 1'000)),
     "L-12, second brew pair: cups 1.4~°C apart at first sip, 1~°C allowed. A cooler liquor is thicker: may show as "
     "body.");
  of("cups apart, read in °F", of_pair(drift(ConstantKind::tasting_temperature, 0, 1'400, 1'000)),
     "L-12, second brew pair: cups 2,5~°F apart at first sip, 1,8~°F allowed. A cooler liquor is thicker: may show as "
     "body.",
     fahrenheit_comma);
  of("both cups cool", of_pair(drift(ConstantKind::tasting_temperature, 42'000, 39'500, 1'000)),
     "L-12, second brew pair: tasting temperature 39.5~°C for 42~°C, 1.5~°C past the ±1~°C allowed. A cooler liquor is "
     "thicker: may show as body.");
  of("a brew cool, of no pair", drift(ConstantKind::tasting_temperature, 0, 1'400, 1'000),
     "L-12, second brew pair: tasting temperature 1.4~°C for 0~°C, 0.4~°C past the ±1~°C allowed. A cooler liquor is "
     "thicker: may show as body.");
  const std::string stood =
      " before it was served, 10~min at most. Liquor that stands loses its top notes: may show in "
      "aroma.";
  of("stood long", of_pair(drift(ConstantKind::longest_hold, 600'000, 865'000, 0)),
     "L-12, second brew pair: stood ready for 14~min~25~s" + stood);
  of("stood whole minutes", of_pair(drift(ConstantKind::longest_hold, 540'000, 660'000, 60'000)),
     "L-12, second brew pair: stood ready for 11~min" + stood);
  of("stood half a minute", of_pair(drift(ConstantKind::longest_hold, 20'000, 30'500, 0)),
     "L-12, second brew pair: stood ready for 30,5~s before it was served, 20~s at most. Liquor that stands loses its "
     "top notes: may show in aroma.",
     celsius_comma);
  of("chilled another way", drift(ConstantKind::chill, 0, 1, 0),
     "L-12, second brew pair: chilled another way than planned. May show as body and aroma.");
  of("what has no known effect", drift(ConstantKind::rinse, 10'000, 20'000, 5'000),
     "L-12, second brew pair: rinse 20~s for 10~s, 5~s past the ±5~s allowed.");

  auto control = steep;
  control.set = 0;
  of("a control brew", control,
     "L-12, a control brew, 88~°C: steep time 50~s for 45~s, 2~s past the ±3~s allowed. May add to bitterness, "
     "astringency and body.");
  of("a control pair", of_pair(control),
     "L-12, a control pair, 88~°C: steep time 50~s for 45~s, 2~s past the ±3~s allowed. May add to bitterness, "
     "astringency and body.");
  auto chilled = drift(ConstantKind::chill, 0, 1, 0);
  for (const auto& [set, word] : std::vector<std::pair<int, std::string>>{{1, "first"}, {9, "ninth"}, {10, "10th"}}) {
    chilled.set = set;
    of("brew pair of the lot", chilled,
       "L-12, " + word + " brew pair: chilled another way than planned. May show as body and aroma.");
  }
  return page;
}

}  // namespace likeleaf::book
