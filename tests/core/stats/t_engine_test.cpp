#include "core/stats/t_engine.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "core/stats/equivalence.h"
#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

Weighted with_orders(std::vector<Rational> d, std::vector<std::int32_t> lot, std::vector<std::int32_t> order) {
  return weighted(d, lot, order).value();
}

// Worked out in exact fractions by the normal equations and the sandwich (X'WX)⁻¹ X'W diag(r²) WX (X'WX)⁻¹ · G/(G − 2):
// est 7/6, slope 11/10, variance 98063/972000; p by 30-digit arithmetic.
TEST(TEngine, WithLeanAgainstTheNormalEquations) {
  const Weighted v = with_orders({{3, 2}, {1, 1}, {2, 1}, {1, 2}, {5, 2}, {0, 1}, {1, 1}}, {0, 0, 0, 1, 1, 2, 2},
                                 {0, 1, -1, 0, 1, -1, 0});
  const auto fit = t_fit(v);
  ASSERT_TRUE(fit);
  EXPECT_EQ(fit->state, TState::fitted);
  EXPECT_EQ(fit->model, TModel::with_lean);
  EXPECT_TRUE(near(fit->estimate, 7.0 / 6, 1e-14));
  EXPECT_TRUE(near(fit->slope, 1.1, 1e-14));
  EXPECT_TRUE(near(fit->se, std::sqrt(98063.0 / 972000), 1e-14));
  EXPECT_EQ(fit->df, 5);
  EXPECT_TRUE(near(fit->t, 3.673054179299404, 1e-13));
  EXPECT_TRUE(near(fit->p, 0.014397435221281, 1e-12));
}

// Two of each single order, equal weights: the intercept is the mean of the two order means.
TEST(TEngine, OwnBrewsAverageTheTwoOrders) {
  const Weighted v = with_orders({{4, 1}, {6, 1}, {1, 1}, {2, 1}, {3, 1}}, {0, 0, 0, 0, 0}, {1, 1, -1, -1, -1});
  const auto fit = t_fit(v);
  ASSERT_TRUE(fit);
  EXPECT_DOUBLE_EQ(fit->estimate, 3.5);  // (5 + 2)/2
  EXPECT_DOUBLE_EQ(fit->slope, 3);
  EXPECT_EQ(fit->df, 3);
}

TEST(TEngine, States) {
  EXPECT_EQ(t_fit(plain(std::vector<std::int64_t>{3}, 1).value())->state, TState::too_few);
  EXPECT_EQ(t_fit(plain(std::vector<std::int64_t>{3, 3, 3}, 1).value())->state, TState::no_spread);
  EXPECT_EQ(t_fit(plain(std::vector<std::int64_t>{0, 0, 0}, 1).value())->state, TState::no_spread);
  EXPECT_EQ(t_fit(plain(std::vector<std::int64_t>{3, 4}, 1).value())->state, TState::fitted);
  EXPECT_EQ(t_fit(with_orders({{1, 1}, {2, 1}, {3, 1}, {5, 1}}, {0, 0, 0, 0}, {1, 1, 1, 1}))->state,
            TState::describe_only);
  EXPECT_EQ(t_fit(with_orders({{1, 1}, {2, 1}, {3, 1}}, {0, 0, 0}, {1, -1, 1}))->state, TState::too_few);
  // On the line exactly: nothing is left, although the values differ.
  EXPECT_EQ(t_fit(with_orders({{1, 3}, {2, 3}, {1, 1}, {1, 3}}, {0, 0, 0, 0}, {-1, 0, 1, -1}))->state,
            TState::no_spread);
  // The intercept rests on the two brew pairs with both orders, which are alike: its standard error is 0.
  EXPECT_EQ(t_fit(with_orders({{1, 3}, {1, 3}, {1, 1}, {2, 1}}, {0, 0, 0, 0}, {0, 0, 1, 1}))->state, TState::no_spread);
  EXPECT_FALSE(t_fit(Weighted{}).has_value());
  const TFit none = t_fit(plain(std::vector<std::int64_t>{3, 3}, 1).value()).value();
  EXPECT_EQ(none.p, 1);
  EXPECT_DOUBLE_EQ(none.estimate, 3);
  EXPECT_FALSE(t_interval(none, 0.05));
  EXPECT_FALSE(t_equivalence(none, 1));
}

TEST(TEngine, IntervalRefusesOddLevels) {
  const TFit fit = t_fit(plain(std::vector<std::int64_t>{3, 4, 7}, 1).value()).value();
  EXPECT_FALSE(t_interval(fit, 0));
  EXPECT_FALSE(t_interval(fit, 1));
  EXPECT_FALSE(t_interval(fit, NAN));
  EXPECT_FALSE(t_equivalence(fit, 0));
  EXPECT_FALSE(t_equivalence(fit, NAN));
}

Weighted some_weighted(bool orders) {
  const auto n = static_cast<std::size_t>(*rc::gen::inRange(4, 14));
  std::vector<Rational> d;
  std::vector<std::int32_t> lot, order;
  for (std::size_t i = 0; i < n; ++i) {
    d.push_back(rational(*rc::gen::inRange<std::int64_t>(-20, 21), 8).value());
    lot.push_back(static_cast<std::int32_t>(i < 2 ? i : static_cast<std::size_t>(*rc::gen::inRange(0, 2))));
    order.push_back(orders ? (i < 2 ? (i == 0 ? 1 : -1) : *rc::gen::inRange(-1, 2)) : 0);
  }
  return weighted(d, lot, order).value();
}

RC_GTEST_PROP(TEngine, SwappingAAndBTurnsTheEstimateAndKeepsP, ()) {
  const Weighted v = some_weighted(*rc::gen::arbitrary<bool>());
  const auto a = t_fit(v).value(), b = t_fit(mirrored(v)).value();
  RC_ASSERT(a.state == b.state);
  RC_ASSERT(a.estimate == -b.estimate);
  RC_ASSERT(a.se == b.se);
  RC_ASSERT(a.p == b.p);
}

RC_GTEST_PROP(TEngine, AShiftMovesTheEstimateOnly, ()) {
  const Weighted v = some_weighted(*rc::gen::arbitrary<bool>());
  const Rational by{*rc::gen::inRange<std::int64_t>(-30, 31), 1};
  const auto a = t_fit(v).value(), b = t_fit(shifted(v, by).value()).value();
  RC_ASSERT(std::abs(a.estimate + by.value() - b.estimate) < 1e-12);
  RC_ASSERT(std::abs(a.se - b.se) < 1e-12);
}

RC_GTEST_PROP(TEngine, RejectsExactlyWhenTheIntervalLeavesOutZero, ()) {
  const auto fit = t_fit(some_weighted(*rc::gen::arbitrary<bool>())).value();
  if (fit.state != TState::fitted || std::abs(fit.p - 0.05) < 1e-9) return;
  const auto i = t_interval(fit, 0.05).value();
  RC_ASSERT((fit.p < 0.05) == (i.lower > 0 || i.upper < 0));
}

}  // namespace
}  // namespace likeleaf::stats
