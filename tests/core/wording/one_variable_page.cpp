// What besides the lever differs between the levels, by the plan and as brewed.
#include "core/wording/one_variable_text.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {

Page one_variable_page() {
  Page page;
  using enum OneVariableProblem::Kind;
  const auto of = [&](const std::string& facts, const OneVariableProblem& problem, const std::string& sentence,
                      const Style& style = celsius) {
    page.push_back({facts, wording::problem_text(problem, style), sentence});
  };
  of("two totals of whole schedules",
     {schedules_differ, {ScheduleTotal::contact_time, ScheduleTotal::mean_pour_temperature}, {}},
     "the schedules differ in contact time and mean pour temperature at once, so no one of them can be named as the "
     "cause");
  of("all three",
     {schedules_differ, {ScheduleTotal::water, ScheduleTotal::contact_time, ScheduleTotal::mean_pour_temperature}, {}},
     "the schedules differ in total water, contact time and mean pour temperature at once, so no one of them can be "
     "named as the cause");
  of("one total beside a lever", {also_differ, {ScheduleTotal::water}, {}}, "the levels also differ in total water");

  const auto planned = [&](Riding what, double alignment, const std::string& sentence) {
    of("as planned", {as_planned, {}, {what, true, alignment}}, sentence);
  };
  planned(Riding::pour_order, 1, "pour order: with a single brew pair one level is always poured first");
  planned(Riding::chill_path, 1, "chill path: no way of chilling is held, and the warmer liquor takes longer to cool");
  planned(Riding::liquor_age, -255, "liquor age: poured together, the liquors differ in age by 255 s");
  planned(Riding::boiler_batch, 1, "boiler batch: no water is held, so each level may come from a boil of its own");
  planned(Riding::vessel, 1, "vessel: it goes with the level");
  planned(Riding::preparer, 1, "preparer: it goes with the level");

  const auto brewed = [&](Riding what, double alignment, const Style& style, const std::string& sentence) {
    of("as brewed", {as_brewed, {}, {what, true, alignment}}, sentence, style);
  };
  brewed(Riding::chill_path, -2.0 / 3, celsius, "chill path: as brewed it went with the level (0.67 of a possible 1)");
  brewed(Riding::pour_order, 1, celsius_comma, "pour order: as brewed it went with the level (1,00 of a possible 1)");
  brewed(Riding::liquor_age, -200, celsius, "liquor age: as brewed the levels differed by 200.0~s on average");
  brewed(Riding::steep_time, 4, celsius_comma, "steep time: as brewed the levels differed by 4,0~s on average");
  brewed(Riding::leaf_dose, 0.25, celsius, "leaf dose: as brewed the levels differed by 0.2~g on average");
  brewed(Riding::water_mass, -6, fahrenheit, "water mass: as brewed the levels differed by 6.0~g on average");
  brewed(Riding::water_temperature, -2.5, celsius,
         "water temperature: as brewed the levels differed by 2.5~°C on average");
  brewed(Riding::water_temperature, -2.5, fahrenheit,
         "water temperature: as brewed the levels differed by 4.5~°F on average");
  brewed(Riding::water_temperature, -2.5, fahrenheit_comma,
         "water temperature: as brewed the levels differed by 4,5~°F on average");

  const auto rides = [&](const RidingAlong& riding, const Style& style, const std::string& sentence) {
    page.push_back({"rides along", wording::rides_sentence(riding, style), sentence});
  };
  rides({Riding::boiler_batch, true, 1}, celsius, "Boiler batch goes with the level.");
  rides({Riding::liquor_age, true, -200}, celsius, "Liquor age goes with the level: \u2212200.0 s on average.");
  rides({Riding::water_temperature, true, 2.5}, celsius, "Water temperature goes with the level: 2.5 °C on average.");
  rides({Riding::water_temperature, true, 2.5}, fahrenheit_comma,
        "Water temperature goes with the level: 4,5 °F on average.");
  return page;
}

}  // namespace likeleaf::book
