#include "core/acts/command.h"

#include <gtest/gtest.h>

#include <set>

#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;
using TrialPtr = std::shared_ptr<const Trial>;

Mark score(int halves) {
  return *Score::from_halves(halves);
}
Error refusal(const TrialPtr& trial, const Command& command, const Moment& now) {
  const auto done = apply(trial, command, now);
  return done ? Error{ErrorKind::internal, "accepted", "", "", ""} : done.error();
}

class Commands : public ::testing::Test {
 protected:
  SmallTrial t;
  IdOf<Serving> kays = t.kays();
  IdOf<Brew> brew = t.sealed->key->pairs[1].cup_a.brew;
  Error refused(const TrialPtr& trial, const Command& command) { return refusal(trial, command, t.noon); }
  /// Applies, undoes by the inverse, and says whether the sheet (brew, plan) is as before.
  void comes_back(const TrialPtr& start, const Command& command, Scope::Kind kind) {
    const auto change = value_of(apply(start, command, t.at(60)));
    ASSERT_TRUE(change.inverse && change.scope);
    EXPECT_EQ(change.scope->kind, kind);
    const auto back = t.run(change.next, *change.inverse);
    EXPECT_EQ(back->draft, start->draft);
    for (const auto& [id, sheet] : start->sheets) EXPECT_EQ(*back->sheets.at(id), *sheet);
    for (const auto& [id, one] : start->brews) EXPECT_EQ(*back->brews.at(id), *one);
    EXPECT_FALSE(value_of(apply(change.next, command, t.at(70))).changed) << "the same again changes nothing";
  }
};

TEST_F(Commands, APlanChangesUntilTheSealAndKeepsItsIdAndNumber) {
  Plan other = t.planned->draft;
  other.id = {};
  other.number = 99;
  other.question = "And at 60 °C?";
  const auto next = t.run(t.planned, SetPlan{other});
  EXPECT_EQ(next->draft.question, other.question);
  EXPECT_EQ(next->draft.id, t.planned->draft.id);
  EXPECT_EQ(next->draft.number, 14);
  comes_back(t.planned, SetPlan{other}, Scope::Kind::plan);
  EXPECT_EQ(refused(t.sealed, SetPlan{other}).kind, ErrorKind::not_allowed);
  other.house = "\xFF";
  EXPECT_EQ(refused(t.planned, SetPlan{other}).where, "/house");
}

TEST_F(Commands, TheSealMakesBrewsAndServingsOnceAndChecksItsDigests) {
  EXPECT_EQ(t.sealed->brews.size(), 6u);
  EXPECT_EQ(t.sealed->brews.at(brew)->level, 0u);
  EXPECT_EQ(stage(*t.sealed), Stage::brew_and_taste);
  ApplySeal again{t.sealed->sealed, t.sealed->key, t.sealed->servings};
  EXPECT_EQ(refused(t.sealed, again).kind, ErrorKind::not_allowed);
  EXPECT_TRUE(apply(t.planned, again, t.noon));
  auto key = std::make_shared<Key>(*t.sealed->key);
  key->salt[0] ^= 1;
  EXPECT_FALSE(apply(t.planned, ApplySeal{again.sealed, key, again.servings}, t.noon));
  again.servings[0].left = *BlindCode::from(999);
  EXPECT_FALSE(apply(t.planned, again, t.noon));
}

TEST_F(Commands, NothingIsTastedOrBrewedBeforeTheSeal) {
  for (const Command& command : std::vector<Command>{PutMark{kays, Side::left, "bitterness", score(3)}, LockSheet{kays},
                                                     PutStamp{brew, StampKind::pour_start}, TickWeighed{t.lot},
                                                     VoidPair{t.contrast, "H.", "spilt"}, Exclude{kays, "H.", "cold"},
                                                     Unmask{"H."}, OpenKey{t.preparer}})
    EXPECT_EQ(refused(t.planned, command).kind, ErrorKind::not_allowed) << command.index();
}

TEST_F(Commands, MarksFitTheirScaleAndThePlan) {
  const auto next = t.run(t.sealed, PutMark{kays, Side::left, "bitterness", score(15)});
  EXPECT_EQ(next->sheets.at(kays)->left.marks.at("bitterness"), score(15));
  EXPECT_EQ(next->sheets.at(kays)->started, t.noon);
  EXPECT_TRUE(apply(t.sealed, PutMark{kays, Side::right, "aroma_register.top", score(4)}, t.noon));
  EXPECT_TRUE(apply(t.sealed, PutMark{kays, Side::right, "finish_length", Mark(NoScore::spoilt)}, t.noon));

  const auto kind = refused(t.sealed, PutMark{kays, Side::left, "bitterness", Mark(FinishTime::from_seconds(7))});
  EXPECT_EQ(kind.field, "bitterness, cup 417");
  EXPECT_EQ(kind.value, "7");
  EXPECT_EQ(kind.allowed, "0 to 10 in half steps");
  EXPECT_EQ(refused(t.sealed, PutMark{kays, Side::right, "finish_length", score(7)}).allowed,
            "whole seconds, 0 to 600");
  const auto unplanned = refused(t.sealed, PutMark{kays, Side::left, "body", score(7)});
  EXPECT_EQ(unplanned.value, "body");
  EXPECT_NE(unplanned.allowed.find("bitterness"), std::string::npos);
  EXPECT_EQ(refused(t.sealed, PutMark{kays, Side::left, "aroma_register", score(7)}).kind, ErrorKind::bad_value);
  EXPECT_EQ(refused(t.sealed, PutMark{{}, Side::left, "bitterness", score(7)}).kind, ErrorKind::not_found);
}

TEST_F(Commands, EveryAnswerOnASheetCanBeTakenBack) {
  auto start = t.run(t.sealed, StartSheet{kays, EnteredBy::paper});
  start = t.run(start, PutMark{kays, Side::left, "bitterness", score(2)});
  for (const Command& command : std::vector<Command>{
           PutMark{kays, Side::left, "bitterness", score(15)}, PutMark{kays, Side::left, "bitterness", std::nullopt},
           PutMark{kays, Side::right, "bitterness", score(1)}, PutDirect{kays, "bitterness", Direct::right_more},
           PutWords{kays, Side::left, {{"hay", 2}, {"rose", {}}}}, PutFault{kays, Side::right, true, "soapy"},
           PutSheetNote{kays, "soft"}, PutSippedFirst{kays, Side::right}})
    comes_back(start, command, Scope::Kind::sheet);
}

TEST_F(Commands, AChangeOfOneSheetSharesAllOthers) {
  const auto both = t.run(t.run(t.sealed, StartSheet{kays}), StartSheet{t.sealed->servings[0].id});
  const auto next = t.run(both, PutSheetNote{kays, "soft"});
  EXPECT_EQ(next->sheets.at(t.sealed->servings[0].id), both->sheets.at(t.sealed->servings[0].id));
  EXPECT_EQ(next->key, both->key);
  EXPECT_NE(next->sheets.at(kays), both->sheets.at(kays));
  EXPECT_EQ(both->sheets.at(kays)->note, "");
}

TEST_F(Commands, WordsAndDirectAnswersAreChecked) {
  EXPECT_EQ(refused(t.sealed, PutWords{kays, Side::left, {{"hay", 4}}}).allowed, "1, 2, 3 or nothing");
  EXPECT_EQ(refused(t.sealed, PutWords{kays, Side::left, {{"hay", 1}, {"hay", 2}}}).kind, ErrorKind::duplicate);
  EXPECT_EQ(refused(t.sealed, PutWords{kays, Side::left, {{" ", 1}}}).kind, ErrorKind::missing);
  EXPECT_EQ(refused(t.sealed, PutDirect{kays, "finish_length", Direct::left_more}).kind, ErrorKind::bad_value);
  EXPECT_EQ(refused(t.sealed, PutSheetNote{kays, "\xC3("}).kind, ErrorKind::bad_value);
}

TEST_F(Commands, ALockKeepsItsDigestAndForbidsEverythingButAGuessAndAmendments) {
  const auto locked = t.run(t.run(t.sealed, PutMark{kays, Side::left, "bitterness", score(15)}), LockSheet{kays});
  EXPECT_EQ(locked->sheets.at(kays)->digest, sheet_digest(*locked->sheets.at(kays)));
  EXPECT_EQ(locked->sheets.at(kays)->locked, t.noon);
  for (const Command& command : std::vector<Command>{
           StartSheet{kays}, PutMark{kays, Side::left, "bitterness", score(3)}, PutDirect{kays, "bitterness", {}},
           PutWords{kays, Side::left, {}}, PutFault{kays, Side::left, true, ""}, PutSheetNote{kays, "x"},
           PutSippedFirst{kays, Side::right}, LockSheet{kays}}) {
    const auto error = refused(locked, command);
    EXPECT_EQ(error.kind, ErrorKind::not_allowed) << command.index();
    EXPECT_EQ(error.value, "cups 417 and 386, locked");
    EXPECT_EQ(error.allowed, "an amendment with a reason");
  }
}

TEST_F(Commands, AGuessComesOnceAndAfterTheLock) {
  EXPECT_EQ(refused(t.sealed, PutGuess{kays, {true, Side::left}}).kind, ErrorKind::not_allowed);
  const auto locked = t.run(t.sealed, LockSheet{kays});
  const auto guessed = t.run(locked, PutGuess{kays, {true, Side::left}});
  EXPECT_EQ(guessed->sheets.at(kays)->guess->present_way, Side::left);
  EXPECT_FALSE(value_of(apply(guessed, PutGuess{kays, {true, Side::left}}, t.noon)).changed);
  EXPECT_EQ(refused(guessed, PutGuess{kays, {false, {}}}).allowed, "one guess a pair");
}

TEST_F(Commands, TheDayIsNotedOncePerSittingAndMayBeCorrected) {
  auto next = t.run(t.sealed, PutDayState{{t.kay, 1, true, false, false, "cold", {}}});
  next = t.run(next, PutDayState{{t.kay, 1, false, true, false, "", {}}});
  ASSERT_EQ(next->days.size(), 1u);
  EXPECT_TRUE(next->days[0].ate_lately);
  EXPECT_EQ(next->days[0].noted, t.noon);
  EXPECT_EQ(refused(t.sealed, PutDayState{{t.kay, 7, true, false, false, "", {}}}).value, "sitting 7");
  EXPECT_FALSE(apply(t.sealed, PutDayState{{t.head, 1, true, false, false, "", {}}}, t.noon));
}

TEST_F(Commands, StampsAreAppendedInOrderAndUndoneNotErased) {
  auto next = value_of(apply(t.sealed, PutStamp{brew, StampKind::pour_start}, t.at(0))).next;
  next = value_of(apply(next, PutStamp{brew, StampKind::pour_end}, t.at(8))).next;
  EXPECT_EQ(refused(next, PutStamp{brew, StampKind::pour_start}).kind, ErrorKind::not_allowed);
  EXPECT_EQ(refused(next, PutStamp{brew, StampKind::pour_end}).allowed, "undoing that stamp first");
  const auto undone = value_of(apply(next, UndoStamp{brew}, t.at(9))).next;
  ASSERT_EQ(undone->brews.at(brew)->stamps.size(), 2u);
  EXPECT_EQ(undone->brews.at(brew)->stamps[1].undone, t.at(9));
  const auto again = value_of(apply(undone, PutStamp{brew, StampKind::pour_end}, t.at(10)));
  EXPECT_EQ(again.next->brews.at(brew)->stamps[2].at, t.at(10));
  ASSERT_TRUE(again.inverse);
  EXPECT_EQ(t.run(again.next, *again.inverse)->brews.at(brew)->stamps[2].undone, t.noon);
  EXPECT_EQ(refused(t.sealed, UndoStamp{brew}).kind, ErrorKind::not_found);
  EXPECT_EQ(refused(t.sealed, PutStamp{brew, StampKind::pour_start, 2}).allowed, "1 to 1");
  EXPECT_EQ(refused(t.sealed, PutStamp{{}, StampKind::pour_start}).kind, ErrorKind::not_found);
}

TEST_F(Commands, BrewFactsAreCheckedAndTakenBack) {
  PutBrewFacts facts{brew, grams(4), {{celsius(68), grams(200), seconds(45)}}, 120, 680, "", "as planned"};
  comes_back(t.sealed, facts, Scope::Kind::brew);
  facts.leaf = Mass(0);
  EXPECT_EQ(refused(t.sealed, facts).field, "leaf");
  facts.leaf.reset();
  facts.infusions[0].pour = celsius(190);
  EXPECT_EQ(refused(t.sealed, facts).field, "pour temperature");
  facts.infusions[0].pour.reset();
  facts.ph_hundredths = 1401;
  EXPECT_EQ(refused(t.sealed, facts).value, "14.01");
  EXPECT_EQ(refused(t.sealed, PutReading{brew, celsius(151), "liquor"}).kind, ErrorKind::bad_value);
  EXPECT_EQ(t.run(t.sealed, PutReading{brew, celsius(42), "liquor"})->brews.at(brew)->readings.size(), 1u);
}

TEST_F(Commands, PortionsServingsAndTheKeysLogAreKept) {
  const auto ticked = t.run(t.sealed, TickWeighed{t.lot});
  EXPECT_EQ(ticked->weighed, std::vector{t.lot});
  EXPECT_FALSE(value_of(apply(ticked, TickWeighed{t.lot}, t.noon)).changed);
  EXPECT_TRUE(t.run(ticked, TickWeighed{t.lot, false})->weighed.empty());
  EXPECT_EQ(refused(t.sealed, TickWeighed{{}}).kind, ErrorKind::not_found);

  const ServedPair served{t.contrast, t.noon, celsius(42), celsius(41)};
  EXPECT_EQ(t.run(t.sealed, PutServed{served})->served.at(t.contrast), served);
  EXPECT_EQ(refused(t.sealed, PutServed{{}}).kind, ErrorKind::not_found);

  EXPECT_EQ(refused(t.sealed, OpenKey{t.kay}).kind, ErrorKind::not_allowed);
  const auto opened = t.run(t.sealed, OpenKey{t.preparer});
  EXPECT_FALSE(value_of(apply(opened, OpenKey{t.preparer}, t.noon)).changed);
  const auto closed = value_of(apply(opened, CloseKey{t.preparer}, t.at(30))).next;
  EXPECT_EQ(closed->openings[0].closed, t.at(30));
  EXPECT_FALSE(value_of(apply(closed, CloseKey{t.preparer}, t.at(40))).changed);
}

TEST_F(Commands, AVoidNeedsAReasonAndThePreparerComesTooLateAfterALock) {
  EXPECT_EQ(refused(t.sealed, VoidPair{t.contrast, "O.", " "}).at, Field::reason);
  EXPECT_EQ(refused(t.sealed, VoidPair{{}, "O.", "spilt"}).kind, ErrorKind::not_found);
  const auto locked = t.run(t.sealed, LockSheet{kays});
  EXPECT_EQ(refused(locked, VoidPair{t.contrast, "O.", "spilt"}).kind, ErrorKind::not_allowed);
  EXPECT_EQ(refused(locked, VoidPair{t.contrast, t.preparer.text(), "spilt"}).kind, ErrorKind::not_allowed);
  EXPECT_TRUE(apply(locked, VoidPair{t.blank, "O.", "spilt"}, t.noon));
  const auto voided = t.run(locked, VoidPair{t.contrast, "H.", "spilt"});
  EXPECT_EQ(voided->voids[0].spare, 0u);
  EXPECT_EQ(refused(voided, VoidPair{t.contrast, "H.", "spilt"}).kind, ErrorKind::duplicate);
  const auto arrs = SmallTrial::serving(*voided, t.contrast, t.arr);
  EXPECT_EQ(refused(voided, PutSheetNote{arrs, "x"}).allowed, "the pair that was brewed again");
  EXPECT_EQ(refused(voided, Exclude{arrs, "H.", "cold"}).kind, ErrorKind::not_allowed);
}

TEST_F(Commands, ReplacementServingsGetIdsOfTheirOwnThatRepeat) {
  const auto once = t.run(t.sealed, VoidPair{t.contrast, "H.", "spilt"});
  const auto twice = t.run(t.sealed, VoidPair{t.contrast, "H.", "spilt"});
  EXPECT_EQ(once->servings, twice->servings);
  std::set<IdOf<Serving>> ids;
  for (const auto& serving : once->servings) ids.insert(serving.id);
  EXPECT_EQ(ids.size(), 8u);
}

TEST_F(Commands, AnExclusionStandsOnce) {
  const auto excluded = t.run(t.sealed, Exclude{kays, "H.", "has a cold"});
  EXPECT_EQ(excluded->exclusions[0].why, "has a cold");
  EXPECT_EQ(refused(excluded, Exclude{kays, "H.", "again"}).kind, ErrorKind::duplicate);
}

TEST_F(Commands, AmendmentsTakeTheOldValueFromWhatStands) {
  using Target = Amendment::Target;
  const Amendment first{Target::sheet_mark, kays, Side::left, {}, "bitterness", "made up", "6,5", "K.", "misread", {}};
  EXPECT_EQ(refused(t.sealed, Amend{first}).kind, ErrorKind::not_allowed) << "an open sheet is written on itself";
  auto trial = t.run(t.run(t.sealed, PutMark{kays, Side::left, "bitterness", score(8)}), LockSheet{kays});
  trial = t.run(trial, Amend{first});
  EXPECT_EQ(trial->amendments[0].old_value, "4");
  EXPECT_EQ(trial->amendments[0].new_value, "6.5");
  EXPECT_EQ(trial->amendments[0].at, t.noon);
  Amendment second = first;
  second.new_value = "could not judge";
  EXPECT_EQ(t.run(trial, Amend{second})->amendments[1].old_value, "6.5");
  EXPECT_FALSE(value_of(apply(trial, Amend{first}, t.noon)).changed);

  second.new_value = "7.3";
  EXPECT_EQ(refused(trial, Amend{second}).field, "bitterness, cup 417");
  second.new_value = "5";
  second.why = "";
  EXPECT_EQ(refused(trial, Amend{second}).at, Field::reason);
  second.why = "x";
  second.field = "body";
  EXPECT_EQ(refused(trial, Amend{second}).field, "field");
  second.field = "bitterness";
  second.side.reset();
  EXPECT_EQ(refused(trial, Amend{second}).kind, ErrorKind::missing);

  trial = t.run(trial, Amend{{Target::sheet_direct, kays, {}, {}, "bitterness", "", "left_more", "K.", "forgot", {}}});
  EXPECT_EQ(trial->amendments.back().old_value, "");
  EXPECT_EQ(refused(trial, Amend{{Target::sheet_direct, kays, {}, {}, "bitterness", "", "both", "K.", "x", {}}}).value,
            "both");
  trial = t.run(trial, Amend{{Target::plan_note, {}, {}, {}, "notes", "", "kettle 2", "H.", "found later", {}}});
  EXPECT_EQ(trial->amendments.back().old_value, "as typed");
}

TEST_F(Commands, BrewAmendmentsReadUnitsAndNameTheirFields) {
  using Target = Amendment::Target;
  const PutBrewFacts facts{brew, Mass(4050), {{celsius(68), {}, seconds(45)}}, {}, {}, "", ""};
  auto trial = t.run(t.sealed, facts);
  trial = t.run(trial, Amend{{Target::brew, {}, {}, brew, "leaf", "", "4,1 g", "O.", "scale", {}}});
  EXPECT_EQ(trial->amendments.back().old_value, "4.05");
  EXPECT_EQ(trial->amendments.back().new_value, "4.1");
  trial = t.run(trial, Amend{{Target::brew, {}, {}, brew, "pour", "", "158F", "O.", "probe", {}}});
  EXPECT_EQ(trial->amendments.back().old_value, "68");
  EXPECT_EQ(trial->amendments.back().new_value, "70");
  EXPECT_EQ(refused(trial, Amend{{Target::brew, {}, {}, brew, "steep", "", "soon", "O.", "x", {}}}).field, "steep");
  EXPECT_EQ(refused(trial, Amend{{Target::brew, {}, {}, brew, "steep.0", "", "5", "O.", "x", {}}}).field, "field");
  EXPECT_EQ(refused(trial, Amend{{Target::brew, {}, {}, brew, "leaf.2", "", "5", "O.", "x", {}}}).field, "field");
}

TEST_F(Commands, UnmaskingEndsBrewingAndTastingButNotAmendments) {
  EXPECT_EQ(refused(t.sealed, Unmask{"H."}).field, "open sheets");
  EXPECT_EQ(refused(t.all_locked(t.sealed), Unmask{""}).at, Field::who);
  const auto done = t.run(t.all_locked(t.sealed), Unmask{"H."});
  for (const Command& command : std::vector<Command>{
           PutMark{kays, Side::left, "bitterness", score(3)}, PutGuess{kays, {}}, PutStamp{brew, StampKind::ready},
           UndoStamp{brew}, PutReading{brew, celsius(4), "bath"}, PutBrewFacts{brew, grams(4), {}, {}, {}, "", ""},
           PutServed{{t.contrast, {}, {}, {}}}, TickWeighed{t.lot}, VoidPair{t.contrast, "H.", "spilt"}, Unmask{"H."},
           PutDayState{{t.kay, 1, true, false, false, "", {}}}})
    EXPECT_EQ(refused(done, command).kind, ErrorKind::not_allowed) << command.index();
  EXPECT_TRUE(apply(done, Amend{{Amendment::Target::brew, {}, {}, brew, "note", "", "late", "O.", "x", {}}}, t.noon));
}

TEST_F(Commands, ARuleIsAdoptedAfterTheUnmaskingForLeavesOfTheTrial) {
  AdoptedRule rule{"68 °C at the counter", {t.lot}, "April", "H.", "October", false, {}};
  EXPECT_EQ(refused(t.sealed, AdoptRule{rule}).kind, ErrorKind::not_allowed);
  const auto done = t.run(t.all_locked(t.sealed), Unmask{"H."});
  const auto adopted = t.run(done, AdoptRule{rule});
  EXPECT_EQ(adopted->rule->at, t.noon);
  EXPECT_FALSE(value_of(apply(adopted, AdoptRule{rule}, t.at(5))).changed);
  rule.leaves = {t.warm_lot};
  EXPECT_EQ(refused(done, AdoptRule{rule}).kind, ErrorKind::not_found);
}

TEST_F(Commands, ARuleIsLeftWithAReasonAndWithoutADay) {
  const auto done = t.run(t.all_locked(t.sealed), Unmask{"H."});
  AdoptedRule rule{"68 °C at the counter", {t.lot}, "", "H.", "", false, {}, true, ""};
  EXPECT_EQ(refused(done, AdoptRule{rule}).at, Field::reason);
  rule.why = "too little difference";
  rule.from_when = "April";
  EXPECT_EQ(refused(done, AdoptRule{rule}).kind, ErrorKind::not_allowed);
  rule.from_when.clear();
  EXPECT_TRUE(t.run(done, AdoptRule{rule})->rule->left);
}

TEST_F(Commands, TheReviewNamesBlanksByCupAndContradictionsByAttribute) {
  const BlindServing serving = t.sealed->servings[1];
  const SealedPlan& plan = *t.sealed->sealed;
  Sheet sheet;
  EXPECT_EQ(review(plan, serving, sheet).blank.size(), 10u);
  EXPECT_EQ(review(plan, serving, sheet).blank[0], (BlankMark{Side::left, "bitterness"}));
  EXPECT_EQ(review(plan, serving, sheet).blank[4], (BlankMark{Side::left, "aroma_register.top"}));
  const auto contradicts = [&](int left, int right, Direct answer) {
    sheet.left.marks.insert_or_assign("bitterness", score(left));
    sheet.right.marks.insert_or_assign("bitterness", score(right));
    sheet.directs["bitterness"] = answer;
    return !review(plan, serving, sheet).contradictions.empty();
  };
  EXPECT_TRUE(contradicts(3, 4, Direct::left_more));
  EXPECT_TRUE(contradicts(5, 4, Direct::right_more));
  EXPECT_FALSE(contradicts(4, 4, Direct::right_more));
  EXPECT_FALSE(contradicts(5, 4, Direct::left_more));
  EXPECT_FALSE(contradicts(5, 4, Direct::cannot_tell));
  EXPECT_TRUE(contradicts(6, 4, Direct::cannot_tell)) << "a whole margin apart";
}

}  // namespace
}  // namespace likeleaf
