#include "core/domain/limits.h"
#include "core/codec/builtin.h"

#include <gtest/gtest.h>

#include "core/domain/lexicon.h"

namespace likeleaf {
namespace {

TEST(Limits, NameFieldValueAndWhatIsAllowed) {
  Registers registers;
  registers.assessors = {{{}, "K.", ""}, {{}, std::string(200'000, 'K'), ""}};
  const auto refused = within_limits(registers, "/sealed/registers");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error(), (Error{ErrorKind::too_large, "assessor", "200000 characters", "at most 60 characters",
                                    "/sealed/registers/assessors/1"}));
  registers.assessors.pop_back();
  EXPECT_TRUE(within_limits(registers));
}

TEST(Limits, LevelsAreWithinPhysicsOnceSealedAndWithinWhatCanBeTypedBefore) {
  Plan plan;
  plan.lever.levels.resize(2);
  const auto allowed = [&](LeverKind kind, std::int64_t value, PlanState state) {
    plan.lever.kind = kind;
    plan.lever.levels[1].value = value;
    return within_limits(plan, state).has_value();
  };
  struct Case {
    LeverKind kind;
    std::int64_t value;
    bool draft, sealed;
  };
  for (const auto& c : {Case{LeverKind::water_temperature, 100'000, true, true},
                        {LeverKind::water_temperature, 120'000, true, false},
                        {LeverKind::water_temperature, 151'000, false, false},
                        {LeverKind::water_temperature, -300'000, false, false},
                        {LeverKind::steep_time, 1, true, true},
                        {LeverKind::steep_time, 0, true, false},
                        {LeverKind::steep_time, -1000, false, false},
                        {LeverKind::leaf_dose, 100'000'000, true, true},
                        {LeverKind::leaf_dose, 100'000'001, false, false}}) {
    EXPECT_EQ(allowed(c.kind, c.value, PlanState::draft), c.draft) << lever_name(c.kind) << c.value;
    EXPECT_EQ(allowed(c.kind, c.value, PlanState::sealed), c.sealed) << lever_name(c.kind) << c.value;
  }
}

TEST(Limits, PoursSteepsAndMassesOfASchedule) {
  Plan plan;
  plan.lever.kind = LeverKind::brew_schedule;
  plan.lever.levels.resize(1);
  auto& schedule = plan.lever.levels[0].schedule;
  schedule = {{celsius(90), seconds(30), grams(150)}};
  EXPECT_TRUE(within_limits(plan, PlanState::sealed));
  schedule[0].pour = celsius(400);
  EXPECT_EQ(within_limits(plan, PlanState::sealed).error().field, "level 1, water temperature");
  EXPECT_EQ(within_limits(plan, PlanState::draft, "/plan").error().where, "/plan/lever/levels/0");
  schedule = {{celsius(90), Duration(-1), grams(150)}};
  EXPECT_EQ(within_limits(plan, PlanState::draft).error().field, "level 1, steep time");
  schedule.assign(most_infusions + 1, {celsius(90), seconds(30), grams(150)});
  EXPECT_EQ(within_limits(plan, PlanState::draft).error().field, "infusions");
}

TEST(Lexicon, OffersWhatBeginsBeforeWhatHolds) {
  const auto& lexicon = builtin_lexicon();
  EXPECT_TRUE(find_words(lexicon, "to", 5).empty());
  const auto found = find_words(lexicon, "TOA", 5);
  ASSERT_FALSE(found.empty());
  bool held_only = false;
  for (const auto* word : found) {
    const bool begins = word->word.starts_with("toa") || word->word.starts_with("Toa");
    EXPECT_FALSE(begins && held_only) << word->word;
    held_only = held_only || !begins;
  }
  EXPECT_EQ(find_words(lexicon, "TOA", 1).size(), 1u);
}

TEST(Lexicon, TakesAStrengthAndKeepsAnOwnWord) {
  const auto& known = builtin_lexicon().front();
  EXPECT_EQ(*parse_word(builtin_lexicon(), known.word + " 2"), (WordMark{known.id, 2}));
  EXPECT_EQ(*parse_word(builtin_lexicon(), "dried shrimp 3"), (WordMark{"dried shrimp", 3}));
  EXPECT_EQ(*parse_word(builtin_lexicon(), "dried shrimp 4"), (WordMark{"dried shrimp 4", std::nullopt}));
  EXPECT_FALSE(parse_word(builtin_lexicon(), ""));
}

}  // namespace
}  // namespace likeleaf
