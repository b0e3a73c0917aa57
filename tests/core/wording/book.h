#pragma once
// A book of sentences: facts in, sentence out. Each page is a table of cases about one thing that the program talks of;
// together they reach every branch of core/wording (branches_test.cpp sees to that).
#include <string>
#include <vector>

#include "core/base/style.h"

namespace likeleaf::book {

/// One case: the facts in a few words for a failure message, what was said of them, and the sentence that should be.
/// A "~" in the sentence stands for a no-break space, as typesetters write it.
struct Line {
  std::string facts, said, sentence;
};
using Page = std::vector<Line>;

Page errors_page();
Page cautions_page();
Page levels_page();
Page attributes_page();
Page open_attributes_page();
Page headlines_page();
Page rules_page();
Page drifts_page();
Page controls_page();
Page reasons_page();
Page unknowns_page();
Page amounts_page();
Page brews_page();
Page one_variable_page();
Page forecasts_page();
Page plan_notes_page();
Page plan_note_names_page();
Page opening_notes_page();

struct NamedPage {
  const char* name;
  Page (*page)();
};
inline const std::vector<NamedPage>& book() {
  static const std::vector<NamedPage> pages{
      {"errors", errors_page},
      {"cautions", cautions_page},
      {"levels", levels_page},
      {"attributes", attributes_page},
      {"open", open_attributes_page},
      {"headlines", headlines_page},
      {"rules", rules_page},
      {"drifts", drifts_page},
      {"controls", controls_page},
      {"reasons", reasons_page},
      {"unknowns", unknowns_page},
      {"amounts", amounts_page},
      {"brews", brews_page},
      {"one_variable", one_variable_page},
      {"forecasts", forecasts_page},
      {"plan_notes", plan_notes_page},
      {"plan_note_names", plan_note_names_page},
      {"opening_notes", opening_notes_page},
  };
  return pages;
}

inline const Style celsius{};
inline const Style celsius_comma{TemperatureUnit::celsius, ','};
inline const Style fahrenheit{TemperatureUnit::fahrenheit, '.'};
inline const Style fahrenheit_comma{TemperatureUnit::fahrenheit, ','};

}  // namespace likeleaf::book
