// The lever and its levels, in the reader's unit.
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {

Page levels_page() {
  Page page;
  const auto of = [&](const std::string& facts, const std::string& said, const std::string& sentence) {
    page.push_back({facts, said, sentence});
  };
  const Lever two = two_temperatures().plan.lever, three = three_temperatures().plan.lever;
  Lever own;
  own.kind = LeverKind::other;
  own.name = "stirring";
  own.levels.resize(2);
  own.levels[0].label = "with a spoon";
  own.levels[1].label = "none";
  Lever unnamed = own;
  unnamed.name.clear();

  of("a contrast", wording::contrast_text(two, {1, 0}, celsius), "88~°C against 68.5~°C");
  of("a contrast", wording::contrast_text(two, {1, 0}, fahrenheit_comma), "190,4~°F against 155,3~°F");
  of("a difference", wording::difference_title(two, {1, 0}, celsius_comma), "88~°C minus 68,5~°C");
  of("two levels", wording::changes_text(two, celsius), "water temperature 88~°C (now) against 68.5~°C");
  of("three levels", wording::changes_text(three, fahrenheit), "water temperature 190.4~°F (now), 155.3~°F, 172.4~°F");
  of("an own lever", wording::changes_text(own, celsius), "stirring with a spoon against none");
  of("an own lever without a name", wording::changes_text(unnamed, celsius),
     "something else with a spoon against none");
  Lever blank = two;
  blank.levels[0].value.reset();
  of("a level that says nothing yet", wording::changes_text(blank, celsius),
     "water temperature … (now) against 68.5~°C");
  of("no level yet", wording::changes_text({LeverKind::vessel, {}, {}}, celsius), "vessel");
  return page;
}

}  // namespace likeleaf::book
