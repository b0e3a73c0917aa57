// What a session does is on disk, all of it, and comes back the same.
#include "core/session/session.h"
#include "core/codec/builtin.h"

#include <algorithm>

#include "core/acts/agreed_words.h"
#include "core/codec/trial_document.h"
#include "core/session/taster_port.h"
#include "tests/core/store/bench_book.h"
#include "tests/core/store/whole_life.h"

namespace likeleaf::test {
namespace {

TEST(Session, EverythingThatHappensToATrialComesBackFromTheBookAsItWas) {
  Folder folder;
  World world;
  std::shared_ptr<const Trial> before;
  {
    auto session = new_bench(folder / "a.leafbook", world);
    live_through(*session, world);
    ASSERT_OK(session->flush());
    before = session->trial();
  }
  ASSERT_FALSE(before->voids.empty());
  ASSERT_TRUE(before->unmasked);
  auto session = Session::open(folder / "a.leafbook", OpenWay::read_only, world.services());
  ASSERT_OK(session);
  const auto after = (*session)->read(before->id());
  ASSERT_OK(after);
  EXPECT_EQ(first_difference(*before, **after), "");
  EXPECT_EQ(trial_text(*before, (*session)->registers(), (*session)->attributes()),
            trial_text(**after, (*session)->registers(), (*session)->attributes()));
  EXPECT_EQ((*session)->registers(), FerryPier().registers);
  const auto health = (*session)->check_book();
  EXPECT_TRUE(health.findings.empty()) << words_of(health.findings.front());
  EXPECT_EQ(health.sealed, 1);
  EXPECT_EQ(health.locked_sheets, static_cast<int>(live_servings(**after).size()));
}

TEST(Session, WhatIsWrittenIsTheDifferenceAfterEveryStep) {
  // The rows follow from differences of snapshots; a row forgotten in any step would show in the next reading.
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  const auto id = sealed_trial(*session);
  const auto serving = session->trial()->servings.front().id;
  const Scope scope{Scope::Kind::sheet, serving.text()};
  const auto reads_back = [&] {
    done(session->flush());
    const auto now = session->trial();
    Session& reader = *session;
    const auto other = reader.new_trial(Plan{}).value();  // off the bench, so that read() goes to the disk
    const auto read = reader.read(id).value();
    done(reader.take(other));
    done(reader.take(id));
    return first_difference(*now, *read);
  };
  session->run(StartSheet{serving}).value();
  EXPECT_EQ(reads_back(), "");
  session->run(PutMark{serving, Side::left, "bitterness", *Score::from_halves(15)}).value();
  EXPECT_EQ(reads_back(), "");
  session->run(PutMark{serving, Side::left, "bitterness", *Score::from_halves(13)}).value();
  session->run(PutDirect{serving, "bitterness", Direct::left_more}).value();
  session->run(PutWords{serving, Side::left, {{"hay", 1}}}).value();
  EXPECT_EQ(reads_back(), "");
  session->run(PutMark{serving, Side::left, "bitterness", std::nullopt}).value();
  session->run(PutDirect{serving, "bitterness", std::nullopt}).value();
  session->run(PutWords{serving, Side::left, {}}).value();
  EXPECT_EQ(reads_back(), "");
}

TEST(Session, UndoAndRedoGoBackAndForthOnOneSheetAndReachTheDisk) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  sealed_trial(*session);
  const auto serving = session->trial()->servings.front().id;
  const Scope scope{Scope::Kind::sheet, serving.text()};
  const auto mark = [&]() -> std::optional<Mark> {
    const auto& marks = session->trial()->sheets.at(serving)->left.marks;
    const auto found = marks.find("body");
    return found == marks.end() ? std::nullopt : std::optional(found->second);
  };
  session->run(StartSheet{serving}).value();
  session->run(PutMark{serving, Side::left, "body", *Score::from_halves(4)}).value();
  session->run(PutMark{serving, Side::left, "body", *Score::from_halves(6)}).value();
  EXPECT_FALSE(session->can_redo(scope));
  ASSERT_OK(session->undo(scope));
  EXPECT_EQ(mark(), Mark(*Score::from_halves(4)));
  ASSERT_OK(session->undo(scope));
  EXPECT_EQ(mark(), std::nullopt);
  ASSERT_OK(session->redo(scope));
  ASSERT_OK(session->redo(scope));
  EXPECT_EQ(mark(), Mark(*Score::from_halves(6)));
  EXPECT_FALSE(session->can_redo(scope));
  ASSERT_OK(session->run(LockSheet{serving}));
  EXPECT_FALSE(session->can_undo(scope));
}

TEST(Session, KeptIsToldOnlyAfterTheDispatcherRunsAndNamesTheNewestTicket) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  done(session->flush());
  world.dispatcher.pump();
  Ticket heard = 0;
  const auto subscription = session->on_kept([&](const Kept& kept) { heard = std::max(heard, kept.up_to); });
  Lot lot = session->registers().lots.front();
  lot.name = "spring";
  const auto ticket = session->put(lot);
  ASSERT_OK(ticket);
  ASSERT_OK(session->flush());
  EXPECT_EQ(heard, 0U);
  world.dispatcher.pump();
  EXPECT_EQ(heard, *ticket);
}

TEST(Session, ARecordNeedsANameThatIsNotTaken) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  Lot lot = session->registers().lots.front();
  lot.id = id_of<Lot>(999);
  EXPECT_EQ(session->put(lot).error().kind, ErrorKind::duplicate);
  EXPECT_EQ(session->put(lot).error().value, "L-07");
  lot.code.clear();
  EXPECT_EQ(session->put(lot).error().kind, ErrorKind::missing);
  EXPECT_EQ(session->put(named_attribute("bitterness")).error().kind, ErrorKind::duplicate);
  EXPECT_EQ(session->put(named_attribute("Sea air")).error().kind, ErrorKind::bad_value);
}

TEST(Session, ASealIsRefusedWithTheFirstThingThatStandsInItsWayAndNothingIsSealed) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  Plan plan = FerryPier().trial_15();
  plan.assessors.clear();
  session->new_trial(plan).value();
  const auto sealed = session->seal();
  ASSERT_FALSE(sealed);
  EXPECT_FALSE(session->trial()->sealed);
  EXPECT_EQ(session->ledger().front().stage, Stage::plan);
}

TEST(Session, UnmaskNamesTheOpenSheetsAndLeavesTheTrialMasked) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  sealed_trial(*session);
  const auto unmasked = session->unmask("H.");
  ASSERT_FALSE(unmasked);
  EXPECT_NE(words_of(unmasked.error()).find("R."), std::string::npos) << words_of(unmasked.error());
  EXPECT_FALSE(session->unmasked());
}

TEST(Session, TheLedgerListsNewestFirstWithStageAndCounts) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  sealed_trial(*session);
  fill_sheet(*session, session->trial()->servings.front().id);
  session->run(LockSheet{session->trial()->servings.front().id}).value();
  session->new_trial(FerryPier().trial_14()).value();
  const auto rows = session->ledger();
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_GT(rows[0].number, rows[1].number);
  EXPECT_EQ(rows[0].lever, FerryPier().trial_14().lever);
  EXPECT_EQ(rows[0].lots, (std::vector<std::string>{"L-07", "L-12", "L-18"}));
  EXPECT_EQ(rows[0].stage, Stage::plan);
  EXPECT_EQ(rows[1].stage, Stage::brew_and_taste);
  EXPECT_EQ(rows[1].sheets_locked, 1);
  EXPECT_EQ(rows[1].sheets, static_cast<int>(session->read(rows[1].id).value()->servings.size()));
}

TEST(Session, ANumberThatNoTrialHasIsRefusedWithThoseAroundIt) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  EXPECT_EQ(session->take_number(9).error().allowed, "no trial yet");
  Plan plan;
  for (const int number : {12, 15, 40}) {
    plan.number = number;
    session->new_trial(plan).value();
    if (number == 12) {
      EXPECT_EQ(session->take_number(9).error().allowed, "12");
    }
  }
  EXPECT_EQ(session->take_number(9).error().kind, ErrorKind::not_found);
  EXPECT_EQ(session->take_number(9).error().allowed, "12 to 40, the nearest 12");
  EXPECT_EQ(session->take_number(20).error().allowed, "12 to 40, the nearest 15 and 40");
  EXPECT_EQ(session->take_number(41).error().allowed, "12 to 40, the nearest 40");
}

TEST(Session, TheLastTicketMovesWithEveryThingThatIsKeptAndOnlyWithThat) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  auto last = session->last_ticket();
  const auto moved = [&] { return std::exchange(last, session->last_ticket()) != session->last_ticket(); };
  const auto id = session->new_trial(FerryPier().trial_15()).value();
  EXPECT_TRUE(moved());
  Plan plan = session->trial()->draft;
  plan.question = "And now?";
  session->run(SetPlan{plan}).value();
  EXPECT_TRUE(moved());
  session->new_trial(Plan{}).value();
  EXPECT_TRUE(moved());
  done(session->take(id));
  EXPECT_EQ(session->ledger().size(), 2U);
  EXPECT_FALSE(moved());
}

TEST(Session, ACheckSaysHowFarItIsAndStopsWhenAsked) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  for (int i = 0; i < 8; ++i) session->new_trial(Plan{}).value();
  std::vector<double> shares;
  const auto health = session->check_book({}, [&](double share) { shares.push_back(share); });
  EXPECT_FALSE(health.stopped);
  EXPECT_EQ(health.trials, 8);
  ASSERT_GT(shares.size(), 8U);
  EXPECT_TRUE(std::ranges::is_sorted(shares));
  EXPECT_EQ(shares.back(), 1);
  std::stop_source stop;
  const auto half = session->check_book(stop.get_token(), [&](double share) {
    if (share > 0.6) stop.request_stop();
  });
  EXPECT_TRUE(half.stopped);
  EXPECT_GT(half.trials, 0);
  EXPECT_LT(half.trials, 8);
  EXPECT_TRUE(half.findings.empty());
  EXPECT_EQ(session->check_book().trials, 8) << "the next check is whole again";
}

TrialImport import_of(Session& from, IdOf<Trial> id) {
  TrialImport import;
  import.trial = *from.read(id).value();
  import.registers = registers_of(import.trial.draft, from.registers());
  import.attributes = attributes_of(import.trial.draft, from.attributes());
  import.digest = trial_digest(import.trial, from.registers(), from.attributes());
  return import;
}

TEST(Import, TwiceChangesNothingAndOtherContentUnderTheSameIdIsRefusedByName) {
  Folder folder;
  World world;
  auto source = new_bench(folder / "a.leafbook", world);
  live_through(*source, world);
  auto import = import_of(*source, source->trial()->id());
  auto target = Session::create(folder / "b.leafbook", world.services());
  ASSERT_OK(target);
  auto first = (*target)->import_trial(import);
  ASSERT_OK(first);
  EXPECT_FALSE(first->skipped);
  EXPECT_EQ(first_difference(import.trial, *(*target)->read(first->trial).value()), "");
  const auto again = (*target)->import_trial(import);
  ASSERT_OK(again);
  EXPECT_TRUE(again->skipped);
  EXPECT_EQ((*target)->ledger().size(), 1U);
  // The book it came from has it already, though not by a bundle.
  EXPECT_TRUE(source->import_trial(import).value().skipped);
  import.digest = std::string(64, '0');
  const auto other = (*target)->import_trial(import);
  ASSERT_FALSE(other);
  EXPECT_EQ(other.error().kind, ErrorKind::conflict);
  EXPECT_EQ(other.error().value, "trial " + std::to_string(first->number));
}

TEST(Import, ANumberThatIsTakenGivesTheNextAndALotCodeThatMeansAnotherLotIsRefusedWhole) {
  Folder folder;
  World world;
  auto source = new_bench(folder / "a.leafbook", world);
  sealed_trial(*source);
  auto import = import_of(*source, source->trial()->id());
  auto target = new_bench(folder / "b.leafbook", world);
  Plan same_number;
  same_number.number = import.trial.draft.number;
  target->new_trial(same_number).value();
  const auto kept = target->import_trial(import);
  ASSERT_OK(kept);
  EXPECT_EQ(kept->number, import.trial.draft.number + 1);
  auto other = Session::create(folder / "c.leafbook", world.services());
  ASSERT_OK(other);
  Lot lot;
  lot.id = id_of<Lot>(777);
  lot.code = "L-25";
  (*other)->put(lot).value();
  const auto refused = (*other)->import_trial(import);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::conflict);
  EXPECT_EQ(refused.error().value, "L-25");
  EXPECT_TRUE((*other)->ledger().empty());
  EXPECT_EQ((*other)->registers().lots.size(), 1U);
  EXPECT_TRUE((*other)->registers().assessors.empty());
}

TEST(TasterPort, ShowsAndTakesOnlyTheAssessorsOwnServingsAndEndsWithTheTrial) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  const FerryPier pier;
  session->new_trial(pier.trial_15()).value();
  EXPECT_EQ(session->taster(pier.r).error().kind, ErrorKind::not_allowed);
  session->seal().value();
  EXPECT_EQ(session->taster(pier.o).error().kind, ErrorKind::not_allowed);
  auto port = session->taster(pier.r).value();
  const auto flight = port->flight();
  std::vector<BlindServing> own;
  for (const auto* serving : live_servings(*session->trial()))
    if (serving->assessor == pier.r) own.push_back(*serving);
  EXPECT_EQ(flight, own);
  ASSERT_FALSE(flight.empty());
  const auto others = std::ranges::find(session->trial()->servings, pier.k, &BlindServing::assessor)->id;
  EXPECT_EQ(port->start(others, EnteredBy::screen).error().kind, ErrorKind::not_allowed);
  const auto mine = flight.back().id;
  ASSERT_OK(port->start(mine, EnteredBy::screen));
  ASSERT_OK(port->put(mine, Side::left, "body", *Score::from_halves(9)));
  EXPECT_EQ(port->sheet(mine).left.marks.at("body"), Mark(*Score::from_halves(9)));
  ASSERT_OK(port->undo(mine));
  EXPECT_TRUE(port->sheet(mine).left.marks.empty());
  // A voided pair leaves the flight and its spare comes in, through the blind connection.
  session->run(VoidPair{flight.back().pair, "H.", "spilt"}).value();
  const auto now = port->flight();
  EXPECT_EQ(now.size(), flight.size());
  EXPECT_EQ(std::ranges::count(now, flight.back()), 0);
  session->new_trial(Plan{}).value();
  EXPECT_EQ(port->start(now.back().id, EnteredBy::screen).error().kind, ErrorKind::not_allowed);
}

TEST(Reports, AreKeptAsMadeAndListedNewestFirst) {
  Folder folder;
  World world;
  {
    auto session = new_bench(folder / "a.leafbook", world);
    const auto id = sealed_trial(*session);
    const MadeReport first{{}, id, {}, "Likeleaf 0.1.0", "Trial 15", "PDF", R"({"blocks":[]})"};
    EXPECT_EQ(session->keep_report(first).error().kind, ErrorKind::not_allowed) << "the key is closed";
    lock_everything(*session);
    session->unmask("H.").value();
    std::vector<std::string> heard;
    const auto hears = session->on_change([&](const Notice& notice) {
      if (notice.part == Part::reports) heard.push_back(notice.record);
    });
    EXPECT_NE(session->keep_report(first).value(), 0u);
    EXPECT_EQ(session->keep_report(first).value(), 0u) << "the same report is kept once";
    world.clock.advance(seconds(60));
    MadeReport second = first;
    second.program = "Likeleaf 0.2.0";
    second.document = R"({"blocks":[1]})";
    EXPECT_NE(session->keep_report(second).value(), 0u);
    second.document.clear();
    EXPECT_EQ(session->keep_report(second).error().kind, ErrorKind::missing);
    EXPECT_EQ(heard.size(), 2u);
    done(session->flush());
  }
  auto session = Session::open(folder / "a.leafbook", OpenWay::read_only, world.services());
  ASSERT_OK(session);
  const auto id = (*session)->ledger().front().id;
  const auto list = (*session)->reports(id).value();
  ASSERT_EQ(list.size(), 2u);
  EXPECT_EQ(list[0].program, "Likeleaf 0.2.0");
  EXPECT_EQ(list[1].program, "Likeleaf 0.1.0");
  EXPECT_TRUE(list[0].document.empty()) << "lists are short";
  EXPECT_LT(list[1].made, list[0].made);
  EXPECT_EQ((*session)->report(list[1].id).value().document, R"({"blocks":[]})");
  EXPECT_EQ((*session)->report(IdOf<MadeReport>()).error().kind, ErrorKind::not_found);
  EXPECT_EQ((*session)->keep_report(list[0]).error().kind, ErrorKind::read_only);
}

TEST(Session, ARuleThatWasLeftIsNotAdoptedInTheLedger) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  sealed_trial(*session);
  lock_everything(*session);
  session->unmask("H.").value();
  AdoptedRule rule{"45 s", {}, "", "H.", "", false, {}, true, "no need"};
  session->run(AdoptRule{rule}).value();
  EXPECT_FALSE(session->ledger().front().adopted);
  session->run(AdoptRule{{"45 s", {}, "May", "H.", "June", false, {}}}).value();
  EXPECT_TRUE(session->ledger().front().adopted);
}

TEST(Session, AHouseWordOfABuiltInAttributeComesBackAndNothingElseOfItCanBeChanged) {
  Folder folder;
  World world;
  {
    auto session = new_bench(folder / "a.leafbook", world);
    Attribute brisk = *find_attribute(session->attributes(), "astringency");
    brisk.house_word = "brisk";
    ASSERT_OK(session->put(brisk));
    EXPECT_EQ(find_attribute(session->attributes(), "astringency")->house_word, "brisk");
    EXPECT_EQ(session->attributes().size(), builtin_attributes().size());
    Attribute other = brisk;
    other.definition = "something else";
    EXPECT_EQ(session->put(other).error().kind, ErrorKind::duplicate);
    ASSERT_OK(session->flush());
  }
  auto session = Session::open(folder / "a.leafbook", OpenWay::read_only, world.services());
  ASSERT_OK(session);
  EXPECT_EQ((*session)->attributes().size(), builtin_attributes().size());
  EXPECT_EQ(find_attribute((*session)->attributes(), "astringency")->house_word, "brisk");
}

TEST(Session, ARecordWhoseTextIsTooLongOrOfSeveralLinesIsRefusedAndTheOldOneStays) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  Lot lot = session->registers().lots.front();
  const Lot before = lot;
  lot.code = std::string(61, 'L');
  EXPECT_EQ(session->put(lot).error().kind, ErrorKind::too_large);
  lot = before;
  lot.origin = "one\ntwo";
  EXPECT_EQ(session->put(lot).error().kind, ErrorKind::bad_value);
  lot = before;
  lot.notes = std::string(4001, 'n');
  EXPECT_EQ(session->put(lot).error().kind, ErrorKind::too_large);
  EXPECT_EQ(session->registers().lots.front(), before);
}

TEST(Session, WordsAgreedOnTheDayReachEveryTaster) {
  Folder folder;
  World world;
  auto session = new_bench(folder / "a.leafbook", world);
  sealed_trial(*session);
  session->run(keep_agreed_words(*session->trial(), "body: how thick").value()).value();
  for (const auto& taster : tasters(session->trial()->sealed->plan)) {
    const auto port = session->taster(taster);
    ASSERT_OK(port);
    EXPECT_EQ((*port)->setup().agreed_words, "body: how thick");
  }
}

}  // namespace
}  // namespace likeleaf::test
