// The ways of counting against each other and against plain listing; properties; the interval against the test.
#include "core/stats/sign_flip.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <atomic>
#include <cmath>

#include "core/stats/equivalence.h"
#include "core/stats/flip_interval.h"
#include "core/stats/random.h"
#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

/// Every sign pattern, one by one.
struct Listed {
  std::uint64_t two = 0, greater = 0, less = 0, all = 0;
};
Listed list(const std::vector<std::int64_t>& v) {
  Listed out;
  std::int64_t seen = 0;
  for (const auto x : v) seen += x;
  for (std::uint64_t mask = 0; mask < std::uint64_t{1} << v.size(); ++mask) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < v.size(); ++i) sum += (mask >> i) & 1u ? -v[i] : v[i];
    out.two += std::abs(sum) >= std::abs(seen);
    out.greater += sum >= seen;
    out.less += sum <= seen;
    ++out.all;
  }
  return out;
}

void check(const std::vector<std::int64_t>& v) {
  const auto seen = sign_flip(v, 1);
  RC_ASSERT(seen.has_value());
  const Listed e = list(v);
  RC_ASSERT(*seen->two_sided.exact == fraction(e.two, e.all));
  RC_ASSERT(*seen->greater.exact == fraction(e.greater, e.all));
  RC_ASSERT(*seen->less.exact == fraction(e.less, e.all));
}

std::vector<std::int64_t> numbers(int longest, std::int64_t top) {
  return *rc::gen::container<std::vector<std::int64_t>>(static_cast<std::size_t>(*rc::gen::inRange(1, longest)),
                                                        rc::gen::inRange<std::int64_t>(-top, top + 1));
}

RC_GTEST_PROP(SignFlip, TableIsListing, ()) {
  check(numbers(13, 12));
}
// Values of 1e9: the table would be too large, so sorted halves count.
RC_GTEST_PROP(SignFlip, HalvesAreListing, ()) {
  check(numbers(13, 3'000'000'000));
}

RC_GTEST_PROP(SignFlip, SwappingAAndBTurnsTheEstimateAndKeepsP, ()) {
  auto v = numbers(30, *rc::gen::element<std::int64_t>(20, 2'000'000'000));
  const auto a = sign_flip(v, 1).value();
  for (auto& x : v) x = -x;
  const auto b = sign_flip(v, 1).value();
  RC_ASSERT(*a.two_sided.exact == *b.two_sided.exact);
  RC_ASSERT(*a.greater.exact == *b.less.exact);
  RC_ASSERT(*a.less.exact == *b.greater.exact);
}

RC_GTEST_PROP(SignFlip, OrderAndUnitChangeNothing, ()) {
  auto v = numbers(25, 50);
  const auto a = sign_flip(v, 1).value();
  std::ranges::reverse(v);
  for (auto& x : v) x *= 7;
  const auto b = sign_flip(v, 1).value();
  RC_ASSERT(*a.two_sided.exact == *b.two_sided.exact);
  RC_ASSERT(*a.greater.exact == *b.greater.exact);
}

RC_GTEST_PROP(SignFlip, ZerosChangeNoShare, ()) {
  auto v = numbers(20, 30);
  const auto a = sign_flip(v, 1).value();
  v.push_back(0);
  v.insert(v.begin(), 0);
  RC_ASSERT(*sign_flip(v, 1)->two_sided.exact == *a.two_sided.exact);
}

// Every value once as it is and once turned: the sum is 0 and every pattern is at least as extreme.
RC_GTEST_PROP(SignFlip, BalancedValuesShowNothing, ()) {
  auto v = numbers(16, 20);
  for (std::size_t i = 0, n = v.size(); i < n; ++i) v.push_back(-v[i]);
  const auto s = sign_flip(v, 1).value();
  RC_ASSERT(s.two_sided.p == 1);
  RC_ASSERT(*s.greater.exact == *s.less.exact);
}

// One more value of the same sign as all the others halves p.
RC_GTEST_PROP(SignFlip, OneMoreAgreeingValueHalvesP, ()) {
  auto v = numbers(20, 20);
  for (auto& x : v) x = std::abs(x) + 1;
  const double before = sign_flip(v, 1)->two_sided.p;
  RC_ASSERT(before == smallest_flip_p(v.size()));
  v.push_back(*rc::gen::inRange<std::int64_t>(1, 30));
  RC_ASSERT(sign_flip(v, 1)->two_sided.p == before / 2);
}

RC_GTEST_PROP(SignFlip, BothTailsTogetherCountTheTieTwice, ()) {
  const auto v = numbers(15, 10);
  const auto s = sign_flip(v, 1).value();
  RC_ASSERT(s.greater.p + s.less.p >= 1.0);
  RC_ASSERT(s.two_sided.p <= std::min(1.0, 2 * std::min(s.greater.p, s.less.p)) + 1e-15);
}

// 63 values and more: shares in doubles. All ones: a binomial; p of k heads or more of 80, by exact arithmetic.
TEST(SignFlip, SharesAboveSixtyTwo) {
  std::vector<std::int64_t> v(80, 1);
  for (int i = 0; i < 30; ++i) v[static_cast<std::size_t>(i)] = -1;
  const auto s = sign_flip(v, 1).value();
  EXPECT_EQ(s.method, FlipMethod::exact_shares);
  EXPECT_FALSE(s.two_sided.exact);
  // P(X ≥ 50), X ~ B(80, ½), both sides: 2·Σ C(80, k)/2^80, k = 50 … 80.
  long double tail = 0, c = 1;
  for (int k = 0; k <= 30; ++k) {
    tail += c;
    c = c * (80 - k) / (k + 1);
  }
  EXPECT_TRUE(near(s.two_sided.p, static_cast<double>(std::ldexp(2 * tail, -80)), 1e-13, 0));
  // At 62 the same code counts in whole numbers.
  EXPECT_EQ(sign_flip(std::vector<std::int64_t>(62, 1), 1)->two_sided.exact->text(), "1/2305843009213693952");
}

// The number of values at the limits of each way, on one set: table (34 values), halves forced by a large unit that no
// common factor takes out, both exact. The last value is moved by 1 in 10^9 and can break no tie but its own.
TEST(SignFlip, HalvesAndTableAgreeAtThirtyFour) {
  Draws draws(5, Stream::other);
  std::vector<std::int64_t> small, large;
  for (int i = 0; i < 34; ++i) {
    const auto x = static_cast<std::int64_t>(draws.below(60)) - 25;
    small.push_back(2 * x + 1);
    large.push_back((2 * x + 1) * 1'000'000'000);
  }
  large[7] += 1;  // no tie of an even number of odd values is at stake: the sum moves with it in every pattern
  const auto a = sign_flip(small, 1).value(), b = sign_flip(large, 1).value();
  EXPECT_EQ(a.method, FlipMethod::exact_counts);
  EXPECT_EQ(b.method, FlipMethod::exact_counts);
  // Patterns that tie with the seen sum split by the sign of value 7; so b lies between the shares above and up to.
  EXPECT_LE(b.greater.p, a.greater.p + 1e-15);
  std::vector<std::int64_t> above = small;
  EXPECT_GE(b.greater.p, 1 - a.less.p - 1e-15);
}

// Zeros change no share, but they do not bring the counting back: the interval has them too.
TEST(SignFlip, FromThirtyFiveOnLogsAreDrawnAndScoresAreNot) {
  for (const std::size_t n : {34u, 35u, 40u}) {
    Draws draws(n, Stream::other);
    std::vector<std::int64_t> log, score;
    for (std::size_t i = 0; i < n; ++i) {
      score.push_back(static_cast<std::int64_t>(draws.below(21)) - 8);
      log.push_back(i < 3 ? 0 : static_cast<std::int64_t>(draws.below(2'000'000'000)) - 800'000'000);
    }
    const auto drawn = n > 34 ? FlipMethod::draws : FlipMethod::exact_counts;
    EXPECT_EQ(sign_flip(log, 1)->method, drawn) << n;
    EXPECT_EQ(flip_interval(plain(log, 1'000'000'000).value(), 0.05, 1).value()->method, drawn) << n;
    EXPECT_EQ(sign_flip(score, 1)->method, FlipMethod::exact_counts) << n;
    EXPECT_EQ(flip_interval(plain(score, 2).value(), 0.05, 1).value()->method, FlipMethod::exact_counts) << n;
  }
}

TEST(SignFlip, DrawsAreNearTheExactP) {
  // 45 values of about 1e9: neither table nor halves.
  Draws draws(11, Stream::other);
  std::vector<std::int64_t> grid, log;
  for (int i = 0; i < 45; ++i) {
    const auto x = static_cast<std::int64_t>(draws.below(41)) - 17;
    grid.push_back(x);
    log.push_back(x * 1'000'000'007 + static_cast<std::int64_t>(draws.below(5)));
  }
  const auto exact = sign_flip(grid, 1).value(), drawn = sign_flip(log, 1).value();
  EXPECT_EQ(drawn.method, FlipMethod::draws);
  EXPECT_EQ(drawn.draws, flip_draws);
  EXPECT_FALSE(drawn.two_sided.exact);
  // Ties of the grid are broken in the logs: half of them may be missing. Their share here is under 0.006.
  EXPECT_NEAR(drawn.greater.p, exact.greater.p, 0.005);
  EXPECT_EQ(sign_flip(log, 1)->two_sided.p, drawn.two_sided.p);  // the same seed, the same p
  std::ranges::reverse(log);
  EXPECT_EQ(sign_flip(log, 1)->two_sided.p, drawn.two_sided.p);
  EXPECT_NE(sign_flip(log, 2)->two_sided.p, drawn.two_sided.p);
  // (b + 1)/(m + 1) is a whole number of these.
  const double b = drawn.two_sided.p * static_cast<double>(flip_draws + 1);
  EXPECT_NEAR(b, std::round(b), 1e-6);
}

TEST(SignFlip, DrawsNeverGiveZero) {
  std::vector<std::int64_t> log;
  for (std::int64_t i = 0; i < 60; ++i) log.push_back(1'000'000'007 + i * i * 1'000'003);
  log.front() = -log.front();  // with one sign only nothing would have to be counted
  const auto s = sign_flip(log, 1).value();
  EXPECT_EQ(s.method, FlipMethod::draws);
  EXPECT_DOUBLE_EQ(s.two_sided.p, 1.0 / static_cast<double>(flip_draws + 1));
}

TEST(SignFlip, Cancelled) {
  std::stop_source stop;
  stop.request_stop();
  const std::vector<std::int64_t> v(100, 3);
  EXPECT_EQ(sign_flip(v, 1, stop.get_token()).error().kind, ErrorKind::cancelled);
  EXPECT_EQ(flip_interval(plain(v, 2).value(), 0.05, 1, stop.get_token()).error().kind, ErrorKind::cancelled);
}

TEST(SignFlip, ProgressRisesToOne) {
  double last = -1;
  bool rising = true;
  const std::vector<std::int64_t> v(100, 3);
  ASSERT_TRUE(sign_flip(v, 1, {}, [&](double share) {
    rising = rising && share >= last;
    last = share;
  }));
  EXPECT_TRUE(rising);
  EXPECT_EQ(last, 1.0);
}

// --- the interval ---------------------------------------------------------------------------------------------

Weighted some(int longest, std::int64_t top, bool lots) {
  const auto d = numbers(longest, top);
  std::vector<Rational> values;
  std::vector<std::int32_t> lot;
  for (std::size_t i = 0; i < d.size(); ++i) {
    values.push_back(rational(d[i], *rc::gen::element<std::int64_t>(1, 2, 4)).value());
    lot.push_back(lots ? static_cast<std::int32_t>(i % 3 == 0 ? 0 : i % 3 == 1 && i > 3 ? 1 : 0) : 0);
  }
  if (lots && d.size() > 4) lot.back() = 1;
  std::int32_t highest = *std::ranges::max_element(lot);
  for (std::int32_t l = 0; l < highest; ++l)
    if (std::ranges::find(lot, l) == lot.end()) lot.front() = l;
  return weighted(values, lot).value();
}

/// p of d − δ.
double p_at(const Weighted& v, const Rational& delta) {
  return sign_flip(shifted(v, negate(delta)).value(), 1)->two_sided.p;
}

// The definition: inside and on the ends p > alpha, just outside p ≤ alpha.
void check_interval(const Weighted& v, double alpha) {
  const auto found = flip_interval(v, alpha, 1);
  RC_ASSERT(found.has_value());
  if (!*found) {
    RC_ASSERT(alpha / 2 * std::ldexp(1.0, static_cast<int>(v.size())) < 1);
    return;
  }
  const FlipInterval& i = **found;
  RC_ASSERT(i.lower <= i.upper);
  RC_ASSERT(i.lower_exact.value() == i.lower);
  RC_ASSERT(p_at(v, i.lower_exact) > alpha);
  RC_ASSERT(p_at(v, i.upper_exact) > alpha);
  const Rational step{1, 1'000'000};
  RC_ASSERT(p_at(v, subtract(i.lower_exact, step).value()) <= alpha);
  RC_ASSERT(p_at(v, add(i.upper_exact, step).value()) <= alpha);
}

RC_GTEST_PROP(FlipInterval, ItsEndsAreWhereTheTestTurns, ()) {
  check_interval(some(14, 12, *rc::gen::arbitrary<bool>()), *rc::gen::element(0.05, 0.1, 0.05 / 3, 0.2, 0.5));
}

RC_GTEST_PROP(FlipInterval, MirroredValuesGiveTheMirroredInterval, ()) {
  const Weighted v = some(18, 15, true);
  const auto a = flip_interval(v, 0.1, 1).value(), b = flip_interval(mirrored(v), 0.1, 1).value();
  RC_ASSERT(a.has_value() == b.has_value());
  if (!a) return;
  RC_ASSERT(a->lower_exact == negate(b->upper_exact));
  RC_ASSERT(a->upper_exact == negate(b->lower_exact));
}

RC_GTEST_PROP(FlipInterval, NarrowerWhenLessSure, ()) {
  const Weighted v = some(18, 15, true);
  const auto a = flip_interval(v, 0.05, 1).value(), b = flip_interval(v, 0.1, 1).value();
  if (!a) return;
  RC_ASSERT(b.has_value());
  RC_ASSERT(a->lower <= b->lower);
  RC_ASSERT(a->upper >= b->upper);
  RC_ASSERT(a->lower <= estimate(v) + 1e-12);
  RC_ASSERT(a->upper >= estimate(v) - 1e-12);
}

// 22 brew pairs on a half-step grid: table. The same numbers in units that no table takes: sorted halves. The last
// value is moved by 1e-9 so that no common factor brings the table back; the ends move by at most as much.
TEST(FlipInterval, TableAndHalvesAgree) {
  Draws draws(23, Stream::other);
  for (const std::size_t n : {21u, 22u, 26u}) {
    std::vector<std::int64_t> d;
    for (std::size_t i = 0; i < n; ++i) d.push_back(static_cast<std::int64_t>(draws.below(30)) - 8);
    std::vector<std::int64_t> fine;
    for (const auto x : d) fine.push_back(x * 1'000'000'000);
    fine[3] += 1;
    const auto table = flip_interval(plain(d, 8).value(), 0.05, 1).value();
    const auto halves = flip_interval(plain(fine, 8'000'000'000).value(), 0.05, 1).value();
    ASSERT_TRUE(table && halves);
    EXPECT_EQ(halves->method, FlipMethod::exact_counts);
    EXPECT_NEAR(table->lower, halves->lower, 1e-9);
    EXPECT_NEAR(table->upper, halves->upper, 1e-9);
  }
}

// On a log grid with no ties at all, against the test itself.
TEST(FlipInterval, HalvesAgainstTheTest) {
  Draws draws(29, Stream::other);
  std::vector<std::int64_t> d;
  for (int i = 0; i < 24; ++i) d.push_back(static_cast<std::int64_t>(draws.below(2'000'000'000)) - 700'000'000);
  const Weighted v = plain(d, 1'000'000'000).value();
  for (const double alpha : {0.05, 0.1, 0.05 / 3}) {
    const auto found = flip_interval(v, alpha, 1).value();
    ASSERT_TRUE(found);
    const Rational tiny{1, 50'000'000'000};
    EXPECT_GT(p_at(v, found->lower_exact), alpha);
    EXPECT_GT(p_at(v, found->upper_exact), alpha);
    EXPECT_LE(p_at(v, subtract(found->lower_exact, tiny).value()), alpha);
    EXPECT_LE(p_at(v, add(found->upper_exact, tiny).value()), alpha);
  }
}

// Above 34 log values the interval inverts the very draws of the test.
TEST(FlipInterval, DrawsAgreeWithTheTest) {
  for (const int n : {36, 44}) {
    Draws draws(31, Stream::other);
    std::vector<std::int64_t> d;
    for (int i = 0; i < n; ++i) d.push_back(static_cast<std::int64_t>(draws.below(2'000'000'000)) - 800'000'000);
    const Weighted v = plain(d, 1'000'000'000).value();
    const auto found = flip_interval(v, 0.05, 9).value();
    ASSERT_TRUE(found);
    EXPECT_EQ(found->method, FlipMethod::draws);
    const Rational tiny{1, 1'000'000'000};
    const auto p = [&](const Rational& delta) { return sign_flip(shifted(v, negate(delta)).value(), 9)->two_sided.p; };
    EXPECT_GT(p(add(found->lower_exact, tiny).value()), 0.05);
    EXPECT_LE(p(subtract(found->lower_exact, tiny).value()), 0.05);
    EXPECT_GT(p(subtract(found->upper_exact, tiny).value()), 0.05);
    EXPECT_LE(p(add(found->upper_exact, tiny).value()), 0.05);
  }
}

TEST(FlipInterval, SharesAboveSixtyTwo) {
  Draws draws(37, Stream::other);
  std::vector<std::int64_t> d;
  for (int i = 0; i < 70; ++i) d.push_back(static_cast<std::int64_t>(draws.below(13)) - 5);
  const Weighted v = plain(d, 2).value();
  const auto found = flip_interval(v, 0.05, 1).value();
  ASSERT_TRUE(found);
  EXPECT_EQ(found->method, FlipMethod::exact_shares);
  const Rational tiny{1, 100};  // coarse enough for the test's own table
  EXPECT_GT(p_at(v, found->lower_exact), 0.05);
  EXPECT_LE(p_at(v, subtract(found->lower_exact, tiny).value()), 0.05);
  EXPECT_GT(p_at(v, found->upper_exact), 0.05);
  EXPECT_LE(p_at(v, add(found->upper_exact, tiny).value()), 0.05);
}

TEST(FlipInterval, FiveBrewPairsCannotGiveNinetyFivePerCent) {
  const std::vector<std::int64_t> d{1, 2, 3, 4, 5, 6};
  EXPECT_FALSE(flip_interval(plain(std::span(d).first(5), 1).value(), 0.05, 1)->has_value());
  const auto six = flip_interval(plain(d, 1).value(), 0.05, 1).value();  // K = 1: the single lowest and highest value
  ASSERT_TRUE(six);
  EXPECT_EQ(six->lower_exact.text(), "1");
  EXPECT_EQ(six->upper_exact.text(), "6");
  EXPECT_DOUBLE_EQ(smallest_flip_p(5), 0.0625);
  EXPECT_DOUBLE_EQ(smallest_flip_p(6), 0.03125);
}

TEST(FlipInterval, AllAlikeIsAPoint) {
  const auto found = flip_interval(plain(std::vector<std::int64_t>(8, 3), 2).value(), 0.05, 1).value();
  ASSERT_TRUE(found);
  EXPECT_EQ(found->lower, 1.5);
  EXPECT_EQ(found->upper, 1.5);
}

RC_GTEST_PROP(FlipEquivalence, MirroredValuesSwapTheTails, ()) {
  const Weighted v = some(16, 10, true);
  const Rational margin{*rc::gen::inRange<std::int64_t>(1, 20), 2};
  const auto a = flip_equivalence(v, margin, 1).value(), b = flip_equivalence(mirrored(v), margin, 1).value();
  RC_ASSERT(a.p_lower == b.p_upper);
  RC_ASSERT(a.p_upper == b.p_lower);
  RC_ASSERT(a.p == std::max(a.p_lower, a.p_upper));
}

// One-sided at alpha on both sides passes exactly when the interval at 1 − 2·alpha lies inside the margin: the picture
// never contradicts the word.
RC_GTEST_PROP(FlipEquivalence, AgreesWithTheIntervalAtTwiceTheLevel, ()) {
  const Weighted v = some(14, 4, true);
  const double alpha = *rc::gen::element(0.05, 0.025, 0.1);
  const Rational margin{*rc::gen::inRange<std::int64_t>(1, 12), 2};
  const auto interval = flip_interval(v, 2 * alpha, 1).value();
  const bool held = flip_equivalence(v, margin, 1)->p <= alpha;
  if (!interval) {
    RC_ASSERT(!held);
    return;
  }
  RC_ASSERT(held == (interval->lower_exact > negate(margin) && interval->upper_exact < margin));
}

RC_GTEST_PROP(FlipEquivalence, TheDifferenceTestAgreesWithTheInterval, ()) {
  const Weighted v = some(14, 6, true);
  const auto interval = flip_interval(v, 0.05, 1).value();
  const bool moved = sign_flip(v, 1)->two_sided.p <= 0.05;
  if (!interval) {
    RC_ASSERT(!moved);
    return;
  }
  RC_ASSERT(moved == (interval->lower_exact > Rational{0, 1} || interval->upper_exact < Rational{0, 1}));
}

}  // namespace
}  // namespace likeleaf::stats
