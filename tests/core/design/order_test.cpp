#include "core/design/order.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <map>
#include <utility>
#include <vector>

#include "tests/core/design/plans.h"

namespace likeleaf::design {
namespace {

using Rows = std::vector<std::vector<std::size_t>>;

TEST(Williams, SquareOfFourIsThePublishedOne) {
  // tests/reference/checks.csv A31: 1 2 4 3 | 2 3 1 4 | 3 4 2 1 | 4 1 3 2.
  EXPECT_EQ(williams_rows(4), (Rows{{0, 1, 3, 2}, {1, 2, 0, 3}, {2, 3, 1, 0}, {3, 0, 2, 1}}));
}

TEST(Williams, NeedsTwiceTheRowsWhereTheNumberIsOdd) {
  EXPECT_EQ(williams_rows(5).size(), 10U);  // tests/reference/checks.csv A32
  for (std::size_t n = 2; n <= 12; ++n) EXPECT_EQ(williams_rows(n).size(), n % 2 == 0 ? n : 2 * n);
}

TEST(Williams, EveryTreatmentStandsInEveryPlaceAndFollowsEveryOtherEquallyOften) {
  for (std::size_t n = 2; n <= 12; ++n) {
    const auto rows = williams_rows(n);
    const auto times = static_cast<int>(rows.size() / n);
    std::map<std::pair<std::size_t, std::size_t>, int> places, neighbours;
    for (const auto& row : rows)
      for (std::size_t place = 0; place < n; ++place) {
        ++places[{place, row[place]}];
        if (place > 0) ++neighbours[{row[place - 1], row[place]}];
      }
    ASSERT_EQ(places.size(), n * n);
    for (const auto& [what, count] : places) EXPECT_EQ(count, times);
    ASSERT_EQ(neighbours.size(), n * (n - 1));
    for (const auto& [what, count] : neighbours) EXPECT_EQ(count, times);
  }
}

TEST(PairOrders, OfFourOwnersAndFourPairsAreBalancedForPlaceAndNeighbour) {
  Draw draw(test::seed_of(3));
  const auto orders = pair_orders(draw, 4, 4);
  std::map<std::pair<std::size_t, std::size_t>, int> places, neighbours;
  for (const auto& order : orders)
    for (std::size_t place = 0; place < 4; ++place) {
      ++places[{place, order[place]}];
      if (place > 0) ++neighbours[{order[place - 1], order[place]}];
    }
  EXPECT_EQ(places.size(), 16U);
  EXPECT_EQ(neighbours.size(), 12U);
}

RC_GTEST_PROP(PairOrders, KeepPlacesBalancedToOneForAnyNumberOfOwners, (std::uint64_t seed)) {
  const auto pairs = *rc::gen::inRange<std::size_t>(1, 8);
  const auto owners = *rc::gen::inRange<std::size_t>(1, 12);
  Draw draw(test::seed_of(seed));
  const auto orders = pair_orders(draw, pairs, owners);
  std::vector<std::vector<std::size_t>> times(pairs, std::vector<std::size_t>(pairs));
  for (auto order : orders) {
    for (std::size_t place = 0; place < pairs; ++place) ++times[place][order[place]];
    std::sort(order.begin(), order.end());
    for (std::size_t i = 0; i < pairs; ++i) RC_ASSERT(order[i] == i);
  }
  for (const auto& row : times) {
    const auto [least, most] = std::minmax_element(row.begin(), row.end());
    RC_ASSERT(*most - *least <= 1U);
  }
}

TEST(PairOrders, OfOneTableAreEveryOrderEquallyOften) {
  Draw draw(test::seed_of(4));
  std::map<std::vector<std::size_t>, int> seen;
  constexpr int draws = 6000;
  for (int i = 0; i < draws; ++i) ++seen[pair_orders(draw, 3, 1).front()];
  ASSERT_EQ(seen.size(), 6U);
  for (const auto& [order, count] : seen) EXPECT_NEAR(count, draws / 6.0, 120);  // four standard deviations
}

/// How many sets of each lot each sitting holds.
std::map<std::pair<std::size_t, std::size_t>, int> counted(const std::vector<std::size_t>& lots,
                                                           const std::vector<std::size_t>& sittings) {
  std::map<std::pair<std::size_t, std::size_t>, int> count;
  for (std::size_t i = 0; i < lots.size(); ++i) ++count[{lots[i], sittings[i]}];
  return count;
}

RC_GTEST_PROP(SpreadLots, LaysALotsSetsOneASittingAsEvenlyAsTheRoomAllows, (std::uint64_t seed)) {
  const auto lots = *rc::gen::inRange<std::size_t>(1, 7);
  const auto sets = *rc::gen::inRange<std::size_t>(1, 6);
  std::vector<std::size_t> sittings;
  std::vector<std::size_t> room;
  while (sittings.size() < lots * sets) {
    room.push_back(std::min(*rc::gen::inRange<std::size_t>(1, 7), lots * sets - sittings.size()));
    sittings.insert(sittings.end(), room.back(), room.size() - 1);
  }
  Draw draw(test::seed_of(seed));
  const auto spread = spread_lots(draw, lots, sittings, {});
  auto count = counted(spread, sittings);
  for (std::size_t lot = 0; lot < lots; ++lot) {
    RC_ASSERT(static_cast<std::size_t>(std::count(spread.begin(), spread.end(), lot)) == sets);
    for (std::size_t s = 0; s < room.size(); ++s) {
      const auto here = static_cast<std::size_t>(count[{lot, s}]);
      RC_ASSERT(here == room[s] / lots || here == (room[s] + lots - 1) / lots);
    }
  }
}

TEST(SpreadLots, TradesBetweenSittingsWhereARepeatNeedsALotAndLeavesTheRestAlone) {
  const std::vector<std::size_t> sittings{0, 0, 1, 1, 2, 2};  // three lots, two sets each: no sitting holds all
  for (std::uint64_t seed = 0; seed < 30; ++seed)
    for (std::size_t lot = 0; lot < 3; ++lot)
      for (std::size_t s = 0; s < 3; ++s) {
        Draw with(test::seed_of(seed)), without(test::seed_of(seed));
        const auto wished = spread_lots(with, 3, sittings, {{s, lot}});
        const auto plain = spread_lots(without, 3, sittings, {});
        EXPECT_GE((counted(wished, sittings)[{lot, s}]), 1);
        int moved = 0;
        for (std::size_t i = 0; i < plain.size(); ++i) moved += wished[i] != plain[i] ? 1 : 0;
        EXPECT_LE(moved, 2);
      }
}

}  // namespace
}  // namespace likeleaf::design
