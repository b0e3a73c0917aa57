// What can hurt, at the step where it can.
#include "core/wording/cautions.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {
namespace {

using wording::Step;

Constant constant(ConstantKind kind, std::string text) {
  Constant out;
  out.kind = kind;
  out.text = std::move(text);
  return out;
}

Plan poured_at(std::int64_t milli_celsius) {
  Plan plan;
  plan.lever.kind = LeverKind::leaf_dose;
  Constant water = constant(ConstantKind::water_temperature, {});
  water.target = milli_celsius;
  plan.constants = {water};
  return plan;
}

Lot flavoured() {
  Lot lot;
  lot.code = "L-30";
  lot.allergens = "almond";
  return lot;
}

}  // namespace

Page cautions_page() {
  Page page;
  const auto of = [&](const std::string& facts, Step step, const Plan& plan, const std::string& sentence,
                      const Style& style = celsius, const std::vector<Lot>& lots = {}) {
    std::string said;
    for (const auto& one : wording::cautions(step, plan, lots, style)) said += (said.empty() ? "" : " | ") + one;
    page.push_back({facts, said, sentence});
  };

  of("water held at 88 °C", Step::pour, poured_at(88'000),
     "88~°C water scalds in seconds. Other hand clear, lid on the kettle.");
  of("water held at 88.5 °C, read in °F", Step::pour, poured_at(88'500),
     "191,3~°F water scalds in seconds. Other hand clear, lid on the kettle.", fahrenheit_comma);
  of("at the boundary", Step::pour, poured_at(50'000),
     "50~°C water scalds in seconds. Other hand clear, lid on the kettle.");
  of("below it", Step::pour, poured_at(49'999), "");
  of("no temperature known", Step::pour, Plan{}, "");
  Plan no_target = poured_at(0);
  no_target.constants[0].target.reset();
  of("held, but not said at what", Step::pour, no_target, "");

  Plan levels;
  levels.lever.kind = LeverKind::water_temperature;
  levels.lever.levels.resize(3);
  levels.lever.levels[0].value = 68'500;
  levels.lever.levels[1].value = 88'000;
  of("the hottest level counts, one is still empty", Step::pour, levels,
     "88~°C water scalds in seconds. Other hand clear, lid on the kettle.");
  Plan schedule;
  schedule.lever.kind = LeverKind::brew_schedule;
  schedule.lever.levels.resize(1);
  schedule.lever.levels[0].schedule = {{Temperature(95'000), Duration(30'000), Mass(100'000)},
                                       {Temperature(80'000), Duration(60'000), Mass(100'000)}};
  of("the hottest infusion counts", Step::pour, schedule,
     "95~°C water scalds in seconds. Other hand clear, lid on the kettle.");
  Plan doses;
  doses.lever.kind = LeverKind::leaf_dose;
  doses.lever.levels.resize(1);
  doses.lever.levels[0].value = 90'000;
  of("a dose is no temperature", Step::pour, doses, "");

  Plan ice, glass, both;
  ice.constants = {constant(ConstantKind::chill, "into ice with lids")};
  glass.constants = {constant(ConstantKind::vessel, "a glass of 250 ml")};
  both.constants = {glass.constants[0], ice.constants[0]};
  of("glass into ice", Step::chill, both,
     "Hot glass can break in ice. Use glass made for it, within its maker’s limits, and lower it slowly.");
  of("another vessel into ice", Step::chill, ice,
     "Hot vessels can break in ice. Keep to the maker’s limits and lower them slowly.");
  of("glass, no ice", Step::chill, glass, "");
  Plan cold;
  cold.constants = {constant(ConstantKind::chill, "in the refrigerator")};
  of("no ice", Step::chill, cold, "");
  of("cups", Step::serve, Plan{}, "Clean cups and a clean spoon for each taster; nobody drinks from another’s cup.");
  of("tasting a leaf that carries nothing", Step::taste, Plan{},
     "Your own cup and spoon only. Spit where you can: caffeine adds up over a sitting.", celsius, {Lot{}});
  of("tasting a flavoured leaf", Step::taste, Plan{},
     "Your own cup and spoon only. Spit where you can: caffeine adds up over a sitting. | L-30 carries almond: ask "
     "before anyone tastes.",
     celsius, {flavoured()});
  of("holding", Step::hold, Plan{},
     "Liquor left standing warm does not keep. Pour away what is past its longest hold; local food rules come first.",
     celsius, {flavoured()});
  of("the staff, nothing special", Step::staff, Plan{},
     "Clean cups and spoons for each person. Local food and safety rules come first.");
  of("the staff, hot water", Step::staff, poured_at(88'000),
     "88~°C water scalds in seconds. Other hand clear, lid on the kettle. | Clean cups and spoons for each person. "
     "Local food and safety rules come first.");
  of("the staff, glass and a flavoured leaf", Step::staff, glass,
     "Use a glass made for hot water; the maker’s limits come first. | Clean cups and spoons for each person. Local "
     "food and safety rules come first. | L-30 carries almond: ask before anyone tastes.",
     celsius, {flavoured()});
  of("the staff, glass and ice", Step::staff, both,
     "Use a glass made for hot water before it meets ice; the maker’s limits come first. | Clean cups and spoons for "
     "each person. Local food and safety rules come first.");
  return page;
}

}  // namespace likeleaf::book
