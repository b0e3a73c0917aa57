// draw-1: golden vectors made by an independent implementation of seed_seq and mt19937_64 (in Python, from the text of
// the C++ standard, [rand.util.seedseq] and [rand.eng.mers]).
#include "core/design/draw.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <vector>

namespace likeleaf::design {
namespace {

Seed zeros() {
  return {};
}

Seed counting() {
  Seed seed{};
  for (std::size_t i = 0; i < seed.size(); ++i) seed[i] = static_cast<std::uint8_t>(i);
  return seed;
}

TEST(Draw, GivesTheGoldenNumbersOfAZeroSeed) {
  Draw draw(zeros());
  EXPECT_EQ(draw.next(), 0xb10650609fc0feecULL);
  EXPECT_EQ(draw.next(), 0x877015997e46ba1dULL);
  EXPECT_EQ(draw.next(), 0xd84cd93eeee3a2f3ULL);
  EXPECT_EQ(draw.next(), 0x96fc0ff106180ef6ULL);
  std::uint64_t last = 0;
  for (int i = 4; i < 1000; ++i) last = draw.next();
  EXPECT_EQ(last, 0x5ba8ab5bf4a28651ULL);
}

TEST(Draw, ReadsTheSeedAsLittleEndianWords) {
  Draw draw(counting());
  EXPECT_EQ(draw.next(), 0x6921edc8b4482b0aULL);
  EXPECT_EQ(draw.next(), 0x388d159498ebaf30ULL);
  EXPECT_EQ(draw.next(), 0xa6c4024ae37a359dULL);
  EXPECT_EQ(draw.next(), 0xca62118a6c674a14ULL);
}

TEST(Draw, GivesTheGoldenBoundedNumbersAlsoWhereHalfTheRangeIsDrawnAgain) {
  Draw draw(counting());
  const std::uint64_t half = std::uint64_t{1} << 63;
  const std::vector<std::uint64_t> bounds{1, 2, 3, 10, 900, half, half + 1, half + 1, 7};
  const std::vector<std::uint64_t> golden{
      0, 0, 1, 0, 346, 4141837694206796161ULL, 3279958557429095516ULL, 2049306204032053165ULL, 4};
  std::vector<std::uint64_t> drawn;
  for (const auto bound : bounds) drawn.push_back(draw.below(bound));
  EXPECT_EQ(drawn, golden);
}

TEST(Draw, ShufflesAsTheGoldenOrder) {
  Draw draw(counting());
  EXPECT_EQ(random_order(draw, 10), (std::vector<std::size_t>{2, 3, 7, 9, 6, 8, 1, 5, 4, 0}));
}

TEST(Draw, StreamsOfOneSeedAreTheGoldenOnesAndDiffer) {
  Draw open = Draw::stream(counting(), "open");
  Draw keyed = Draw::stream(counting(), "keyed");
  EXPECT_EQ(open.next(), 0x4521636179bdc15bULL);
  EXPECT_EQ(open.below(900), 389U);
  EXPECT_EQ(keyed.next(), 0x9436781d47c56503ULL);
  EXPECT_EQ(keyed.below(900), 574U);
}

TEST(Draw, EveryOrderOfFourIsEquallyLikely) {
  Draw draw(counting());
  std::map<std::vector<std::size_t>, int> seen;
  constexpr int draws = 24000;
  for (int i = 0; i < draws; ++i) ++seen[random_order(draw, 4)];
  ASSERT_EQ(seen.size(), 24U);
  double chi_square = 0;
  for (const auto& [order, count] : seen) chi_square += std::pow(count - draws / 24.0, 2) / (draws / 24.0);
  EXPECT_LT(chi_square, 49.73);  // chi-square, 23 df, upper 0.1 %
}

TEST(Draw, HalvesDifferByOneAtMostAndTheOddOneGoesEitherWay) {
  Draw draw(counting());
  std::array<int, 2> longer{};
  for (int i = 0; i < 400; ++i) {
    const auto odd = random_halves(draw, 5);
    const int yes = std::accumulate(odd.begin(), odd.end(), 0);
    ASSERT_TRUE(yes == 2 || yes == 3);
    ++longer[yes == 3 ? 1 : 0];
    const auto even = random_halves(draw, 6);
    ASSERT_EQ(std::accumulate(even.begin(), even.end(), 0), 3);
  }
  EXPECT_GT(longer[0], 150);
  EXPECT_GT(longer[1], 150);
}

}  // namespace
}  // namespace likeleaf::design
