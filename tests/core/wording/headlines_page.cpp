// The answer in a line, and what it speaks for.
#include "core/wording/findings_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {

Page headlines_page() {
  Page page;
  const auto of = [&](const std::string& facts, const std::string& said, const std::string& sentence) {
    page.push_back({facts, said, sentence});
  };
  auto on_leaf = found(Word::depends, 0.4, -0.4, 1.2, "savoury");
  on_leaf.lots.shown = true;
  auto aside = found(Word::noted, 0.4, -0.4, 1.2, "finish_structure");
  aside.deciding = false;
  auto all =
      findings({found(Word::moved, 1.9, 1.1, 2.7), found(Word::held, 0, -0.5, 0.5, "body"), on_leaf,
                found(Word::depends, 0.4, -0.4, 1.2, "astringency"), found(Word::open, 0.4, -0.4, 1.2, "sweetness"),
                found(Word::noted, 0, 0, 0, "aroma_register"), aside});
  of("one of each word", wording::headline(all, two_temperatures(), fahrenheit_comma),
     "More bitter at 190,4~°F. Body holds. Savoury depends on the leaf. Astringency depends on the taster. Sweetness "
     "is "
     "open. Aroma register is open.");
  all.contrasts = {{1, 0}, {2, 0}};
  of("three levels", wording::headline(all, three_temperatures(), celsius),
     "More bitter at 88~°C than at 68.5~°C. Body holds (88~°C against 68.5~°C). Savoury depends on the leaf (88~°C "
     "against 68.5~°C). Astringency depends on the taster (88~°C against 68.5~°C). Sweetness is open (88~°C against "
     "68.5~°C). Aroma register is open (88~°C against 68.5~°C).");
  of("less of it", wording::headline(findings({found(Word::moved, -1.9, -2.7, -1.1)}), two_temperatures(), celsius),
     "Less bitter at 88~°C.");
  of("nothing deciding", wording::headline(findings({aside}), two_temperatures(), celsius), "Described, not decided.");
  auto own = found(Word::moved, 1.9, 1.1, 2.7);
  own.attribute.more = "Ásperer";
  of("a first letter that is not a to z", wording::headline(findings({own}), two_temperatures(), celsius),
     "Ásperer at 88~°C.");
  own.attribute.more = "{peppery}";
  of("a first sign behind z", wording::headline(findings({own}), two_temperatures(), celsius), "{peppery} at 88~°C.");
  own.attribute.more.clear();
  of("an own attribute without its word", wording::headline(findings({own}), two_temperatures(), celsius),
     " at 88~°C.");

  auto scope = findings({});
  scope.lots = 3;
  scope.brew_pairs = 9;
  scope.tasted_pairs = 36;
  scope.assessors = 4;
  scope.tasting_temperature = Temperature(42'500);
  of("a panel", wording::scope_sentence(scope, two_temperatures(), celsius_comma),
     "These 3~leaves, 9~brew pairs, 36~tasted pairs, 4~tasters, at 42,5~°C.");
  of("a panel", wording::scope_sentence(scope, two_temperatures(), fahrenheit),
     "These 3~leaves, 9~brew pairs, 36~tasted pairs, 4~tasters, at 108.5~°F.");
  scope = findings({});
  scope.lots = scope.brew_pairs = scope.tasted_pairs = scope.assessors = 1;
  of("one of each, without names", wording::scope_sentence(scope, two_temperatures(), celsius),
     "This leaf (), 1~brew pair, 1~tasted pair, one taster ().");
  scope.lot_codes = {"L-07"};
  scope.assessor_aliases = {"R."};
  scope.self_blinded = true;
  of("alone", wording::scope_sentence(scope, two_temperatures(), celsius),
     "This leaf (L-07), 1~brew pair, 1~tasted pair, one taster (R.). Self-blinded: it speaks for this taster, these "
     "leaves and these pots, not for people in general.");
  scope.self_blinded = false;
  scope.paper_import = true;
  const std::string paper = " Read from paper tables: nothing was sealed beforehand.";
  of("from paper", wording::scope_sentence(scope, two_temperatures(), celsius),
     "This leaf (L-07), 1~brew pair, 1~tasted pair, one taster (R.)." + paper);
  scope.paper_import = false;
  auto from_paper = two_temperatures();
  from_paper.paper_import = true;
  of("from paper", wording::scope_sentence(scope, from_paper, celsius),
     "This leaf (L-07), 1~brew pair, 1~tasted pair, one taster (R.)." + paper);
  return page;
}

}  // namespace likeleaf::book
