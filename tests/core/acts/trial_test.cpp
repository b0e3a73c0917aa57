#include "core/domain/trial.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/domain/ferry_pier.h"

namespace likeleaf {
namespace {

using test::FerryPier;
using test::id_of;

/// Two tasters on two pairs, one a sitting; nothing tasted yet.
struct SmallTrial {
  FerryPier pier;
  IdOf<Pair> first = id_of<Pair>(1), second = id_of<Pair>(2);
  Trial trial;

  SmallTrial() {
    trial.draft = pier.trial_14();
    // Later sittings first, so that an order has to be made.
    serve(1, pier.r, second, 2);
    serve(2, pier.k, second, 2);
    serve(3, pier.r, first, 1);
    serve(4, pier.k, first, 1);
  }
  void serve(std::uint64_t id, IdOf<Assessor> who, IdOf<Pair> pair, int sitting) {
    trial.servings.push_back(BlindServing{
        id_of<Serving>(id), who, pair, sitting, 1, 1, *BlindCode::from(417), *BlindCode::from(882), Side::left, {}});
  }
  void seal() { trial.sealed = std::make_shared<const SealedPlan>(); }
  void put_sheet(std::uint64_t serving, bool locked) {
    auto sheet = std::make_shared<Sheet>();
    sheet->serving = id_of<Serving>(serving);
    if (locked) sheet->locked = Moment{1000, 0, 0};
    trial.sheets[sheet->serving] = sheet;
  }
};

TEST(Stage, FollowsFromWhatThereIs) {
  SmallTrial t;
  EXPECT_EQ(stage(t.trial), Stage::plan);
  t.seal();
  EXPECT_EQ(stage(t.trial), Stage::brew_and_taste);
  for (const std::uint64_t serving : {1, 2, 3}) t.put_sheet(serving, true);
  t.put_sheet(4, false);
  EXPECT_EQ(stage(t.trial), Stage::brew_and_taste) << "one sheet is begun and not locked";
  t.put_sheet(4, true);
  EXPECT_EQ(stage(t.trial), Stage::all_locked);
  t.trial.unmasked = UnmaskRecord{};
  EXPECT_EQ(stage(t.trial), Stage::unmasked);
}

TEST(Stage, ATrialWithNothingLeftToTasteIsNotReadyToUnmask) {
  SmallTrial t;
  t.seal();
  t.trial.voids = {Void{t.first, "O.", "spilt", {}, {}}, Void{t.second, "O.", "spilt", {}, {}}};
  EXPECT_EQ(stage(t.trial), Stage::brew_and_taste);
}

TEST(LiveServings, ComeBySittingAndPlaceAndLeaveOutVoidedPairs) {
  SmallTrial t;
  std::vector<IdOf<Serving>> ids;
  for (const auto* serving : live_servings(t.trial)) ids.push_back(serving->id);
  EXPECT_THAT(ids, testing::ElementsAre(id_of<Serving>(3), id_of<Serving>(4), id_of<Serving>(1), id_of<Serving>(2)));

  t.trial.voids = {Void{t.first, "O.", "spilt", {}, {}}};
  ids.clear();
  for (const auto* serving : live_servings(t.trial)) ids.push_back(serving->id);
  EXPECT_THAT(ids, testing::ElementsAre(id_of<Serving>(1), id_of<Serving>(2)));
}

TEST(OpenSheets, AreLiveServingsWithoutALockedSheet) {
  SmallTrial t;
  t.seal();
  t.put_sheet(3, true);
  t.put_sheet(1, false);
  t.trial.voids = {};
  EXPECT_EQ(open_sheets(t.trial).size(), 3U);
  t.trial.voids = {Void{t.second, "O.", "spilt", {}, {}}};
  const auto open = open_sheets(t.trial);
  ASSERT_EQ(open.size(), 1U);
  EXPECT_EQ(open.front()->id, id_of<Serving>(4));
}

// ---- contact time ----

Moment at(std::int64_t ms) {
  return Moment{ms, 60, ms + 5000};
}

Brew stamped(std::vector<std::pair<StampKind, std::int64_t>> stamps) {
  Brew brew;
  for (const auto& [kind, ms] : stamps) brew.stamps.push_back(Stamp{kind, 1, at(ms), {}});
  return brew;
}

TEST(ContactTime, RunsFromMidPourToMidDrain) {
  const Brew brew = stamped({{StampKind::pour_start, 1'000'000},
                             {StampKind::pour_end, 1'010'000},
                             {StampKind::drain_start, 1'045'000},
                             {StampKind::drain_end, 1'063'000}});
  EXPECT_EQ(contact_time(brew, 1), seconds(49));  // 1005 to 1054
  EXPECT_FALSE(contact_time(brew, 2).has_value());
  EXPECT_FALSE(contact_time(brew, 0).has_value());
}

TEST(ContactTime, IsTheTypedSteepWhereAStampIsMissingOrUndone) {
  Brew brew = stamped({{StampKind::pour_start, 1'000'000},
                       {StampKind::pour_end, 1'010'000},
                       {StampKind::drain_start, 1'045'000},
                       {StampKind::drain_end, 1'063'000}});
  brew.infusions = {Infusion{{}, {}, seconds(45)}};
  EXPECT_EQ(contact_time(brew, 1), seconds(49));
  brew.stamps[3].undone = at(1'070'000);
  EXPECT_EQ(contact_time(brew, 1), seconds(45));
  brew.infusions.clear();
  EXPECT_FALSE(contact_time(brew, 1).has_value());
}

TEST(ContactTime, TakesTheNewestStampThatStands) {
  Brew brew = stamped({{StampKind::pour_start, 1'000'000},
                       {StampKind::pour_end, 1'010'000},
                       {StampKind::drain_start, 1'030'000},
                       {StampKind::drain_start, 1'045'000},
                       {StampKind::drain_end, 1'063'000}});
  brew.stamps[2].undone = at(1'031'000);
  EXPECT_EQ(contact_time(brew, 1), seconds(49));
}

TEST(ContactTime, SaysNothingWhenTheStampsCannotBeTrue) {
  const Brew brew = stamped({{StampKind::pour_start, 1'045'000},
                             {StampKind::pour_end, 1'063'000},
                             {StampKind::drain_start, 1'000'000},
                             {StampKind::drain_end, 1'010'000}});
  EXPECT_FALSE(contact_time(brew, 1).has_value());
}

TEST(ContactTime, EachInfusionHasItsOwnStamps) {
  Brew brew = stamped({{StampKind::pour_start, 1'000'000},
                       {StampKind::pour_end, 1'010'000},
                       {StampKind::drain_start, 1'045'000},
                       {StampKind::drain_end, 1'063'000}});
  brew.infusions = {Infusion{}, Infusion{{}, {}, seconds(30)}};
  EXPECT_EQ(contact_time(brew, 2), seconds(30));
}

TEST(ContactTime, IsNotMovedByCorrectingTheComputersClock) {
  Brew brew = stamped({{StampKind::pour_start, 1'000'000},
                       {StampKind::pour_end, 1'010'000},
                       {StampKind::drain_start, 1'045'000},
                       {StampKind::drain_end, 1'063'000}});
  for (auto& stamp : brew.stamps)
    if (stamp.kind == StampKind::drain_start || stamp.kind == StampKind::drain_end) stamp.at.utc_ms += 20'000;
  EXPECT_EQ(contact_time(brew, 1), seconds(49));
}

}  // namespace
}  // namespace likeleaf
