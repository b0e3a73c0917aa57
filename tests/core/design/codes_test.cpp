#include "core/design/codes.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <set>
#include <vector>

#include "tests/core/design/plans.h"

namespace likeleaf::design {
namespace {

using test::seed_of;

BlindCode code(int n) {
  return *BlindCode::from(n);
}

TEST(Codes, CountsDigitsInTheSamePlace) {
  EXPECT_EQ(digits_shared(code(417), code(417)), 3);
  EXPECT_EQ(digits_shared(code(417), code(427)), 2);
  EXPECT_EQ(digits_shared(code(417), code(741)), 0);
  EXPECT_EQ(digits_shared(code(417), code(471)), 1);
  EXPECT_EQ(digits_shared(code(100), code(900)), 2);
}

RC_GTEST_PROP(Codes, AreUniqueAndUnlikeWithinAPair, (std::uint64_t seed)) {
  const auto pairs = *rc::gen::inRange<std::size_t>(0, 451);
  Draw draw(seed_of(seed));
  const auto codes = draw_codes(draw, pairs);
  RC_ASSERT(codes.has_value());
  RC_ASSERT(codes->size() == pairs);
  std::set<BlindCode> seen;
  for (const auto& pair : *codes) {
    RC_ASSERT(digits_shared(pair.one, pair.two) <= 1);
    RC_ASSERT(seen.insert(pair.one).second);
    RC_ASSERT(seen.insert(pair.two).second);
  }
}

TEST(Codes, AllNineHundredCanBeUsed) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    Draw draw(seed_of(seed));
    const auto codes = draw_codes(draw, 450);
    ASSERT_TRUE(codes.has_value());
    std::set<int> seen;
    for (const auto& pair : *codes) {
      ASSERT_LE(digits_shared(pair.one, pair.two), 1);
      seen.insert({pair.one.number(), pair.two.number()});
    }
    EXPECT_EQ(seen.size(), 900U);
  }
}

TEST(Codes, AreRefusedWhenTheyRunOut) {
  Draw draw(seed_of(1));
  const auto codes = draw_codes(draw, 451);
  ASSERT_FALSE(codes.has_value());
  EXPECT_EQ(codes.error().kind, ErrorKind::too_large);
  EXPECT_EQ(codes.error().field, "blind codes");
  EXPECT_EQ(codes.error().value, "902");
}

TEST(Codes, EveryCodeIsEquallyLikelyForEitherCup) {
  constexpr std::size_t draws = 9000, pairs = 10;
  std::vector<int> one(900), two(900);
  Draw draw(seed_of(5));
  for (std::size_t i = 0; i < draws; ++i) {
    const auto codes = draw_codes(draw, pairs);
    ASSERT_TRUE(codes.has_value());
    for (const auto& pair : *codes) {
      ++one[static_cast<std::size_t>(pair.one.number() - 100)];
      ++two[static_cast<std::size_t>(pair.two.number() - 100)];
    }
  }
  const double expected = draws * pairs / 900.0;
  double chi_one = 0, chi_two = 0;
  for (const int n : one) chi_one += std::pow(n - expected, 2) / expected;
  for (const int n : two) chi_two += std::pow(n - expected, 2) / expected;
  // Chi-square, 899 df: 1034 is the upper 0.1 %, 773 the lower (too even would be wrong too).
  EXPECT_LT(chi_one, 1034);
  EXPECT_LT(chi_two, 1034);
  EXPECT_GT(chi_one, 773);
  EXPECT_GT(chi_two, 773);
}

TEST(Codes, DrawnWithoutCareWouldRepeatAsOftenAsTheBirthdayProductSays) {
  // tests/reference/checks.csv A33: 12 codes with replacement out of 900.
  double all_differ = 1;
  for (int i = 0; i < 12; ++i) all_differ *= 1 - i / static_cast<double>(codes_there_are);
  EXPECT_NEAR(1 - all_differ, 0.0710011, 1e-6);
  // The bounded draw, used that way, repeats as often: 20 000 sets, three standard errors.
  Draw draw(seed_of(9));
  constexpr int sets = 20000;
  int repeated = 0;
  for (int i = 0; i < sets; ++i) {
    std::set<std::uint64_t> seen;
    for (int k = 0; k < 12; ++k) seen.insert(draw.below(codes_there_are));
    repeated += seen.size() < 12 ? 1 : 0;
  }
  EXPECT_NEAR(repeated / static_cast<double>(sets), 0.0710011, 3 * std::sqrt(0.071 * 0.929 / sets));
}

TEST(Codes, SparesAreAQuarterOfThePairsAndAtLeastSix) {
  EXPECT_EQ(spare_pairs(1), 6U);
  EXPECT_EQ(spare_pairs(24), 6U);
  EXPECT_EQ(spare_pairs(25), 7U);
  EXPECT_EQ(spare_pairs(100), 25U);
}

}  // namespace
}  // namespace likeleaf::design
