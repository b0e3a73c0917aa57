// The preparer's bench, act by act.
#include "core/wording/brew_text.h"
#include "tests/core/domain/brews.h"
#include "tests/core/wording/book.h"

namespace likeleaf::book {
namespace {

using namespace wording;
using test::at;
using test::brew_of;
using test::FerryPier;
using test::infuse;
using test::stamp;
using test::two_infusions;
using Kind = StampKind;

constexpr Kind all_kinds[] = {Kind::pour_start, Kind::pour_end,    Kind::drain_start,
                              Kind::drain_end,  Kind::chill_start, Kind::ready};

/// What one function says of every kind of stamp.
template <class Said>
std::string of_every_kind(Said said) {
  std::string out;
  for (const auto kind : all_kinds) out += (out.empty() ? "" : " | ") + said(kind);
  return out;
}

Plan without(Plan plan, ConstantKind kind) {
  std::erase_if(plan.constants, [&](const Constant& c) { return c.kind == kind; });
  return plan;
}

SealedPlan sealed_14() {
  SealedPlan sealed;
  sealed.plan = FerryPier().trial_14();
  sealed.registers = FerryPier().registers;
  return sealed;
}

void clocks(Page& page) {
  page.push_back({"seconds", clock_words(seconds(11)), "0:11"});
  page.push_back({"minutes", clock_words(seconds(725)), "12:05"});
  page.push_back({"too early", clock_words(seconds(-5)),
                  "\u2212"
                  "0:05"});
  page.push_back({"hardly too early", clock_words(Duration(-999)), "0:00"});
  page.push_back({"hours", clock_words(seconds(3730)), "1:02:10"});
}

void phases(Page& page) {
  page.push_back({"before the first stamp", phase_name(nullptr) + ": " + phase_hint(nullptr),
                  "Get ready: portion in the vessel, water at hand"});
  page.push_back({"after each stamp", of_every_kind([](Kind kind) {
                    const Stamp last{kind, 1, at(0), {}};
                    return phase_name(&last);
                  }),
                  "Pour | Steep | Drain | Drained | Cool | Hold"});
  page.push_back({"hints", of_every_kind([](Kind kind) {
                    const Stamp last{kind, 1, at(0), {}};
                    return phase_hint(&last);
                  }),
                  "all the water, without a pause | lid on, leave it alone | pull the strainer, pour it all out | to "
                  "the chill, or the next infusion | lid on, type a reading now and then | lidded, until its pair is "
                  "served"});
  page.push_back(
      {"stamps", of_every_kind(stamp_name), "Pour starts | Poured | Drain starts | Drained | Chill starts | Ready"});
  const Plan plan = FerryPier().trial_14();
  Brew brew = brew_of(4);
  page.push_back({"no stamp", phase_text(brew), "not poured"});
  page.push_back({"no stamp, and then", progress_text(plan, brew), "not poured, next pour starts"});
  stamp(stamp(brew, Kind::pour_start, 0), Kind::pour_end, 10);
  page.push_back({"poured", phase_text(brew), "steep"});
  page.push_back({"poured, and then", progress_text(plan, brew), "steep since 01:00:10, next drain starts"});
  stamp(brew, Kind::ready, 20);
  page.push_back({"ready, nothing then", progress_text(plan, brew), "hold since 01:00:20"});
}

void tables(Page& page) {
  page.push_back({"a warm-up", pair_name(0, false), "warm-up"});
  page.push_back({"a pair", pair_name(2, false), "pair 2"});
  page.push_back({"a pair brewed again", pair_name(2, true), "pair 2 again"});
  const Plan plan = FerryPier().trial_14();
  page.push_back({"held in the bath", hold_name(plan, fahrenheit), "lidded, 107.6~°F"});
  page.push_back({"no longest hold", hold_name(without(plan, ConstantKind::longest_hold), celsius), "hold"});
  const Plan at_no_temperature = without(plan, ConstantKind::tasting_temperature);
  page.push_back({"no tasting temperature", hold_name(at_no_temperature, celsius), "hold"});
  page.push_back(
      {"the first sip", first_sip_text(plan, fahrenheit_comma), "first sip at 107,6~°F, both cups within 1,8~°F"});
  page.push_back({"no temperature to sip at", first_sip_text(at_no_temperature, celsius), ""});
  page.push_back({"both ready", not_ready_text({}, true), ""});
  page.push_back({"one not ready", not_ready_text({3}, true), ": brew 3 not ready"});
  page.push_back({"none ready", not_ready_text({9, 10}, true), ": brew 9 and 10 not ready"});
  page.push_back({"without the key", not_ready_text({9, 10}, false), ": a cup of it is not ready"});
  TakenOut out{2, "O.", "spilt", {}};
  page.push_back({"taken out, no spare", taken_out_text(out), "pair 2, taken out: spilt (O.). Not brewed again."});
  out.again = BrewedAgain{*BlindCode::from(731), *BlindCode::from(812), {31, 32}};
  page.push_back({"taken out, brewed again", taken_out_text(out),
                  "pair 2, taken out: spilt (O.). Brewed again under 731 and 812 as brew 31 and 32."});
  page.push_back({"portions of one dose", portions_text("L-12", 18, grams(4), celsius), "L-12: 18 portions, 4~g each"});
  page.push_back({"portions by level", portions_text("L-12", 18, {}, celsius),
                  "L-12: 18 portions, masses from the preparer’s print"});
}

void tasks(Page& page) {
  const auto of = [&](const std::string& facts, const BenchTask& task, const std::string& sentence,
                      const Style& style = celsius) {
    page.push_back({facts, task_text(task, style), sentence});
  };
  of("nothing to do", {}, "");
  of("a pour", PourNow{grams(200), Temperature(88'000)}, "200~g at 190,4~°F", fahrenheit_comma);
  of("a pour at no temperature", PourNow{grams(200), {}}, "200~g");
  of("a pour of no mass", PourNow{{}, Temperature(88'000)}, "88~°C");
  of("a pour of which nothing is asked", PourNow{}, "");
  of("a drain to come", DrainAt{seconds(36), Duration(1)}, "drain at 0:36");
  of("a drain due", DrainAt{seconds(36), Duration(0)}, "drain now");
  of("hardly late", DrainAt{seconds(36), Duration(-999)}, "drain now");
  of("late", DrainAt{seconds(36), seconds(-9)}, "drain now, 0:09 late");
}

void captions(Page& page) {
  Plan plan = two_infusions();
  Brew brew = brew_of(1);
  const auto of = [&](const std::string& facts, Kind kind, const std::string& sentence, bool keyed = true) {
    page.push_back({facts, clock_caption(plan, brew, Stamp{kind, 1, at(0), {}}, UsualTimes{}, keyed), sentence});
  };
  of("pouring", Kind::pour_start, "of about 0:15");
  of("steeping", Kind::pour_end, "of 1:00 from mid-pour");
  of("steeping, a steep would tell the level", Kind::pour_end, "from mid-pour", false);
  of("draining", Kind::drain_start, "of about 0:18");
  of("drained, contact time not known", Kind::drain_end, "");
  infuse(brew, 0);
  of("drained", Kind::drain_end, "steeped 0:45");
  of("chilling", Kind::chill_start, "of about 3:30");
  of("in the bath", Kind::ready, "of 10:00 at most");
  plan.constants.clear();
  plan.lever.levels[0].schedule.clear();
  of("in the bath, no limit", Kind::ready, "");
  of("steeping, no time asked", Kind::pour_end, "from mid-pour");
}

void recipes(Page& page) {
  const FerryPier pier;
  const Plan twice = two_infusions();
  page.push_back({"the second infusion", of_every_kind([&](Kind kind) {
                    return act_text(twice, brew_of(1), {kind, 2}, true, celsius);
                  }),
                  "Pour 2 at 90~°C | Pour it all, then steep | Drain 2 | Drain to the last drop | Chill | To the "
                  "holding bath"});
  page.push_back({"without the key", act_text(twice, brew_of(1), {Kind::pour_start, 2}, false, celsius), "Pour 2"});
  page.push_back({"a single infusion", act_text(pier.trial_14(), brew_of(1, 1), {Kind::pour_start, 1}, true, celsius),
                  "Pour at 68~°C"});
  page.push_back({"no temperature asked", act_text(Plan{}, brew_of(1), {Kind::pour_start, 1}, true, celsius), "Pour"});
  page.push_back({"temperature is the lever", recipe_text(pier.trial_14(), brew_of(1), 1, celsius),
                  "88~°C, steep 45~s\n200~g water, 4~g leaf, preheated glass"});
  page.push_back({"steep is the lever", recipe_text(pier.trial_15(), brew_of(1, 2), 1, fahrenheit_comma),
                  "60~s, water at 185~°F\n200~g water, 4~g leaf, preheated glass"});
  page.push_back({"the leaf is in the pot already", recipe_text(twice, brew_of(1), 2, celsius),
                  "twice, water at 90~°C, steep 30~s\n150~g water, preheated glass"});
  Plan bare = pier.trial_14();
  bare.constants.clear();
  page.push_back({"nothing held", recipe_text(bare, brew_of(1), 1, celsius), "88~°C"});
  const SealedPlan sealed = sealed_14();
  page.push_back(
      {"cautions", of_every_kind([&](Kind kind) { return act_cautions(kind, sealed, celsius); }),
       "88~°C water scalds in seconds. Other hand clear, lid on the kettle. | 88~°C water scalds in seconds. Other "
       "hand clear, lid on the kettle. |  |  | Hot glass can break in ice. Use glass made for it, within its maker’s "
       "limits, and lower it slowly. | Liquor left standing warm does not keep. Pour away what is past its longest "
       "hold; local food rules come first."});
}

void cooling(Page& page) {
  const Brew brew = brew_of(4);
  CoolingBrew one{&brew, {}, at(0), false, false};
  const auto of = [&](const std::string& facts, const std::string& sentence, const Style& style = celsius) {
    page.push_back({facts, cooling_text(one, at(80), style), sentence});
  };
  of("not read yet", "brew 4   no reading   cooling 1:20");
  one.reading = Temperature(46'000);
  of("too warm", "brew 4   114,8~°F   cooling 1:20", fahrenheit_comma);
  one.cool_enough = true;
  of("cool enough", "brew 4   46~°C   to the bath now");
  one.in_bath = true;
  of("in the bath", "brew 4   46~°C   in the bath");
}

void drifts(Page& page) {
  const SealedPlan sealed = sealed_14();
  Drift drift;
  drift.lot = FerryPier().l12;
  drift.set = 2;
  drift.brew_number = 7;
  drift.planned = 45'000;
  drift.actual = 50'000;
  drift.tolerance = 3000;
  page.push_back({"a brew's drift", bench_drift_text(drift, sealed, celsius),
                  "Drift: brew 7, L-12, second brew pair: steep time 50~s for 45~s, 2~s past the ±3~s allowed"});
  drift.brew_number = 0;
  page.push_back({"a pair's", bench_drift_text(drift, sealed, celsius),
                  "Drift: L-12, second brew pair: steep time 50~s for 45~s, 2~s past the ±3~s allowed"});
  drift.lot = {};
  page.push_back({"of a lot that is not in the plan", bench_drift_text(drift, sealed, celsius),
                  "Drift: , second brew pair: steep time 50~s for 45~s, 2~s past the ±3~s allowed"});
}

}  // namespace

Page brews_page() {
  Page page;
  for (const auto part : {clocks, phases, tables, tasks, captions, recipes, cooling, drifts}) part(page);
  return page;
}

}  // namespace likeleaf::book
