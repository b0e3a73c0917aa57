// Source: tests/reference/two_ac.json; its first row is the published example of Christensen, Lee, Brockhoff 2012.
#include "core/stats/two_ac.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

TEST(TwoAc, Reference) {
  const auto rows = reference::json("two_ac.json");
  ASSERT_EQ(rows.size(), 4u);
  for (const auto& e : rows) {
    const auto seen = two_ac(e["less"], e["cannot_tell"], e["more"]);
    ASSERT_TRUE(seen);
    ASSERT_EQ(seen->state, TwoAcState::fitted);
    EXPECT_TRUE(near(*seen->tau, e["tau"], 1e-11));
    EXPECT_TRUE(near(*seen->d_prime, e["d_prime"], 1e-11));
    EXPECT_TRUE(near(seen->lr, e["lr"], 1e-10));
    EXPECT_TRUE(near(seen->p, e["p"], 1e-10));
  }
}

TEST(TwoAc, PublishedExample) {
  const auto seen = two_ac(2, 2, 6);
  ASSERT_TRUE(seen);
  EXPECT_NEAR(*seen->tau, 0.41597, 5e-6);
  EXPECT_NEAR(*seen->d_prime, 0.77426, 5e-6);
  EXPECT_NEAR(seen->p, 0.14798, 5e-6);
}

TEST(TwoAc, EmptyCellsGiveNamedStatesAndNeverNan) {
  for (int less = 0; less <= 6; ++less)
    for (int mid = 0; mid <= 6; ++mid)
      for (int more = 0; more <= 6; ++more) {
        const auto seen = two_ac(less, mid, more);
        ASSERT_EQ(seen.has_value(), less + mid + more > 0);
        if (!seen) continue;
        EXPECT_TRUE(std::isfinite(seen->lr) && seen->lr >= 0);
        EXPECT_TRUE(seen->p > 0 && seen->p <= 1);
        ASSERT_EQ(seen->d_prime.has_value(), less > 0 && more > 0);
        EXPECT_EQ(seen->tau.has_value(), seen->d_prime.has_value());
        if (!seen->d_prime) continue;
        EXPECT_TRUE(std::isfinite(*seen->d_prime) && std::isfinite(*seen->tau));
        EXPECT_EQ(*seen->tau == 0, mid == 0);
        const auto turned = two_ac(more, mid, less);
        EXPECT_DOUBLE_EQ(*turned->d_prime, -*seen->d_prime);
        EXPECT_DOUBLE_EQ(*turned->tau, *seen->tau);
        EXPECT_DOUBLE_EQ(turned->p, seen->p);
      }
  EXPECT_EQ(two_ac(0, 3, 2)->state, TwoAcState::nobody_less);
  EXPECT_EQ(two_ac(2, 3, 0)->state, TwoAcState::nobody_more);
  EXPECT_EQ(two_ac(0, 3, 0)->state, TwoAcState::nobody_could_tell);
  EXPECT_EQ(two_ac(0, 3, 0)->p, 1);
  // Nobody "less" of five: likelihood ratio 2·5·ln 2.
  EXPECT_TRUE(near(two_ac(0, 4, 5)->lr, 10 * std::log(2.0), 1e-14));
  EXPECT_EQ(two_ac(-1, 3, 0).error().kind, ErrorKind::bad_value);
  EXPECT_EQ(two_ac(0, 0, 0).error().kind, ErrorKind::missing);
}

}  // namespace
}  // namespace likeleaf::stats
