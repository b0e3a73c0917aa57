#include "core/domain/attribute.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <set>

#include "core/codec/builtin.h"

namespace likeleaf {
namespace {

TEST(Attributes, TheBuiltInEightComeFromTheResourceInTastingOrder) {
  std::vector<std::string> ids;
  for (const auto& attribute : builtin_attributes()) ids.push_back(attribute.id);
  EXPECT_EQ(ids, (std::vector<std::string>{"body", "sweetness", "savoury", "bitterness", "astringency",
                                           "finish_structure", "finish_length", "aroma_register"}));
  for (const auto& attribute : builtin_attributes()) {
    EXPECT_FALSE(attribute.definition.empty()) << attribute.id;
    EXPECT_FALSE(attribute.low.empty()) << attribute.id;
    EXPECT_FALSE(attribute.high.empty()) << attribute.id;
    EXPECT_FALSE(attribute.more.empty()) << attribute.id;
    EXPECT_FALSE(attribute.less.empty()) << attribute.id;
  }
}

TEST(Attributes, OnlyTheSixMouthScoresAskForADirectAnswer) {
  std::set<std::string> direct;
  for (const auto& attribute : builtin_attributes())
    if (attribute.direct) direct.insert(attribute.id);
  EXPECT_EQ(direct,
            (std::set<std::string>{"body", "sweetness", "savoury", "bitterness", "astringency", "finish_structure"}));
}

TEST(Attributes, DefaultMarginsAreOnePointOrAQuarterLonger) {
  const auto& all = builtin_attributes();
  EXPECT_EQ(find_attribute(all, "bitterness")->margin, 2);
  EXPECT_EQ(find_attribute(all, "finish_length")->margin, 1250);
  EXPECT_EQ(find_attribute(all, "finish_length")->scale, Scale::seconds);
  EXPECT_EQ(find_attribute(all, "aroma_register")->scale, Scale::register_bands);
  EXPECT_EQ(find_attribute(all, "brightness"), nullptr);
}

TEST(Attributes, TheRegisterIsMarkedInThreeBandsTheOthersInOneField) {
  const auto& all = builtin_attributes();
  EXPECT_EQ(mark_fields(*find_attribute(all, "aroma_register")),
            (std::vector<std::string>{"aroma_register.base", "aroma_register.middle", "aroma_register.top"}));
  EXPECT_EQ(mark_fields(*find_attribute(all, "body")), std::vector<std::string>{"body"});
  for (const auto& attribute : all)
    for (const auto& field : mark_fields(attribute)) EXPECT_EQ(attribute_of_field(field), attribute.id);
}

TEST(Attributes, AMarginIsCountedOnTheGridOfItsScale) {
  EXPECT_EQ(grid_margin(Scale::intensity, 2), 2);
  EXPECT_EQ(grid_margin(Scale::register_bands, 3), 3);
  EXPECT_EQ(grid_margin(Scale::seconds, 1250), 223143551);  // 1e9 · ln 1.25 = 223143551.3
  EXPECT_EQ(grid_margin(Scale::seconds, 1000), 0);
  EXPECT_EQ(grid_margin(Scale::seconds, 0), 0);
  EXPECT_EQ(grid_per_point(Scale::intensity), 2.0);
  EXPECT_EQ(grid_per_point(Scale::register_bands), 2.0);
  EXPECT_EQ(grid_per_point(Scale::seconds), 0.0);
}

Mark halves(int n) {
  return *Score::from_halves(n);
}

TEST(Marks, HalfStepsAreReadWithEitherDecimalMark) {
  EXPECT_EQ(parse_mark(Scale::intensity, "7", "body").value(), halves(14));
  EXPECT_EQ(parse_mark(Scale::intensity, "7.5", "body").value(), halves(15));
  EXPECT_EQ(parse_mark(Scale::intensity, "7,5", "body").value(), halves(15));
  EXPECT_EQ(parse_mark(Scale::register_bands, " 0 ", "aroma_register.top").value(), halves(0));
  EXPECT_EQ(parse_mark(Scale::intensity, "10.0", "body").value(), halves(20));
}

class RefusedScore : public testing::TestWithParam<const char*> {};

TEST_P(RefusedScore, NamesFieldValueAndWhatIsAllowed) {
  const auto read = parse_mark(Scale::intensity, GetParam(), "bitterness, cup 417");
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error(),
            (Error{ErrorKind::bad_value, "bitterness, cup 417", GetParam(), "0 to 10 in half steps", {}}));
}

INSTANTIATE_TEST_SUITE_P(Scores, RefusedScore,
                         testing::Values("11", "7.3", "seven", "10.5", "7.25", "-1", "7.5.5", "<3", "1e1", "NaN"));

class RefusedSeconds : public testing::TestWithParam<const char*> {};

TEST_P(RefusedSeconds, NamesFieldValueAndWhatIsAllowed) {
  const auto read = parse_mark(Scale::seconds, GetParam(), "finish length, cup 882");
  ASSERT_FALSE(read.has_value());
  EXPECT_EQ(read.error(),
            (Error{ErrorKind::bad_value, "finish length, cup 882", GetParam(), "whole seconds, 0 to 600", {}}));
}

INSTANTIATE_TEST_SUITE_P(Seconds, RefusedSeconds, testing::Values("long", "41.5", "601", "-3", "<4", ">100", "1:05"));

TEST(Marks, AnEmptyFieldIsRefusedNotScoredZero) {
  EXPECT_FALSE(parse_mark(Scale::intensity, "", "body").has_value());
  EXPECT_FALSE(parse_mark(Scale::seconds, " ", "finish length").has_value());
}

TEST(Marks, FinishTimesOutsideTheWatchAreCutOff) {
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "41", "f").value()), "41");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "<3", "f").value()), "under 3");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "2", "f").value()), "under 3");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "3", "f").value()), "3");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "120", "f").value()), "120");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, "121", "f").value()), "over 120");
  EXPECT_EQ(mark_text(parse_mark(Scale::seconds, ">120", "f").value()), "over 120");
}

TEST(Marks, AnswersThatAreNoScoreStayWords) {
  for (const NoScore answer : {NoScore::could_not_judge, NoScore::not_tasted, NoScore::spoilt}) {
    EXPECT_EQ(parse_mark(Scale::intensity, mark_text(answer), "body").value(), Mark(answer));
    EXPECT_EQ(parse_mark(Scale::seconds, mark_text(answer), "finish length").value(), Mark(answer));
  }
  EXPECT_EQ(mark_text(NoScore::could_not_judge), "could not judge");
}

RC_GTEST_PROP(Marks, EveryScoreIsReadBackFromItsText, ()) {
  const auto score = *Score::from_halves(*rc::gen::inRange(0, 21));
  const char decimal_mark = *rc::gen::element('.', ',');
  RC_ASSERT(parse_mark(Scale::intensity, mark_text(score, decimal_mark), "body").value() == Mark(score));
}

RC_GTEST_PROP(Marks, EveryFinishTimeIsReadBackFromItsText, ()) {
  const auto time = FinishTime::from_seconds(*rc::gen::inRange(0, 200));
  RC_ASSERT(parse_mark(Scale::seconds, mark_text(time), "finish length").value() == Mark(time));
}

RC_GTEST_PROP(Marks, AnyTypedTextIsEitherAMarkOrAnErrorThatNamesTheField, (const std::string& typed)) {
  for (const Scale scale : {Scale::intensity, Scale::seconds, Scale::register_bands}) {
    const auto read = parse_mark(scale, typed, "body, cup 417");
    if (!read) {
      RC_ASSERT(read.error().field == "body, cup 417");
      RC_ASSERT(!read.error().allowed.empty());
    }
  }
}

TEST(Lexicon, HoldsEnoughPlainWordsEachOnceInEveryBand) {
  std::set<std::string> ids, words;
  std::set<AromaWord::Band> bands;
  bool has_fault = false;
  for (const auto& word : builtin_lexicon()) {
    EXPECT_TRUE(ids.insert(word.id).second) << word.id;
    EXPECT_TRUE(words.insert(word.word).second) << word.word;
    EXPECT_FALSE(word.definition.empty()) << word.id;
    bands.insert(word.band);
    has_fault = has_fault || word.fault;
  }
  EXPECT_GE(ids.size(), 80U);
  EXPECT_LE(ids.size(), 120U);
  EXPECT_EQ(bands.size(), 3U);
  EXPECT_TRUE(has_fault);
}

}  // namespace
}  // namespace likeleaf
