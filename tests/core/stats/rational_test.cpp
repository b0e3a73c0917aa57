#include "core/stats/rational.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <limits>
#include <numeric>

#include "core/stats/random.h"

namespace likeleaf::stats {
namespace {

TEST(Rational, LowestTermsAndText) {
  EXPECT_EQ(rational(6, -8)->text(), "-3/4");
  EXPECT_EQ(rational(0, -5)->text(), "0");
  EXPECT_EQ(rational(10, 5)->text(), "2");
  EXPECT_DOUBLE_EQ(rational(1, 3)->value(), 1.0 / 3);
  EXPECT_EQ(rational(1, 0).error().kind, ErrorKind::bad_value);
  EXPECT_EQ(fraction(1726, 32768).text(), "863/16384");
}

TEST(Rational, OverflowIsAnErrorAndNotAWrongNumber) {
  constexpr auto top = std::numeric_limits<std::int64_t>::max();
  EXPECT_EQ(add({top, 1}, {1, 1}).error().kind, ErrorKind::too_large);
  EXPECT_EQ(multiply({top, 1}, {2, 1}).error().kind, ErrorKind::too_large);
  EXPECT_EQ(add({1, top}, {1, top - 1}).error().kind, ErrorKind::too_large);
  EXPECT_EQ(rational(std::numeric_limits<std::int64_t>::min(), 1).error().kind, ErrorKind::too_large);
  EXPECT_EQ(rational(std::numeric_limits<std::int64_t>::min(), 2)->num, -(std::int64_t{1} << 62));
  EXPECT_TRUE(compare({top, top - 1}, {top - 1, top - 2}) < 0);  // would tie in doubles
}

RC_GTEST_PROP(Rational, SumsAndProductsAreExact, ()) {
  const auto number = rc::gen::inRange<std::int64_t>(-100000, 100001);
  const auto below = rc::gen::inRange<std::int64_t>(1, 100001);
  const std::int64_t a = *number, c = *number, b = *below, d = *below;
  const Rational x = rational(a, b).value(), y = rational(c, d).value();
  RC_ASSERT(add(x, y).value() == rational(a * d + c * b, b * d).value());
  RC_ASSERT(subtract(x, y).value() == rational(a * d - c * b, b * d).value());
  RC_ASSERT(multiply(x, y).value() == rational(a * c, b * d).value());
  RC_ASSERT((compare(x, y) < 0) == (a * d < c * b));
  RC_ASSERT(std::gcd(x.num, x.den) == 1);
}

// Golden values, worked out by a second implementation of mt19937_64, of the seeding and of the draws (Python).
TEST(Draws, GoldenValues) {
  Draws bits(14, Stream::sign_flip);
  EXPECT_EQ(bits.bits(), 5559908486819748594u);
  EXPECT_EQ(bits.bits(), 3107470647009051125u);
  EXPECT_EQ(bits.bits(), 13988124912875611586u);
  Draws below(14, Stream::unlike_lots);
  for (const std::uint64_t expected : {9, 8, 8, 6, 7, 1, 9, 7}) EXPECT_EQ(below.below(10), expected);
  std::vector<int> items(25);
  std::iota(items.begin(), items.end(), 0);
  Draws(14, Stream::unlike_assessors).shuffle(std::span(items));
  EXPECT_EQ(items, (std::vector<int>{13, 2, 16, 20, 17, 5, 14, 18, 24, 21, 22, 6, 3,
                                     10, 4, 19, 9,  12, 0, 15, 7,  23, 11, 1,  8}));
}

// Every permutation of four comes up as often as the others: χ² of 24 cells, 240 000 draws, fixed seed. 60 is beyond
// the 0.9999 quantile of χ² with 23 df (53.5 is the 0.9997 one): a biased shuffle gives hundreds.
TEST(Draws, ShuffleIsEven) {
  Draws draws(7, Stream::other);
  std::vector<int> seen(256, 0);
  for (int i = 0; i < 240'000; ++i) {
    std::vector<int> items{0, 1, 2, 3};
    draws.shuffle(std::span(items));
    ++seen[static_cast<std::size_t>(items[0] * 64 + items[1] * 16 + items[2] * 4 + items[3])];
  }
  double chi2 = 0;
  int cells = 0;
  for (const int n : seen)
    if (n > 0) {
      ++cells;
      chi2 += (n - 10000.0) * (n - 10000.0) / 10000.0;
    }
  EXPECT_EQ(cells, 24);
  EXPECT_LT(chi2, 60);
}

TEST(Draws, BelowIsBelowAndLongShufflesKeepEveryItem) {
  Draws draws(3, Stream::other);
  for (int i = 0; i < 1000; ++i) EXPECT_LT(draws.below((std::uint64_t{1} << 63) + 1), (std::uint64_t{1} << 63) + 1);
  for (const std::size_t n : {0u, 1u, 2u, 19u, 40u, 1000u}) {
    std::vector<int> items(n);
    std::iota(items.begin(), items.end(), 0);
    draws.shuffle(std::span(items));
    std::vector<bool> there(n, false);
    for (const int x : items) there[static_cast<std::size_t>(x)] = true;
    EXPECT_EQ(std::count(there.begin(), there.end(), true), static_cast<std::ptrdiff_t>(n));
  }
}

}  // namespace
}  // namespace likeleaf::stats
