#pragma once
// All that can happen to a trial, for tests of what is kept.
#include <stdexcept>

#include "tests/core/store/bench_book.h"

namespace likeleaf::test {

/// One trial with a row in every table.
inline void live_through(Session& session, World& world) {
  const auto id = sealed_trial(session);
  const auto trial = session.trial();
  const FerryPier pier;
  const auto tick = [&] { world.clock.advance(seconds(7)); };
  session.run(TickWeighed{pier.l25}).value();
  session.run(OpenKey{pier.o}).value();
  const auto brew = trial->brews.begin()->first;
  for (const auto kind : {StampKind::pour_start, StampKind::pour_end, StampKind::drain_start}) {
    tick();
    session.run(PutStamp{brew, kind}).value();
  }
  session.run(UndoStamp{brew}).value();
  // Only stamps keep the uncorrected clock; for the rest it stands at "not known" here.
  world.clock = HandClock({world.clock.now().utc_ms, 60, 0});
  session.run(PutReading{brew, celsius(84), "kettle"}).value();
  session.run(PutBrewFacts{brew, Mass(4010), {}, 55, 680, {}, "a leaf stuck to the lid"}).value();
  session.run(PutServed{{trial->servings.front().pair, world.clock.now(), celsius(42), celsius(41)}}).value();
  session.run(CloseKey{pier.o}).value();
  session.run(PutDayState{{pier.r, 1, true, false, true, "a cold", world.clock.now()}}).value();
  const auto serving = trial->servings.back().id;
  session.run(StartSheet{serving}).value();
  session.run(PutWords{serving, Side::left, {{"hay", 2}, {"pier rope", {}}}}).value();
  session.run(PutFault{serving, Side::right, true, "smoke"}).value();
  session.run(PutSheetNote{serving, "a note; with 'quotes' and \xC3\xBC"}).value();
  session.run(PutSippedFirst{serving, Side::right}).value();
  session.run(PutMark{serving, Side::left, "bitterness", NoScore::not_tasted}).value();
  session.run(VoidPair{trial->servings[trial->servings.size() / 2].pair, "H.", "spilt"}).value();
  const auto paper = trial->servings.front().id;
  session.run(StartSheet{paper, EnteredBy::paper}).value();
  session.run(PutMark{paper, Side::left, "bitterness", *Score::from_halves(10)}).value();
  session.run(PutSecondReading{paper, Side::left, "bitterness", *Score::from_halves(12)}).value();
  session.run(PutSecondReading{paper, Side::right, "body", NoScore::spoilt}).value();
  session.run(PutSecondReading{paper, Side::right, "body", std::nullopt}).value();
  session.run(PutSecondAnswer{paper, "bitterness", Direct::cannot_tell}).value();
  session.run(SettleReading{paper, Side::left, "bitterness", *Score::from_halves(10), *Score::from_halves(10)}).value();
  session.run(SettleAnswer{paper, "bitterness", Direct::left_more, Direct::left_more}).value();
  lock_everything(session);
  session.run(PutGuess{serving, {true, Side::left}}).value();
  session.run(Exclude{serving, "H.", "a cold"}).value();
  Amendment amendment;
  amendment.serving = session.trial()->servings.front().id;
  amendment.side = Side::left;
  amendment.field = "bitterness";
  amendment.new_value = "7";
  amendment.who = "H.";
  amendment.why = "read the paper wrong";
  session.run(Amend{amendment}).value();
  session.unmask("H.").value();
  session.run(AdoptRule{{"L-25 steeps 45 s", {pier.l25}, "from May", "H.", "next spring", true, world.clock.now()}})
      .value();
  if (session.trial()->id() != id) throw std::runtime_error("another trial is on the bench");
}

}  // namespace likeleaf::test
