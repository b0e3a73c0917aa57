// Source: tests/reference/power.json (noncentral t and direct integration, confirmed by R power.t.test).
#include "core/stats/next_pairs.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

// 1e-8: the reference (SciPy's noncentral t and its t quantile) is good to about that only; see the next test.
TEST(NextPairs, DifferencePower) {
  const auto reference = reference::json("power.json");
  for (const auto& e : reference["paired_t"])
    EXPECT_TRUE(near(*difference_power(e["n"], e["delta"], e["sd"], e["alpha"]), e["power"], 1e-8));
}

// The same rows, integrated over the SD with 30 digits (mpmath).
TEST(NextPairs, DifferencePowerToTwelveDigits) {
  EXPECT_TRUE(near(*difference_power(10, 1, 1.5, 0.05), 0.4692343078511545, 1e-12));
  EXPECT_TRUE(near(*difference_power(20, 1, 1.5, 0.05), 0.8072916797687586, 1e-12));
  EXPECT_TRUE(near(*difference_power(8, 2, 1, 0.05), 0.9976016751996034, 1e-12));
  EXPECT_TRUE(near(*difference_power(40, 0.5, 1.5, 0.05), 0.5383319933598676, 1e-12));
  EXPECT_TRUE(near(*difference_power(5, 1, 1, 0.05), 0.401389917371795, 1e-12));
}

TEST(NextPairs, EquivalencePower) {
  const auto reference = reference::json("power.json");
  for (const auto& e : reference["equivalence"])
    EXPECT_TRUE(near(*equivalence_power(e["n"], e["delta"], e["sd"], e["margin"], e["alpha"]), e["power"], 1e-8))
        << "margin " << e["margin"];
}

// Rows of the same table, integrated with 30 digits (mpmath).
TEST(NextPairs, EquivalencePowerToTwelveDigits) {
  EXPECT_TRUE(near(*equivalence_power(20, 0, 1.5, 1, 0.05), 0.7804925226676874, 1e-12)) << "margin 1";
  EXPECT_TRUE(near(*equivalence_power(30, 0.5, 1.5, 1, 0.05), 0.5547958315508894, 1e-12)) << "margin 1";
  EXPECT_TRUE(near(*equivalence_power(12, 0, 1, 1, 0.05), 0.8893810960387016, 1e-12)) << "margin 1";
  EXPECT_TRUE(near(*equivalence_power(6, 0, 2, 1, 0.05), 0.02422402606401065, 1e-12)) << "margin 1";
}

TEST(NextPairs, PairsForPower80) {
  const auto reference = reference::json("power.json");
  for (const auto& e : reference["pairs_needed_power_80"]) {
    EXPECT_EQ(pairs_for_difference(e["delta"], e["sd"], 0.05)->value(), e["pairs_for_difference"]);
    EXPECT_EQ(pairs_for_equivalence(0, e["sd"], e["margin"], 0.05)->value(), e["pairs_for_equivalence_true_zero"])
        << "margin " << e["margin"];
  }
}

// The number is the first one: its power reaches 0.8 and that of one brew pair fewer does not; also at Holm's levels.
TEST(NextPairs, TheFirstNumberThatIsEnough) {
  for (const double alpha : {0.05, 0.025, 0.05 / 3})
    for (const double delta : {0.2, 0.5, 1.0, 3.0}) {
      const int n = pairs_for_difference(delta, 1.2, alpha)->value();
      EXPECT_GE(*difference_power(n, delta, 1.2, alpha), 0.8);
      if (n > 3) {
        EXPECT_LT(*difference_power(n - 1, delta, 1.2, alpha), 0.8);
      }
      const int m = pairs_for_equivalence(0.1, 1.2, 0.1 + delta, alpha)->value();
      EXPECT_GE(*equivalence_power(m, 0.1, 1.2, 0.1 + delta, alpha), 0.8);
      if (m > 3) {
        EXPECT_LT(*equivalence_power(m - 1, 0.1, 1.2, 0.1 + delta, alpha), 0.8);
      }
    }
}

TEST(NextPairs, SignOfTheDifferenceDoesNotMatter) {
  EXPECT_DOUBLE_EQ(*difference_power(12, -0.7, 1.1, 0.05), *difference_power(12, 0.7, 1.1, 0.05));
  EXPECT_NEAR(*equivalence_power(12, -0.3, 0.8, 1, 0.05), *equivalence_power(12, 0.3, 0.8, 1, 0.05), 1e-12);
}

TEST(NextPairs, NoDifferenceHasPowerAlpha) {
  for (const int n : {3, 10, 60}) EXPECT_NEAR(*difference_power(n, 0, 1, 0.05), 0.05, 1e-12);
}

TEST(NextPairs, OutOfReachIsNothing) {
  EXPECT_FALSE(pairs_for_difference(0, 1, 0.05)->has_value());
  EXPECT_FALSE(pairs_for_difference(0.001, 1, 0.05)->has_value());
  EXPECT_FALSE(pairs_for_equivalence(1, 1, 1, 0.05)->has_value());
  EXPECT_FALSE(pairs_for_equivalence(-2, 1, 1, 0.05)->has_value());
  EXPECT_FALSE(pairs_for_equivalence(0, 1, 0.001, 0.05)->has_value());
}

TEST(NextPairs, HugeEffectsStayFinite) {
  for (const double delta : {10.0, 1e3, 1e9})
    for (const int n : {2, 3, 50, 4000}) {
      const double power = *difference_power(n, delta, 1e-3, 0.05);
      EXPECT_TRUE(power > 0.99 && power <= 1) << delta << " " << n << " " << power;
    }
  EXPECT_EQ(pairs_for_difference(1e9, 1e-3, 0.05)->value(), 3);
}

// Above nc = 35 the power comes from integration: the two ways agree where they meet.
TEST(NextPairs, TheTwoWaysMeet) {
  const double below = *difference_power(2, 35 / std::sqrt(2.0) - 1e-9, 1, 0.01);
  const double above = *difference_power(2, 35 / std::sqrt(2.0) + 1e-9, 1, 0.01);
  EXPECT_NEAR(below, above, 1e-8);
  EXPECT_LT(below, 0.9);
}

TEST(NextPairs, BadArguments) {
  EXPECT_FALSE(difference_power(1, 1, 1, 0.05));
  EXPECT_FALSE(difference_power(5, 1, 0, 0.05));
  EXPECT_FALSE(difference_power(5, NAN, 1, 0.05));
  EXPECT_FALSE(difference_power(5, 1, 1, 1));
  EXPECT_FALSE(equivalence_power(5, 0, 1, 0, 0.05));
  EXPECT_FALSE(pairs_for_difference(1, 1, 0.05, 1.0));
  EXPECT_FALSE(pairs_for_equivalence(0, INFINITY, 1, 0.05));
}

}  // namespace
}  // namespace likeleaf::stats
