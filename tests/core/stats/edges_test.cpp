// n = 0, 1, 2, all alike, all zero, numbers out of range: an error or a named state, never a NaN.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "core/stats/binomial.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/describe.h"
#include "core/stats/equivalence.h"
#include "core/stats/flip_interval.h"
#include "core/stats/hodges_lehmann.h"
#include "core/stats/shrunken.h"
#include "core/stats/sign_flip.h"
#include "core/stats/signed_rank.h"
#include "core/stats/t_engine.h"
#include "core/stats/unlike_lots.h"

namespace likeleaf::stats {
namespace {

void everything_is_finite(const std::vector<std::int64_t>& d) {
  const auto v = plain(d, 2).value();
  RC_ASSERT(std::isfinite(estimate(v)));
  const auto flip = sign_flip(v, 1).value();
  for (const Share& s : {flip.two_sided, flip.greater, flip.less}) RC_ASSERT(s.p > 0 && s.p <= 1);
  for (const double alpha : {0.05, 0.1, 0.9}) {
    const auto i = flip_interval(v, alpha, 1).value();
    if (i) RC_ASSERT(std::isfinite(i->lower) && std::isfinite(i->upper) && i->lower <= i->upper);
  }
  const auto e = flip_equivalence(v, Rational{1, 2}, 1).value();
  RC_ASSERT(e.p > 0 && e.p <= 1);
  const auto t = t_fit(v).value();
  RC_ASSERT(std::isfinite(t.estimate) && std::isfinite(t.se) && std::isfinite(t.t) && t.p >= 0 && t.p <= 1);
  if (const auto i = t_interval(t, 0.05)) RC_ASSERT(std::isfinite(i->lower) && std::isfinite(i->upper));
  for (const Zeros z : {Zeros::pratt, Zeros::dropped})
    if (const auto s = signed_rank(d, z, 1).value()) RC_ASSERT(s->two_sided.p > 0 && s->two_sided.p <= 1);
  const auto h = hodges_lehmann(d, 2, 0.05).value();
  RC_ASSERT(std::isfinite(h.estimate));
  if (h.interval) RC_ASSERT(h.interval->lower <= h.interval->upper && h.interval->achieved >= 0.95);
  const auto about = describe(d, 2).value();
  RC_ASSERT(std::isfinite(about.mean) && (!about.sd || std::isfinite(*about.sd)));
  RC_ASSERT(about.lowest <= about.lower_quartile && about.lower_quartile <= about.median);
  RC_ASSERT(about.median <= about.upper_quartile && about.upper_quartile <= about.highest);
  const auto every = shrunken_lots(v).value();
  for (const auto& s : every.items) RC_ASSERT(std::isfinite(s.value));
}

RC_GTEST_PROP(Edges, SmallSetsNeverGiveNan, ()) {
  const auto n = static_cast<std::size_t>(*rc::gen::inRange(1, 6));
  everything_is_finite(*rc::gen::container<std::vector<std::int64_t>>(n, rc::gen::inRange<std::int64_t>(-2, 3)));
}
RC_GTEST_PROP(Edges, AllAlikeNeverGivesNan, ()) {
  everything_is_finite(std::vector<std::int64_t>(static_cast<std::size_t>(*rc::gen::inRange(1, 70)),
                                                 *rc::gen::inRange<std::int64_t>(-20, 21)));
}

TEST(Edges, EmptyIsMissing) {
  const std::vector<std::int64_t> none;
  EXPECT_EQ(plain(none, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(weighted({}, {}).error().kind, ErrorKind::missing);
  EXPECT_EQ(brew_pairs({}, {}, 2).error().kind, ErrorKind::missing);
  EXPECT_EQ(sign_flip(none, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(sign_flip(Weighted{}, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(flip_interval(Weighted{}, 0.05, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(signed_rank(none, Zeros::pratt, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(hodges_lehmann(none, 1, 0.05).error().kind, ErrorKind::missing);
  EXPECT_EQ(describe(none, 1).error().kind, ErrorKind::missing);
  EXPECT_EQ(describe(std::vector<double>{}).error().kind, ErrorKind::missing);
  EXPECT_EQ(estimate_exact(Weighted{}).error().kind, ErrorKind::missing);
  EXPECT_EQ(shrunken_lots(Weighted{}).error().kind, ErrorKind::missing);
  EXPECT_EQ(sign_test(0, 0).error().kind, ErrorKind::missing);
}

TEST(Edges, OutOfRangeIsRefusedAndNotWrapped) {
  const std::int64_t huge = std::int64_t{1} << 61;
  EXPECT_EQ(plain(std::vector<std::int64_t>{huge}, 1).error().kind, ErrorKind::too_large);
  EXPECT_EQ(sign_flip(std::vector<std::int64_t>{huge, 1}, 1).error().kind, ErrorKind::too_large);
  EXPECT_EQ(sign_flip(std::vector<std::int64_t>{std::numeric_limits<std::int64_t>::min()}, 1).error().kind,
            ErrorKind::too_large);
  EXPECT_EQ(
      signed_rank(std::vector<std::int64_t>{std::numeric_limits<std::int64_t>::min()}, Zeros::pratt, 1).error().kind,
      ErrorKind::too_large);
  // Coprime denominators whose common grid does not fit.
  const std::vector<Rational> d{{1, 1'000'000'007}, {1, 1'000'000'009}, {1, 998'244'353}};
  EXPECT_EQ(weighted(d, std::vector<std::int32_t>{0, 0, 0}).error().kind, ErrorKind::too_large);
  const Weighted v = plain(std::vector<std::int64_t>{std::int64_t{1} << 59}, 1).value();
  EXPECT_EQ(shifted(v, Rational{std::int64_t{1} << 60, 1}).error().kind, ErrorKind::too_large);
  EXPECT_EQ(shifted(v, Rational{1, 1000}).error().kind, ErrorKind::too_large);
}

TEST(Edges, BadValues) {
  const std::vector<std::int64_t> d{1, 2, 3};
  const Weighted v = plain(d, 2).value();
  EXPECT_EQ(plain(d, 0).error().kind, ErrorKind::bad_value);
  for (const double alpha : {0.0, 1.0, -0.1, std::numeric_limits<double>::quiet_NaN()}) {
    EXPECT_FALSE(flip_interval(v, alpha, 1).has_value());
    EXPECT_FALSE(hodges_lehmann(d, 2, alpha).has_value());
    EXPECT_FALSE(clopper_pearson(1, 3, alpha).has_value());
    EXPECT_FALSE(minimum_number(10, 0.5, alpha).has_value());
  }
  EXPECT_FALSE(flip_equivalence(v, Rational{0, 1}, 1).has_value());
  EXPECT_FALSE(flip_equivalence(v, Rational{-1, 2}, 1).has_value());
  EXPECT_FALSE(clopper_pearson(4, 3, 0.05).has_value());
  EXPECT_FALSE(clopper_pearson(-1, 3, 0.05).has_value());
  EXPECT_FALSE(clopper_pearson(0, 0, 0.05).has_value());
  EXPECT_FALSE(sign_test(-1, 3).has_value());
  EXPECT_FALSE(minimum_number(0, 0.5, 0.05).has_value());
  EXPECT_FALSE(minimum_number(10, 1.0, 0.05).has_value());
  EXPECT_FALSE(describe(std::vector<double>{1, std::nan("")}).has_value());
  const std::vector<Rational> r{{1, 1}, {2, 1}};
  EXPECT_FALSE(weighted(r, std::vector<std::int32_t>{0, 2}).has_value());  // no lot 1
  EXPECT_FALSE(weighted(r, std::vector<std::int32_t>{1, 1}).has_value());  // no lot 0
  EXPECT_FALSE(weighted(r, std::vector<std::int32_t>{0}).has_value());
  EXPECT_FALSE(weighted(r, std::vector<std::int32_t>{0, 0}, std::vector<std::int32_t>{0, 2}).has_value());
  const std::vector<std::int32_t> lots{0};
  EXPECT_FALSE(brew_pairs(std::vector<TastedPair>{{1, 0, 1, false, 2}}, lots, 2).has_value());
  EXPECT_FALSE(brew_pairs(std::vector<TastedPair>{{0, 0, 1, false, 3}}, lots, 2).has_value());
  EXPECT_FALSE(brew_pairs(std::vector<TastedPair>{{0, 0, 1, false, 2}}, lots, 0).has_value());
}

TEST(Edges, ClopperPearsonAtTheEnds) {
  // 0 of n: upper 1 − (alpha/2)^(1/n); n of n: lower (alpha/2)^(1/n).
  EXPECT_EQ(clopper_pearson(0, 10, 0.05)->lower, 0);
  EXPECT_NEAR(clopper_pearson(0, 10, 0.05)->upper, 1 - std::pow(0.025, 0.1), 1e-14);
  EXPECT_NEAR(clopper_pearson(10, 10, 0.05)->lower, std::pow(0.025, 0.1), 1e-14);
  EXPECT_EQ(clopper_pearson(10, 10, 0.05)->upper, 1);
}

}  // namespace
}  // namespace likeleaf::stats
