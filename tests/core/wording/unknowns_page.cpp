// What we do not know.
#include "core/wording/findings_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {

Page unknowns_page() {
  Page page;
  const auto of = [&](const std::string& facts, const evidence::Findings& f, const std::string& sentence,
                      const Style& style = celsius) {
    std::string said;
    const auto plan = f.contrasts.size() > 1 ? three_temperatures() : two_temperatures();
    for (const auto& one : wording::unknowns(f, plan, style)) said += (said.empty() ? "" : " | ") + one;
    page.push_back({facts, said, sentence});
  };
  const auto open = [](OpenReason reason) {
    auto f = found(Word::open, 0.4, -0.4, 1.2);
    f.open_reason = reason;
    return f;
  };
  const std::string others = "Other leaves, other cups.";
  of("not shown", findings({open(OpenReason::not_shown)}),
     "Bitterness: more bitter at 88~°C by 0.4 (0.4 less to 1.2 more), so more or less or nothing. | " + others);
  of("no reason kept", findings({open(OpenReason::none)}),
     "Bitterness: more bitter at 88~°C by 0,4 (0,4 less to 1,2 more), so more or less or nothing. | " + others,
     celsius_comma);
  of("another reason", findings({open(OpenReason::nothing_left)}),
     "Bitterness: nothing left to judge: no brew pair has a score. | " + others);
  of("moved, size unsure", findings({found(Word::moved, 1.2, 0.4, 2)}),
     "Bitterness: more bitter at 88~°C by 1.2 (0.4 to 2.0 more). It moved; whether by as much as 1~point is not sure. "
     "| "
     "" + others);
  auto depends = found(Word::depends, 0.4, -0.4, 1.2);
  depends.lots.shown = true;
  depends.lots.names = {"L-07"};
  depends.by_lot = {{"1", "L-07", 3, 12, 1.9, 1.7, {}}};
  of("depends", findings({depends}),
     "Bitterness: the leaves differ: L-07 +1.7. Over all leaves: more bitter at 88~°C by 0.4 (0.4 less to 1.2 more). "
     "| " +
         others);

  auto enough = found(Word::moved, 1.9, 1.1, 2.7);
  enough.enough_to_matter = true;
  const auto noted = [](AttributeFinding f) {
    f.deciding = false;
    f.word = Word::noted;
    return f;
  };
  auto without = noted(found(Word::noted, 0.5, 0, 0, "body"));
  without.interval.reset();
  auto f = findings({enough, found(Word::held, 0, -0.5, 0.5, "sweetness"), without,
                     noted(found(Word::noted, 0.3, -0.1, 0.7, "astringency"))});
  f.tasting_temperature = Temperature(42'500);
  of("all settled", f, "Other leaves, other cups, and how it drinks hotter than 42.5~°C.");
  of("all settled, read in °F", f, "Other leaves, other cups, and how it drinks hotter than 108,5~°F.",
     fahrenheit_comma);
  f.attributes.push_back(noted(found(Word::noted, 0.5, 0.1, 0.9, "savoury")));
  f.attributes.push_back(noted(found(Word::noted, -0.5, -0.9, -0.1, "astringency")));
  f.attributes.push_back(noted(found_finish(Word::noted, 1.5, 1.3, 1.75)));
  f.tasting_temperature.reset();
  of("noted on the way", f,
     "Noted at 88~°C, not decided: more savoury (by 0.5), less astringent (by 0.5) and longer finish (1.50 times). | " +
         others);
  f.contrasts.push_back({2, 0});
  of("noted on the way, three levels", f,
     "Noted, not decided: more savoury (by 0,5), less astringent (by 0,5) and longer finish (1,50 times). | " + others,
     celsius_comma);
  return page;
}

}  // namespace likeleaf::book
