// One attribute: its word, its size, its margin, what was expected.
#include "core/wording/attribute_text.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {
namespace {

std::string said(const AttributeFinding& f, const Style& style = celsius, bool several = false) {
  const auto text = wording::finding_text(f, several ? three_temperatures() : two_temperatures(), style, several);
  return text.title + ". " + text.sentence;
}

AttributeFinding with(AttributeFinding f, auto&& change) {
  change(f);
  return f;
}

void moved(Page& page) {
  auto f = found(Word::moved, 1.9, 1.1, 2.7);
  page.push_back({"more", said(f),
                  "Bitterness: Moved, size unsure. more bitter at 88~°C by 1.9 (1.1 to 2.7 more). It moved; whether by "
                  "as much as 1~point is not sure."});
  f.enough_to_matter = true;
  page.push_back({"enough", said(f, fahrenheit_comma),
                  "Bitterness: Moved, enough to matter. more bitter at 190,4~°F by 1,9 (1,1 to 2,7 more)."});
  page.push_back({"three levels", said(f, celsius, true),
                  "Bitterness, 88~°C against 68.5~°C: Moved, enough to matter. more bitter at 88~°C than at 68.5~°C by "
                  "1.9 (1.1 to 2.7 more)."});
  page.push_back({"a house word", said(with(f, [](auto& x) { x.attribute.house_word = "bite"; })),
                  "Bitterness (bite): Moved, enough to matter. more bitter at 88~°C by 1.9 (1.1 to 2.7 more)."});
  page.push_back({"drawn at 98.3 %", said(with(f, [](auto& x) { x.interval->level = 1 - 0.05 / 3; }), celsius_comma),
                  "Bitterness: Moved, enough to matter. more bitter at 88~°C by 1,9 (1,1 to 2,7 more; 98,3~%)."});
  page.push_back({"drawn at 90 % by t",
                  said(with(f,
                            [](auto& x) {
                              x.interval->level = 0.9;
                              x.engine = evidence::Engine::t;
                            })),
                  "Bitterness: Moved, enough to matter. more bitter at 88~°C by 1.9 (1.1 to 2.7 more; 90.0~%)."});
  page.push_back({"described: no level",
                  said(with(f,
                            [](auto& x) {
                              x.interval->level = 0.9;
                              x.engine = evidence::Engine::describe;
                            })),
                  "Bitterness: Moved, enough to matter. more bitter at 88~°C by 1.9 (1.1 to 2.7 more)."});
  auto less = found(Word::moved, -1.9, -2.7, -1.1);
  less.enough_to_matter = true;
  page.push_back(
      {"less", said(less), "Bitterness: Moved, enough to matter. less bitter at 88~°C by 1.9 (1.1 to 2.7 less)."});
  auto longer = found_finish(Word::moved, 1.5, 1.3, 1.75);
  longer.enough_to_matter = true;
  page.push_back({"longer", said(longer, celsius_comma),
                  "Finish length: Moved, enough to matter. longer finish at 88~°C: 1,50 times the time (1,30 to 1,75 "
                  "times as long)."});
  auto shorter = found_finish(Word::moved, 0.75, 0.6, 0.94);
  page.push_back({"shorter", said(shorter),
                  "Finish length: Moved, size unsure. shorter finish at 88~°C: 0.75 times the time (0.60 to 0.94 times "
                  "as long). It moved; whether by as much as a factor of 1.25 is not sure."});
  page.push_back({"cut-off times", said(with(longer, [](auto& x) { x.cut_off = 1; })),
                  "Finish length: Moved, enough to matter. longer finish at 88~°C: 1.50 times the time (1.30 to 1.75 "
                  "times as long). 1~pair with a finish time cut off at under 3 or over 120 seconds."});
  page.push_back({"more cut-off times", said(with(longer, [](auto& x) { x.cut_off = 3; })),
                  "Finish length: Moved, enough to matter. longer finish at 88~°C: 1.50 times the time (1.30 to 1.75 "
                  "times as long). 3~pairs with a finish time cut off at under 3 or over 120 seconds."});
}

void held(Page& page) {
  auto f = found(Word::held, 0.1, -0.6, 0.8);
  page.push_back({"not shown that we notice", said(f),
                  "Bitterness: Held. within 1~point, though we have not shown that we would taste 1~point (0.6 less to "
                  "0.8 more)."});
  f.sensitivity_shown = true;
  page.push_back({"held", said(f), "Bitterness: Held. any change is within 1~point (0.6 less to 0.8 more)."});
  page.push_back({"no interval", said(with(f, [](auto& x) { x.interval.reset(); })),
                  "Bitterness: Held. any change is within 1~point."});
  f.small_real_shift = true;
  f.estimate = 0.3;
  f.interval = Interval{0.1, 0.5, 0.95};
  page.push_back({"small but real", said(f, celsius_comma),
                  "Bitterness: Held. a small real shift, too small to matter: more bitter at 88~°C by 0,3 (0,1 to 0,5 "
                  "more)."});
}

void depends(Page& page) {
  auto f = found(Word::depends, 0.4, -0.4, 1.2);
  f.lots.shown = true;
  f.lots.names = {"L-07", "L-12", "L-19"};
  f.by_lot = {{"1", "L-07", 3, 12, 1.9, 1.7, {}},
              {"2", "L-12", 3, 12, -0.8, -0.6, {}},
              {"3", "L-19", 3, 12, 0, 0, {}},
              {"4", "L-20", 3, 12, 0.2, 0.2, {}}};
  page.push_back({"on the leaf", said(f),
                  "Bitterness: Depends on the leaf. the leaves differ: L-07 +1.7, L-12 \u22120.6 and L-19 0.0. Over "
                  "all leaves: more bitter at 88~°C by 0.4 (0.4 less to 1.2 more)."});
  f.lots.leaf_or_pot = true;
  f.lots.names = {"L-07"};
  page.push_back({"one brew pair a leaf", said(f, fahrenheit_comma),
                  "Bitterness: Depends on the leaf. the leaves differ: L-07 +1,7. Over all leaves: more bitter at "
                  "190,4~°F by 0,4 (0,4 less to 1,2 more). Leaf or pot: not told apart."});
  auto tasters = found_finish(Word::depends, 1.1, 0.9, 1.3);
  tasters.assessors.names = {"R.", "K."};
  tasters.by_assessor = {{"1", "R.", 3, 9, 0.4, std::log(1.4), {}}, {"2", "K.", 3, 9, -0.2, std::log(0.8), {}}};
  page.push_back({"on the taster", said(tasters),
                  "Finish length: Depends on the taster. the tasters differ: R. ×1.40 and K. ×0.80. Over all tasters: "
                  "longer finish at 88~°C: 1.10 times the time (0.90 to 1.30 times as long)."});
}

void noted(Page& page) {
  auto f = found(Word::noted, 0.5, -0.1, 1.1);
  f.deciding = false;
  page.push_back({"noted", said(f), "Bitterness. more bitter at 88~°C by 0.5 (0.1 less to 1.1 more)."});
  f.outcome = AttributeFinding::Outcome::as_expected;
  page.push_back({"noted: no outcome", said(f), "Bitterness. more bitter at 88~°C by 0.5 (0.1 less to 1.1 more)."});
  f.brew_pairs = 0;
  page.push_back({"no brew pair", said(f), "Bitterness. nothing to judge."});
  f.brew_pairs = 1;
  f.interval.reset();
  f.estimate = 0;
  page.push_back({"one brew pair, nothing seen", said(f), "Bitterness. no difference seen at 88~°C."});
  f.estimate = -0.04;
  page.push_back({"a zero that is not one", said(f), "Bitterness. less bitter at 88~°C by 0.04."});
  auto same = found_finish(Word::noted, 1.0004, 0.77, 1.31);
  same.deciding = false;
  page.push_back({"a finish as long", said(same),
                  "Finish length. as long a finish at 88~°C: 1.00 times the time (0.77 to 1.31 times as long)."});
}

void pieces(Page& page) {
  const auto f = found(Word::moved, 1.9, 1.1, 2.7);
  const auto finish = found_finish(Word::moved, 1.5, 1.3, 1.75);
  const auto of = [&](const std::string& facts, const std::string& piece, const std::string& sentence) {
    page.push_back({facts, piece, sentence});
  };
  of("from zero", wording::interval_text(f, {0, 0.8, 0.95}, celsius), "0.0 to 0.8 more");
  of("from a zero that is not one", wording::interval_text(f, {-0.01, 0.8, 0.95}, celsius), "0.01 less to 0.8 more");
  of("from what prints as zero", wording::interval_text(f, {-0.004, 0.8, 0.95}, celsius), "0.00 less to 0.8 more");
  of("to zero", wording::interval_text(f, {-0.8, 0, 0.95}, celsius), "0.0 to 0.8 less");
  of("to a positive zero", wording::interval_text(f, {-0.8, 0.01, 0.95}, celsius_comma), "0,8 less to 0,01 more");
  of("estimate", wording::estimate_text(f, 1.9, celsius_comma), "+1,9");
  of("estimate", wording::estimate_text(f, -1.9, celsius), "\u22121.9");
  of("ratio", wording::estimate_text(finish, finish.estimate, celsius), "×1.50");
  of("margin", wording::margin_text(with(f, [](auto& x) { x.margin = 1.5; }), celsius_comma), "1,5~points");
  of("margin", wording::margin_text(with(f, [](auto& x) { x.margin = 2; }), celsius), "2~points");
  of("margin", wording::margin_text(finish, celsius_comma), "a factor of 1,25");
  of("word", wording::word_text(found(Word::open, 0, 0, 0)), "Open");
  of("word", wording::word_text(found(Word::noted, 0, 0, 0)), "noted");

  using Outcome = AttributeFinding::Outcome;
  const auto expected = [&](Outcome outcome) {
    return said(with(f, [&](auto& x) {
      x.enough_to_matter = true;
      x.outcome = outcome;
    }));
  };
  const std::string lead = "Bitterness: Moved, enough to matter. more bitter at 88~°C by 1.9 (1.1 to 2.7 more).";
  of("nothing was expected", expected(Outcome::none), lead);
  of("as expected", expected(Outcome::as_expected), lead + " As expected.");
  of("the opposite", expected(Outcome::opposite), lead + " The opposite of what was expected.");
  of("not settled", expected(Outcome::not_settled), lead + " What was expected is not settled.");
}

}  // namespace

Page attributes_page() {
  Page page;
  moved(page);
  held(page);
  depends(page);
  noted(page);
  pieces(page);
  return page;
}

Page open_attributes_page() {
  Page page;
  auto f = found(Word::open, -0.5, -1.3, 0.3);
  const auto of = [&](const std::string& facts, OpenReason reason, const std::string& sentence,
                      const Style& style = celsius) {
    f.open_reason = reason;
    page.push_back({facts, said(f, style), sentence});
  };
  const std::string seen = "less bitter at 88~°C by 0.5 (1.3 less to 0.3 more).";
  of("no reason kept", OpenReason::none, "Bitterness: Open. " + seen);
  of("not shown", OpenReason::not_shown, "Bitterness: Open. less bitter at 88~°C by 0,5 (1,3 less to 0,3 more).",
     celsius_comma);
  of("nothing left", OpenReason::nothing_left, "Bitterness: Open. nothing left to judge: no brew pair has a score.");
  of("too faint", OpenReason::too_faint,
     "Bitterness: Open. too faint to judge here: in more than a third of the pairs both cups were at the bottom of the "
     "scale.");
  of("too strong", OpenReason::too_strong,
     "Bitterness: Open. too strong to judge here: in more than a third of the pairs both cups were at the top of the "
     "scale.");
  of("no spread", OpenReason::no_spread,
     "Bitterness: Open. every brew pair gave the same answer; look at the sheets. L" + seen.substr(1));
  of("too few brew pairs", OpenReason::cannot_decide,
     "Bitterness: Open. " + seen + " These brew pairs can describe, they cannot decide.");
  of("one order only", OpenReason::order_confounded,
     "Bitterness: Open. " + seen + " All brew pairs were tasted in one order: described only.");
  f.cut_off = 2;
  of("it hangs on cut-off times", OpenReason::cut_off,
     "Bitterness: Open. the answer hangs on finish times that were cut off at under 3 or over 120 seconds.");
  f.cut_off = 0;

  f.pairs_if_seen = 26;
  of("one number of pairs", OpenReason::not_shown,
     "Bitterness: Open. " + seen + " A new trial would need about 26 brew pairs to show what we saw.");
  f.pairs_if_margin = 8;
  f.pairs_to_hold = 11;
  of("three numbers of pairs", OpenReason::not_shown,
     "Bitterness: Open. " + seen +
         " A new trial would need about 26 brew pairs to show what we saw, 8 to show 1~point, 11 to show that it "
         "holds.");
  f.pairs_if_seen.reset();
  f.not_worth_it = true;
  of("not worth it", OpenReason::not_shown,
     "Bitterness: Open. " + seen +
         " A new trial would need about 8 brew pairs to show 1~point, 11 to show that it holds. Not worth it with this "
         "plan.");
  return page;
}

}  // namespace likeleaf::book
