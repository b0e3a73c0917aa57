// Why to believe it: controls, lean, drifts, guesses, seal.
#include <fmt/format.h>

#include <functional>
#include <memory>

#include "core/wording/reasons.h"
#include "tests/core/wording/book.h"
#include "tests/core/wording/facts.h"

namespace likeleaf::book {
namespace {

using evidence::Findings;

/// An unmasked trial of two temperatures without a sheet: intact where said so; from paper tables when asked.
Unmasked unmasked(bool plan = true, bool key = true, bool sheets = true, bool paper = false) {
  auto trial = std::make_shared<Trial>();
  auto sealed = two_temperatures();
  sealed.paper_import = paper;
  trial->sealed = std::make_shared<const SealedPlan>(sealed);
  trial->key = std::make_shared<const Key>();
  trial->unmasked = UnmaskRecord{{}, "R.", {}, plan, key, sheets};
  return open_unmasked(trial).value();
}

/// The reasons with this title, an amber one with a mark before it.
std::string reasons_titled(const std::string& title, const Findings& findings, const Style& style,
                           const Unmasked& trial = unmasked()) {
  std::string out;
  for (const auto& reason : wording::reasons(findings, trial, style))
    if (title == reason.title)
      out += fmt::format("{}{}{}", out.empty() ? "" : " | ", reason.amber ? "! " : "", reason.text);
  return out;
}

Findings deciding(std::vector<std::string> ids) {
  std::vector<AttributeFinding> attributes;
  for (const auto& id : ids) attributes.push_back(found(Word::open, 0.4, -0.4, 1.2, id));
  return findings(std::move(attributes));
}

evidence::BlankControl blank(std::string attribute, int sheets, double largest) {
  evidence::BlankControl out;
  out.attribute = std::move(attribute);
  out.sheets = sheets;
  out.largest = largest;
  return out;
}

void blanks(Page& page) {
  const auto of = [&](const std::string& facts, const Findings& f, const std::string& sentence,
                      const Style& style = celsius) {
    page.push_back({facts, reasons_titled("Blanks", f, style), sentence});
  };
  auto f = deciding({"bitterness", "body"});
  const std::string none = "None were planned: what two cups of the same brew would differ by was not measured.";
  of("no blanks", f, none);
  f.blanks = {blank("bitterness", 0, 3)};
  of("a blank without a sheet", f, none);
  f.blanks = {blank("sweetness", 4, 3), blank("bitterness", 4, 0.5), blank("body", 4, 1), blank("bitterness", 4, 1)};
  of("the noisiest deciding one", f,
     "4~sheets of two brews at one level: largest difference 1.0 (body); too few to call clean.");
  f.attributes.push_back(found(Word::noted, 0, 0, 0, "sweetness"));
  f.attributes.back().deciding = false;
  of("one that decides nothing is noisier", f,
     "4~sheets of two brews at one level: largest difference 1.0 (body); too few to call clean.");
  f.blanks = {blank("sweetness", 1, 1.5), blank("gone_attribute", 1, 0.5)};
  of("no deciding one", f,
     "1~sheet of two brews at one level: largest difference 1,5 (sweetness); too few to call clean.", celsius_comma);
  f.blanks = {blank("gone_attribute", 12, 1.5)};
  f.blanks[0].too_few = false;
  f.blanks[0].at_least_margin = 2;
  f.blanks[0].share = {0.021, 0.484, 0.95};
  of("enough of them", f,
     "12~sheets of two brews at one level: largest difference 1.5 (gone_attribute); 2 of 12 at the margin or above (2 "
     "to 48 of 100).");
}

void yardsticks_and_repeats(Page& page) {
  auto f = deciding({"bitterness"});
  page.push_back({"no yardstick", reasons_titled("Yardstick", f, celsius), ""});
  evidence::YardstickControl bitter, body;
  bitter.attribute = "bitterness";
  bitter.lot = "L-07";
  bitter.sheets = 1;
  bitter.mean = -0.5;
  body = bitter;
  body.attribute = "body";
  body.lot = "L-12";
  body.sheets = 6;
  body.mean = -1.2;
  body.interval = Interval{-1.9, -0.5, 0.95};
  body.noticed = true;
  auto sweet = bitter;
  sweet.attribute = "sweetness";
  f.yardsticks = {sweet, body, bitter};
  page.push_back(
      {"body before others", reasons_titled("Yardstick", f, celsius_comma),
       "12~% dilution of L-12 tasted as \u22121,2 body (\u22121,9 to \u22120,5; 6~sheets, one pot): we notice "
       "it."});
  f.yardsticks = {bitter, sweet};
  page.push_back({"the first, not noticed", reasons_titled("Yardstick", f, celsius),
                  "! 12~% dilution of L-07 tasted as \u22120.5 bitterness: not shown that we notice it."});
  f.yardsticks[0].sheets = f.yardsticks[1].sheets = 0;
  page.push_back({"a yardstick without a sheet", reasons_titled("Yardstick", f, celsius), ""});

  page.push_back({"no repeats", reasons_titled("Repeat servings", f, celsius), ""});
  f.repeats = {{"bitterness", 2, 0.5, 1}, {"body", 1, 0.75, 1.5}, {"sweetness", 2, 0.6, 2}};
  page.push_back({"the noisiest repeat", reasons_titled("Repeat servings", f, celsius_comma),
                  "1~pair: the same brew pair came out 0,8 apart on average, at most 1,5 (body)."});
  f.repeats = {{"bitterness", 2, 0.5, 1}};
  page.push_back({"two repeats", reasons_titled("Repeat servings", f, celsius),
                  "2~pairs: the same brew pair came out 0.5 apart on average, at most 1.0 (bitterness)."});
}

void lean(Page& page) {
  auto f = deciding({"bitterness", "body"});
  auto aside = found(Word::noted, 0, 0, 0, "sweetness");
  aside.deciding = aside.both_orders = false;
  aside.order_gap = true;
  f.attributes.push_back(aside);
  const auto of = [&](const std::string& facts, const std::string& sentence, const Style& style = celsius) {
    page.push_back({facts, reasons_titled("First cup", f, style), sentence});
  };
  of("no lean known", "");
  f.lean = 0.3;
  of("up", "leans up by 0.3, cancelled by the balance.");
  f.lean = -0.3;
  of("down", "leans down by 0,3, cancelled by the balance.", celsius_comma);
  f.attributes[0].order_gap = f.attributes[1].order_gap = true;
  of("orders differ",
     "! leans down by 0.3, cancelled by the balance. The two orders differ by more than the margin on bitterness and "
     "body.");
  f.attributes[0].order_gap = f.attributes[1].order_gap = false;
  f.attributes[1].both_orders = false;
  of("one order only", "! leans down by 0.3, not fully cancelled: some brew pairs were tasted in one order only.");
}

void drifts(Page& page) {
  auto f = deciding({"bitterness", "finish_length"});
  evidence::DriftEffect effect;
  effect.lot = "L-12";
  effect.drift.set = 1;
  effect.drift.what = ConstantKind::chill;
  f.drifts = {effect};
  const auto of = [&](const std::string& facts, const std::string& sentence, const Style& style = celsius) {
    page.push_back({facts, reasons_titled("Drift", f, style), sentence});
  };
  const std::string chilled = "! L-12, first brew pair: chilled another way than planned. May show as body and aroma.";
  of("nothing left without it", chilled + " Without it nothing is left to judge.");
  f.drifts[0].without = {{"bitterness", 1.4, Word::moved},
                         {"finish_length", std::log(1.2), Word::open},
                         {"gone_attribute", -0.2, Word::open}};
  of("without it", chilled + " Without it: bitterness +1,4, finish length ×1,20 and gone_attribute \u22120,2.",
     celsius_comma);
  f.drifts[0].without.clear();
  for (auto& a : f.attributes) a.deciding = false;
  of("nothing was to be decided", chilled);
  f.drifts[0].drift.set = 0;
  f.drifts[0].drift.what = ConstantKind::eyes;
  of("a control, no effect known", "! L-12, a control brew: what hides colour 0~s for 0~s, 0~s past the ±0~s allowed.");
}

}  // namespace

Page controls_page() {
  Page page;
  blanks(page);
  yardsticks_and_repeats(page);
  lean(page);
  drifts(page);
  return page;
}

Page reasons_page() {
  Page page;
  auto f = deciding({"bitterness"});
  const auto of = [&](const std::string& facts, const std::string& title, const std::string& sentence,
                      const Style& style = celsius) {
    page.push_back({facts, reasons_titled(title, f, style), sentence});
  };

  const RidingAlong warm{Riding::water_temperature, true, 1.5};
  f.one_variable.problems = {{OneVariableProblem::Kind::as_brewed, {}, warm}};
  of("another variable", "More than one variable",
     "! water temperature: as brewed the levels differed by 2,7~°F on average", fahrenheit_comma);
  f.one_variable.riding = {
      {Riding::pour_order, true, 0.8}, {Riding::liquor_age, true, 42.5}, {Riding::vessel, false, 0}};
  of("what rides along", "Rides along",
     "! Pour order goes with the level. | ! Liquor age goes with the level: 42,5 s on average.", celsius_comma);

  f.guesses.guessed = 1;
  f.guesses.right = 1;
  of("one guess", "Blindness",
     "Tasters guessed which was which on 1~sheet: 1 right. 0~sheets saw a difference before tasting.");
  f.guesses = {36, 1, 20, 15, 0.021, true};
  of("too many right guesses", "Possibly unblinded",
     "! Tasters guessed which was which on 20~sheets: 15 right (chance of that many by luck 0,021). 1~sheet saw a "
     "difference before tasting.",
     celsius_comma);
  f.guesses = {};
  of("no guess", "Blindness", "");

  f.voided = 1;
  of("one void", "Voided", "1~pair voided with a reason and brewed again under spare codes.");
  f.voided = 2;
  of("two voids", "Voided", "2~pairs voided with a reason and brewed again under spare codes.");
  f.voided = 0;
  of("no void", "Voided", "");
  f.amended = 1;
  of("one amendment", "Amended", "1~entry after lock, each with old value, new value and reason in the annex.");
  f.amended = 3;
  of("three", "Amended", "3~entries after lock, each with old value, new value and reason in the annex.");
  f.amended = 0;
  of("none", "Amended", "");

  of("no exclusion", "Excluded sheets", "");
  f.excluded_before = 2;
  of("excluded before", "Excluded sheets", "2~sheets left out before the key was opened, with a reason.");
  f.excluded_after = 1;
  of("excluded before and after", "Excluded sheets",
     "! 2~sheets left out before the key was opened, with a reason. 1~sheet excluded after it: the answer stands as it "
     "was.");
  f.excluded_before = 0;
  f.attributes[0].estimate_with_late_exclusions = 1.4;
  f.attributes.push_back(found(Word::noted, 0, 0, 0, "body"));
  f.attributes[1].deciding = false;
  f.attributes[1].estimate_with_late_exclusions = 0.5;
  of("one excluded after", "Excluded sheets",
     "! 1~sheet excluded after it: the answer stands as it was; without it: bitterness +1,4.", celsius_comma);
  f.excluded_after = 2;
  of("two excluded after", "Excluded sheets",
     "! 2~sheets excluded after it: the answer stands as it was; without them: bitterness +1.4.");

  const auto seal = [&](const std::string& facts, const Unmasked& trial, const std::string& sentence) {
    page.push_back({facts, reasons_titled("Seal", f, celsius, trial), sentence});
  };
  seal("intact", unmasked(),
       "Plan, key and sheets are as they were sealed and locked. It proves tampering only against a printed copy.");
  seal("plan", unmasked(false), "! Plan not as sealed.");
  seal("key", unmasked(true, false), "! Key not as sealed.");
  seal("sheets", unmasked(true, true, false), "! Sheets not as sealed.");
  seal("from paper tables", unmasked(true, true, true, true), "");
  return page;
}

}  // namespace likeleaf::book
