#include "core/acts/bench_sitting.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/acts/bench_board.h"
#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using testing::SmallTrial;

/// Keeps the trial that its brews belong to.
struct Table {
  SmallTrial small;
  std::shared_ptr<const Trial> trial = small.sealed;

  void take_out(IdOf<Pair> pair, const char* why) { trial = small.run(trial, VoidPair{pair, "O.", why}); }
  [[nodiscard]] std::vector<int> numbers() const {
    std::vector<int> out;
    for (const auto* b : brews_of_sitting(*trial, 1)) out.push_back(b->number);
    return out;
  }
  /// Stamps the acts of a brew up to one, ten seconds each.
  void stamp_up_to(int number, StampKind last, std::int64_t from) {
    auto next = std::make_shared<Trial>(*trial);
    for (auto& [id, brew] : next->brews) {
      if (brew->number != number) continue;
      Brew stamped = *brew;
      for (int kind = 0; kind <= static_cast<int>(last); ++kind)
        stamped.stamps.push_back({static_cast<StampKind>(kind), 1, small.at(from + 10 * kind), {}});
      brew = std::make_shared<const Brew>(stamped);
    }
    trial = next;
  }
};

TEST(BenchSitting, BrewsComeByNumberAndThoseOfAPairTakenOutGo) {
  Table t;
  EXPECT_THAT(t.numbers(), ElementsAre(1, 2, 3, 4, 5, 6));
  EXPECT_THAT(brews_of_sitting(*t.trial, 2), IsEmpty());
  t.take_out(t.small.contrast, "spilt");
  EXPECT_THAT(t.numbers(), ElementsAre(1, 2, 5, 6, 7, 8)) << "two out, two in";
}

TEST(BenchSitting, PairsStandByPlaceWithTheirCupsAndSayThatTheyAreMadeAgain) {
  Table t;
  t.take_out(t.small.contrast, "spilt");
  const auto pairs = pairs_of_sitting(*t.trial, 1);
  ASSERT_EQ(pairs.size(), 3U);
  EXPECT_EQ(pairs[0].id, t.small.warm);
  EXPECT_EQ(pairs[0].place, 0);
  EXPECT_EQ(pairs[0].cups, 2) << "two tasters";
  EXPECT_EQ(pairs[1].place, 1);
  EXPECT_TRUE(pairs[1].again);
  EXPECT_NE(pairs[1].id, t.small.contrast);
  EXPECT_FALSE(pairs[2].again);
  EXPECT_THAT(pairs_of_sitting(*t.trial, 2), IsEmpty());
  EXPECT_THAT(counted_pairs(*t.trial), ::testing::SizeIs(2)) << "no warm-up";
}

TEST(BenchSitting, APairTakenOutSaysWhatItIsMadeAgainUnder) {
  Table t;
  EXPECT_THAT(taken_out(*t.trial, 1), IsEmpty());
  t.take_out(t.small.contrast, "spilt");
  const auto out = taken_out(*t.trial, 1);
  ASSERT_EQ(out.size(), 1U);
  EXPECT_EQ(out[0].place, 1);
  EXPECT_EQ(out[0].who, "O.");
  EXPECT_EQ(out[0].why, "spilt");
  ASSERT_TRUE(out[0].again);
  EXPECT_EQ(out[0].again->low.number(), 731);
  EXPECT_EQ(out[0].again->high.number(), 812);
  EXPECT_THAT(out[0].again->brews, ElementsAre(7, 8));
  EXPECT_THAT(taken_out(*t.trial, 2), IsEmpty());
}

TEST(BenchSitting, BrewsOfAPairAreWaitedForUntilTheyAreStampedReady) {
  Table t;
  EXPECT_THAT(brews_not_ready(*t.trial, t.small.contrast), ElementsAre(3, 4));
  t.stamp_up_to(4, StampKind::chill_start, 0);
  EXPECT_THAT(brews_not_ready(*t.trial, t.small.contrast), ElementsAre(3, 4));
  t.stamp_up_to(3, StampKind::ready, 0);
  EXPECT_THAT(brews_not_ready(*t.trial, t.small.contrast), ElementsAre(4));
}

TEST(BenchSitting, TheSittingOfNowIsTheFirstThatIsNotAllReady) {
  Table t;
  EXPECT_THAT(sittings_of(*t.trial), ElementsAre(1));
  auto next = std::make_shared<Trial>(*t.trial);
  for (auto& serving : next->servings)
    if (serving.pair == t.small.blank) serving.sitting = 2;
  for (auto& [id, brew] : next->brews)
    if (brew->number >= 5) {
      Brew later = *brew;
      later.sitting = 2;
      brew = std::make_shared<const Brew>(later);
    }
  t.trial = next;
  EXPECT_THAT(sittings_of(*t.trial), ElementsAre(1, 2));
  EXPECT_EQ(sitting_of_now(*t.trial), 1);
  for (int number = 1; number <= 4; ++number) t.stamp_up_to(number, StampKind::ready, 100 * number);
  EXPECT_EQ(sitting_of_now(*t.trial), 2);
  for (int number = 5; number <= 6; ++number) t.stamp_up_to(number, StampKind::ready, 100 * number);
  EXPECT_EQ(sitting_of_now(*t.trial), 2) << "all ready: the last";
  EXPECT_EQ(sitting_of_now(*t.small.sealed), 1);
}

TEST(BenchBoard, MarksWhereAPairMeetsOnlyWithTheKey) {
  Table t;
  const BenchBoard closed = bench_board(*t.trial, 1, t.small.noon, false);
  EXPECT_EQ(closed.lanes.size(), 6U);
  EXPECT_THAT(closed.marks, IsEmpty());
  EXPECT_FALSE(closed.now) << "nothing is poured yet";
  const BenchBoard board = bench_board(*t.trial, 1, t.small.noon, true);
  ASSERT_EQ(board.marks.size(), 3U);
  EXPECT_EQ(board.marks[1].lane_from, 2);
  EXPECT_EQ(board.marks[1].lane_to, 3);
  EXPECT_FALSE(board.marks[1].served);
  EXPECT_EQ(board.marks[1].at, board.lanes[3].segments.back().to) << "when the later brew could be there";
  EXPECT_EQ(board.lanes[2].segments.back().part, CoursePart::hold);
  EXPECT_NE(board.lanes[3].segments.back().part, CoursePart::hold) << "the later one need not wait";
  EXPECT_GE(board.end, board.marks[2].at);
}

TEST(BenchBoard, HoldsAPairUntilItIsServed) {
  Table t;
  for (const int number : {3, 4}) t.stamp_up_to(number, StampKind::ready, number * 100);
  auto next = std::make_shared<Trial>(*t.trial);
  next->served[t.small.contrast] = ServedPair{t.small.contrast, t.small.at(800), {}, {}};
  t.trial = next;
  const BenchBoard board = bench_board(*t.trial, 1, t.small.at(900), true);
  EXPECT_EQ(board.now, 600'000) << "from the first pour at 300 s";
  EXPECT_TRUE(board.marks[1].served);
  EXPECT_EQ(board.marks[1].at, 500'000);
  EXPECT_EQ(board.lanes[2].segments.back(), (CourseSegment{CoursePart::hold, 50'000, 500'000, false}));
  EXPECT_EQ(board.lanes[3].segments.back(), (CourseSegment{CoursePart::hold, 150'000, 500'000, false}));
}

TEST(BenchBoard, OfHoursAgoHasNoLineOfNow) {
  Table t;
  t.stamp_up_to(1, StampKind::ready, 0);
  EXPECT_TRUE(bench_board(*t.trial, 1, t.small.at(50 + 7199), true).now);
  EXPECT_FALSE(bench_board(*t.trial, 1, t.small.at(50 + 7200), true).now);
}

}  // namespace
}  // namespace likeleaf
