#include "core/stats/holm.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace likeleaf::stats {
namespace {

// Worked by hand, k = 4, alpha = 0.05: levels 0.0125, 0.01667, 0.025, 0.05.
TEST(Holm, LevelsByPlace) {
  const std::vector<double> p{0.03, 0.001, 0.04, 0.015};
  const auto seen = holm(p, 0.05);
  ASSERT_TRUE(seen);
  EXPECT_EQ((*seen)[1].place, 1);
  EXPECT_DOUBLE_EQ((*seen)[1].alpha_i, 0.0125);
  EXPECT_TRUE((*seen)[1].passed);
  EXPECT_EQ((*seen)[3].place, 2);
  EXPECT_DOUBLE_EQ((*seen)[3].alpha_i, 0.05 / 3);
  EXPECT_TRUE((*seen)[3].passed);
  // 0.03 fails at 0.025; 0.04 is not asked any more and shares that level although 0.04 ≤ 0.05.
  EXPECT_EQ((*seen)[0].place, 3);
  EXPECT_FALSE((*seen)[0].passed);
  EXPECT_DOUBLE_EQ((*seen)[0].alpha_i, 0.025);
  EXPECT_EQ((*seen)[2].place, 4);
  EXPECT_FALSE((*seen)[2].passed);
  EXPECT_DOUBLE_EQ((*seen)[2].alpha_i, 0.025);
  EXPECT_DOUBLE_EQ((*seen)[0].adjusted, 0.06);
  EXPECT_DOUBLE_EQ((*seen)[2].adjusted, 0.06);
}

TEST(Holm, OneAttributeIsThePlainTest) {
  EXPECT_TRUE((*holm(std::vector<double>{0.05}, 0.05))[0].passed);
  EXPECT_DOUBLE_EQ((*holm(std::vector<double>{0.05}, 0.05))[0].alpha_i, 0.05);
  EXPECT_FALSE((*holm(std::vector<double>{0.0501}, 0.05))[0].passed);
}

TEST(Holm, Refuses) {
  EXPECT_EQ(holm({}, 0.05).error().kind, ErrorKind::missing);
  EXPECT_FALSE(holm(std::vector<double>{NAN}, 0.05));
  EXPECT_FALSE(holm(std::vector<double>{-0.1}, 0.05));
  EXPECT_FALSE(holm(std::vector<double>{0.1}, 0.0));
}

std::vector<double> some_p(int longest) {
  const auto raw = *rc::gen::container<std::vector<int>>(static_cast<std::size_t>(*rc::gen::inRange(1, longest)),
                                                         rc::gen::inRange(0, 1025));
  std::vector<double> p;
  for (const int x : raw) p.push_back(x * x / 1048576.0 * 0.99);
  return p;
}

RC_GTEST_PROP(Holm, PassedExactlyWhenAdjustedIsSmallEnough, ()) {
  const auto p = some_p(9);
  const auto seen = holm(p, 0.05).value();
  for (const auto& item : seen) {
    // At equality the product and the quotient may differ in a last bit.
    if (std::abs(item.adjusted - 0.05) > 1e-12) RC_ASSERT(item.passed == (item.adjusted <= 0.05));
    RC_ASSERT(item.adjusted >= item.p);
    if (item.passed) RC_ASSERT(item.p <= item.alpha_i);
    if (!item.passed) RC_ASSERT(item.p > item.alpha_i);
  }
}

RC_GTEST_PROP(Holm, TheOrderOfTheListChangesNothing, ()) {
  const auto p = some_p(7);
  const auto seen = holm(p, 0.05).value();
  std::vector<double> turned(p.rbegin(), p.rend());
  const auto back = holm(turned, 0.05).value();
  for (std::size_t i = 0; i < p.size(); ++i) {
    const HolmItem &a = seen[i], &b = back[p.size() - 1 - i];
    RC_ASSERT(a.passed == b.passed);
    RC_ASSERT(a.alpha_i == b.alpha_i);
    RC_ASSERT(a.adjusted == b.adjusted);
    RC_ASSERT(a.place == b.place);
  }
}

}  // namespace
}  // namespace likeleaf::stats
