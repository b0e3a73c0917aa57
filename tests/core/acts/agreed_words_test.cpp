#include "core/acts/agreed_words.h"

#include <gtest/gtest.h>

#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;

class AgreedWords : public ::testing::Test {
 protected:
  SmallTrial t;
};

TEST_F(AgreedWords, GoIntoTheDraftUntilTheSeal) {
  const auto next = t.run(t.planned, value_of(keep_agreed_words(*t.planned, " body: how thick ")));
  ASSERT_TRUE(next->draft.reference_pair);
  EXPECT_EQ(next->draft.reference_pair->words, "body: how thick");
  EXPECT_TRUE(next->draft.reference_pair->held);
  EXPECT_EQ(agreed_words(*next), "body: how thick");
  EXPECT_TRUE(next->amendments.empty());
}

TEST_F(AgreedWords, AreANoteOnThePlanAfterTheSealWhichStaysAsItWasSealed) {
  auto next = t.run(t.sealed, value_of(keep_agreed_words(*t.sealed, "body: how thick")));
  EXPECT_EQ(next->sealed, t.sealed->sealed);
  ASSERT_EQ(next->amendments.size(), 1u);
  EXPECT_EQ(next->amendments[0].target, Amendment::Target::plan_note);
  EXPECT_EQ(next->amendments[0].field, agreed_words_field);
  EXPECT_EQ(next->amendments[0].who, "the panel");
  EXPECT_EQ(agreed_words(*next), "body: how thick");
  next = t.run(next, value_of(keep_agreed_words(*next, "body: how thick, not how strong")));
  EXPECT_EQ(next->amendments[1].old_value, "body: how thick");
  EXPECT_EQ(agreed_words(*next), "body: how thick, not how strong");
}

TEST_F(AgreedWords, AreClosedOnceASheetIsBegunByHandOrByCommand) {
  const auto begun = t.run(t.sealed, StartSheet{t.sealed->servings.front().id});
  EXPECT_FALSE(words_still_open(*begun));
  EXPECT_EQ(keep_agreed_words(*begun, "too late").error().kind, ErrorKind::not_allowed);
  const Amend late{{Amendment::Target::plan_note, {}, {}, {}, agreed_words_field, "", "too late", "H.", "x", {}}};
  const auto done = apply(begun, Command(late), t.noon);
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().kind, ErrorKind::not_allowed);
}

TEST_F(AgreedWords, CannotBeEmptiedAfterTheSealNorBeTooLong) {
  EXPECT_EQ(keep_agreed_words(*t.sealed, "  ").error().kind, ErrorKind::missing);
  EXPECT_EQ(keep_agreed_words(*t.planned, std::string(5000, 'a')).error().kind, ErrorKind::too_large);
}

}  // namespace
}  // namespace likeleaf
