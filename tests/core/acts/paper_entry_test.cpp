// Paper sheets: how boxes are typed, the second entry beside the first, and what a lock asks of the two.
#include "core/acts/paper_entry.h"

#include <gtest/gtest.h>

#include "core/acts/command.h"
#include "core/codec/seal.h"
#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;
using TrialPtr = std::shared_ptr<const Trial>;

Mark score(int halves) {
  return *Score::from_halves(halves);
}

std::string read_mark(Scale scale, std::string_view typed) {
  const auto mark = parse_paper_mark(scale, typed, "body, cup 417");
  if (!mark) return "refused: " + mark.error().allowed;
  return *mark ? mark_text(**mark) : "blank";
}

TEST(PaperBoxes, ScoresAreTypedLikeOnANumberPad) {
  for (const auto& [typed, read] : std::map<std::string, std::string>{{"7", "7"},
                                                                      {" 10 ", "10"},
                                                                      {"7.5", "7.5"},
                                                                      {"7,5", "7.5"},
                                                                      {"7.", "7.5"},
                                                                      {"7,", "7.5"},
                                                                      {".", "0.5"},
                                                                      {"0", "0"},
                                                                      {"c", "could not judge"},
                                                                      {"N", "not tasted"},
                                                                      {"s", "spoilt"},
                                                                      {"spoilt", "spoilt"},
                                                                      {"", "blank"},
                                                                      {"  ", "blank"}})
    EXPECT_EQ(read_mark(Scale::intensity, typed), read) << typed;
  for (const auto* typed : {"7.3", "11", "10.", "-1", "x", "seven", "7 5", "\U0001F375", "<3", "1e1"})
    EXPECT_EQ(read_mark(Scale::intensity, typed), "refused: 0 to 10 in half steps, or C, N, S") << typed;
  const auto error = parse_paper_mark(Scale::intensity, "7.3", "body, cup 417").error();
  EXPECT_EQ(error.field, "body, cup 417");
  EXPECT_EQ(error.value, "7.3");
}

TEST(PaperBoxes, TheFinishIsWholeSecondsWithBothEnds) {
  for (const auto& [typed, read] : std::map<std::string, std::string>{{"41", "41"},
                                                                      {"2", "under 3"},
                                                                      {"<3", "under 3"},
                                                                      {"> 120", "over 120"},
                                                                      {"200", "over 120"},
                                                                      {"n", "not tasted"},
                                                                      {"", "blank"}})
    EXPECT_EQ(read_mark(Scale::seconds, typed), read) << typed;
  for (const auto* typed : {"41.5", "-3", "601", "<4", "soon"})
    EXPECT_EQ(read_mark(Scale::seconds, typed).substr(0, 7), "refused") << typed;
}

TEST(PaperBoxes, WhatABoxShowsCanBeTypedAgain) {
  for (const Mark& mark : std::vector<Mark>{score(15), score(0), FinishTime::from_seconds(41),
                                            FinishTime::from_seconds(0), FinishTime::from_seconds(300),
                                            NoScore::could_not_judge, NoScore::not_tasted, NoScore::spoilt}) {
    const auto scale = std::holds_alternative<FinishTime>(mark) ? Scale::seconds : Scale::intensity;
    for (const char decimal_mark : {'.', ','})
      EXPECT_EQ(value_of(parse_paper_mark(scale, box_text(mark, decimal_mark), "")), mark) << box_text(mark);
  }
}

TEST(PaperBoxes, AnswersSidesAndTheGuessAreLetters) {
  EXPECT_EQ(*value_of(parse_paper_answer("L", "body")), Direct::left_more);
  EXPECT_EQ(*value_of(parse_paper_answer(" r ", "body")), Direct::right_more);
  EXPECT_EQ(*value_of(parse_paper_answer("=", "body")), Direct::cannot_tell);
  for (const auto answer : {Direct::left_more, Direct::right_more, Direct::cannot_tell})
    EXPECT_EQ(*value_of(parse_paper_answer(answer_text(answer), "body")), answer) << "what is shown can be typed";
  EXPECT_FALSE(value_of(parse_paper_answer("", "body")));
  EXPECT_EQ(parse_paper_answer("7", "body").error().field, "body");
  EXPECT_EQ(*value_of(parse_paper_side("l", "first")), Side::left);
  EXPECT_FALSE(parse_paper_side("=", "first"));
  EXPECT_EQ(*value_of(parse_paper_yes("Y", "saw")), true);
  EXPECT_EQ(*value_of(parse_paper_yes("no", "saw")), false);
  EXPECT_FALSE(parse_paper_yes("2", "saw"));
  EXPECT_EQ(*value_of(parse_paper_guess("r", "way")), std::optional(Side::right));
  EXPECT_EQ(*value_of(parse_paper_guess("=", "way")), std::nullopt);
  EXPECT_FALSE(value_of(parse_paper_guess("", "way")));
}

class PaperSheets : public ::testing::Test {
 protected:
  SmallTrial t;
  IdOf<Serving> kays = t.kays();
  TrialPtr typed =
      t.run(t.run(t.sealed, StartSheet{kays, EnteredBy::paper}), PutMark{kays, Side::left, "bitterness", score(14)});
  Error refused(const TrialPtr& trial, const Command& command) {
    const auto done = apply(trial, command, t.noon);
    return done ? Error{ErrorKind::internal, "accepted", "", "", ""} : done.error();
  }
  LockReview reviewed(const TrialPtr& trial) {
    for (const auto& serving : trial->servings)
      if (serving.id == kays) return review(*trial->sealed, serving, *trial->sheets.at(kays));
    return {};
  }
};

TEST_F(PaperSheets, TheSecondEntryStandsBesideTheFirstAndChangesNothingOfIt) {
  auto next = t.run(typed, PutSecondReading{kays, Side::left, "bitterness", score(2)});
  next = t.run(next, PutSecondAnswer{kays, "bitterness", Direct::left_more});
  const Sheet& sheet = *next->sheets.at(kays);
  EXPECT_EQ(sheet.left.marks.at("bitterness"), score(14));
  EXPECT_TRUE(sheet.directs.empty());
  EXPECT_EQ(sheet.second.left.at("bitterness"), score(2));
  EXPECT_EQ(sheet.second.directs.at("bitterness"), Direct::left_more);
  EXPECT_EQ(paper_progress(next->sealed->attributes, sheet), (PaperProgress{11, 1, 2}));
}

TEST_F(PaperSheets, EveryStepOfTheSecondEntryCanBeTakenBack) {
  const auto start = t.run(t.run(typed, PutSecondReading{kays, Side::left, "bitterness", score(2)}),
                           PutSecondAnswer{kays, "bitterness", Direct::right_more});
  for (const Command& command : std::vector<Command>{
           PutSecondReading{kays, Side::left, "bitterness", score(14)},
           PutSecondReading{kays, Side::left, "bitterness", std::nullopt},
           PutSecondReading{kays, Side::right, "finish_length", Mark(FinishTime::from_seconds(40))},
           PutSecondAnswer{kays, "bitterness", Direct::cannot_tell}, PutSecondAnswer{kays, "bitterness", std::nullopt},
           SettleReading{kays, Side::left, "bitterness", score(3), score(3)},
           SettleReading{kays, Side::left, "bitterness", std::nullopt, std::nullopt},
           SettleAnswer{kays, "bitterness", Direct::left_more, Direct::left_more}}) {
    const auto change = value_of(apply(start, command, t.noon));
    ASSERT_TRUE(change.inverse && change.scope) << command.index();
    EXPECT_EQ(change.scope->kind, Scope::Kind::sheet);
    EXPECT_EQ(*t.run(change.next, *change.inverse)->sheets.at(kays), *start->sheets.at(kays)) << command.index();
    EXPECT_FALSE(value_of(apply(change.next, command, t.noon)).changed) << "the same again changes nothing";
  }
}

TEST_F(PaperSheets, ASecondEntryNeedsAFirstOneFromPaperAndItsFieldsAreChecked) {
  const PutSecondReading second{kays, Side::left, "bitterness", score(2)};
  EXPECT_EQ(refused(t.sealed, second).value, "nothing is typed in yet");
  const auto on_screen = t.run(t.sealed, PutMark{kays, Side::left, "bitterness", score(3)});
  EXPECT_EQ(refused(on_screen, second).value, "a sheet tasted on screen");
  EXPECT_EQ(refused(on_screen, SettleReading{kays, Side::left, "bitterness", score(3), score(3)}).kind,
            ErrorKind::not_allowed);
  EXPECT_EQ(refused(typed, PutSecondReading{kays, Side::left, "body", score(2)}).value, "body");
  EXPECT_EQ(refused(typed, PutSecondReading{kays, Side::left, "finish_length", score(2)}).allowed,
            "whole seconds, 0 to 600");
  EXPECT_EQ(refused(typed, PutSecondAnswer{kays, "finish_length", Direct::left_more}).kind, ErrorKind::bad_value);
  EXPECT_EQ(
      refused(typed, SettleReading{kays, Side::left, "bitterness", score(2), Mark(FinishTime::from_seconds(9))}).kind,
      ErrorKind::bad_value);
}

TEST_F(PaperSheets, AMismatchForbidsTheLockUntilItIsSettledEitherWay) {
  const auto differ = t.run(typed, PutSecondReading{kays, Side::left, "bitterness", score(2)});
  for (const bool said : {false, true}) {
    const auto error = refused(differ, LockSheet{kays, said});
    EXPECT_EQ(error.kind, ErrorKind::not_allowed);
    EXPECT_EQ(error.value, "bitterness, cup 417: first 7, second 1");
  }
  ASSERT_EQ(reviewed(differ).mismatches.size(), 1u);
  EXPECT_EQ(reviewed(differ).mismatches[0],
            (Mismatch{Side::left, "bitterness", "bitterness, cup 417", Mark(score(14)), Mark(score(2))}));
  for (const int halves : {14, 2, 9}) {
    const auto settled = t.run(differ, SettleReading{kays, Side::left, "bitterness", score(halves), score(halves)});
    EXPECT_TRUE(reviewed(settled).mismatches.empty());
    EXPECT_TRUE(reviewed(settled).once.empty());
    const auto locked = t.run(settled, LockSheet{kays});
    EXPECT_EQ(locked->sheets.at(kays)->left.marks.at("bitterness"), score(halves));
    EXPECT_EQ(locked->sheets.at(kays)->digest, sheet_digest(*locked->sheets.at(kays)));
    EXPECT_EQ(refused(locked, PutSecondReading{kays, Side::left, "bitterness", score(1)}).kind, ErrorKind::not_allowed);
  }
}

TEST_F(PaperSheets, WhatTheFirstEntryOverlookedIsAMismatchAndWhatTheSecondLeftOutIsEnteredOnce) {
  const auto both = t.run(t.run(typed, PutSecondReading{kays, Side::right, "bitterness", score(6)}),
                          PutDirect{kays, "bitterness", Direct::left_more});
  const LockReview found = reviewed(both);
  ASSERT_EQ(found.mismatches.size(), 1u);
  EXPECT_EQ(found.mismatches[0].label, "bitterness, cup 386");
  EXPECT_EQ(entry_text(found.mismatches[0].first), "blank");
  EXPECT_EQ(found.once, (std::vector<std::string>{"bitterness, cup 417", "bitterness, comparing sip"}));
}

TEST_F(PaperSheets, ASheetEnteredOnceIsLockedOnlyWhenThatIsSaid) {
  const auto error = refused(typed, LockSheet{kays});
  EXPECT_EQ(error.kind, ErrorKind::not_allowed);
  EXPECT_EQ(error.value, "1 field entered once");
  EXPECT_TRUE(t.run(typed, LockSheet{kays, true})->sheets.at(kays)->locked);
  const auto twice = t.run(typed, PutSecondReading{kays, Side::left, "bitterness", score(14)});
  EXPECT_TRUE(t.run(twice, LockSheet{kays})->sheets.at(kays)->locked);
  const auto on_screen = t.run(t.sealed, PutMark{kays, Side::left, "bitterness", score(3)});
  EXPECT_TRUE(t.run(on_screen, LockSheet{kays})->sheets.at(kays)->locked) << "a sheet from the screen is as before";
  EXPECT_TRUE(reviewed(on_screen).once.empty());
}

TEST_F(PaperSheets, AHalfTypedSheetStaysAPaperSheetWhenItIsLookedAtInTaste) {
  EXPECT_EQ(t.run(typed, StartSheet{kays, EnteredBy::screen})->sheets.at(kays)->entered_by, EnteredBy::paper);
  const auto looked = t.run(t.sealed, StartSheet{kays, EnteredBy::screen});
  EXPECT_EQ(t.run(looked, StartSheet{kays, EnteredBy::paper})->sheets.at(kays)->entered_by, EnteredBy::paper)
      << "a sheet that was only looked at can be typed in";
}

TEST_F(PaperSheets, TheDigestOfASheetWithoutASecondEntryDoesNotKnowOfSecondEntries) {
  Sheet sheet = *typed->sheets.at(kays);
  const auto before = sheet_digest(sheet);
  sheet.second.left.emplace("bitterness", score(14));
  EXPECT_NE(sheet_digest(sheet), before);
  sheet.second = {};
  EXPECT_EQ(sheet_digest(sheet), before);
}

}  // namespace
}  // namespace likeleaf
