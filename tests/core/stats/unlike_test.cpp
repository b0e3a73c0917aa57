#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/stats/lean.h"
#include "core/stats/random.h"
#include "core/stats/shrunken.h"
#include "core/stats/unlike_assessors.h"
#include "core/stats/unlike_lots.h"
#include "tests/core/stats/reference_data.h"

namespace likeleaf::stats {
namespace {

using reference::near;

Weighted lots_of(const std::vector<std::int64_t>& d, const std::vector<std::int32_t>& lot) {
  std::vector<Rational> values;
  for (const auto x : d) values.push_back({x, 1});
  return weighted(values, lot).value();
}

// methods: three lots of two or two of three brew pairs can never show it (smallest p 0.067 and 0.10).
TEST(UnlikeLots, SmallestP) {
  EXPECT_NEAR(*smallest_lots_p(std::vector<std::int32_t>{2, 2, 2}), 1.0 / 15, 1e-15);
  EXPECT_NEAR(*smallest_lots_p(std::vector<std::int32_t>{3, 3}), 0.1, 1e-15);
  EXPECT_NEAR(*smallest_lots_p(std::vector<std::int32_t>{3, 2}), 0.1, 1e-15);
  EXPECT_EQ(*smallest_lots_p(std::vector<std::int32_t>{1, 1, 1}), 1.0);
  EXPECT_FALSE(smallest_lots_p(std::vector<std::int32_t>{6}));
  EXPECT_FALSE(smallest_lots_p(std::vector<std::int32_t>{50, 50, 50}));
  // Reached by lots that lie as far apart as can be.
  const auto apart = unlike_lots(lots_of({0, 1, 10, 12, 30, 33}, {0, 0, 1, 1, 2, 2}), 1).value();
  EXPECT_NEAR(apart.p, 1.0 / 15, 1e-15);
  EXPECT_EQ(*apart.smallest_p, apart.p);
  EXPECT_EQ(*apart.ways, 90u);
}

/// All handings-out with names, straight from the words of the rule.
double listed_lots(const std::vector<std::int64_t>& d, const std::vector<std::int32_t>& lot, std::int32_t lots) {
  std::vector<double> size(static_cast<std::size_t>(lots), 0);
  for (const auto l : lot) ++size[static_cast<std::size_t>(l)];
  const auto statistic = [&](const std::vector<std::int32_t>& who) {
    std::vector<double> sum(size.size(), 0);
    for (std::size_t g = 0; g < d.size(); ++g) sum[static_cast<std::size_t>(who[g])] += static_cast<double>(d[g]);
    double total = 0;
    for (std::size_t l = 0; l < size.size(); ++l) total += sum[l] * sum[l] / size[l];
    return total;
  };
  const double seen = statistic(lot);
  auto who = lot;
  std::ranges::sort(who);
  double extreme = 0, ways = 0;
  do {
    extreme += statistic(who) >= seen - 1e-9;
    ++ways;
  } while (std::next_permutation(who.begin(), who.end()));
  return extreme / ways;
}

RC_GTEST_PROP(UnlikeLots, AllWaysAgainstTheWordsOfTheRule, ()) {
  const auto n = static_cast<std::size_t>(*rc::gen::inRange(4, 9));
  std::vector<std::int64_t> d;
  std::vector<std::int32_t> lot;
  for (std::size_t i = 0; i < n; ++i) {
    d.push_back(*rc::gen::inRange<std::int64_t>(-9, 10));
    lot.push_back(i < 3 ? static_cast<std::int32_t>(i) : *rc::gen::inRange(0, 3));
  }
  const auto seen = unlike_lots(lots_of(d, lot), 1).value();
  RC_ASSERT(seen.exact.has_value());
  RC_ASSERT(std::abs(seen.p - listed_lots(d, lot, 3)) < 1e-12);
}

TEST(UnlikeLots, SixLotsOfTwoAreListed) {
  const std::vector<std::int64_t> d{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8};
  const auto seen = unlike_lots(lots_of(d, {0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 5, 5}), 1).value();
  EXPECT_EQ(*seen.ways, 7'484'400u);
  ASSERT_TRUE(seen.exact);
  EXPECT_EQ(10'395u % seen.exact->den, 0u);
}

TEST(UnlikeLots, States) {
  EXPECT_EQ(unlike_lots(lots_of({1, 2, 3}, {0, 0, 0}), 1)->state, UnlikeState::not_asked);
  EXPECT_EQ(unlike_lots(lots_of({1, 2, 3}, {0, 1, 2}), 1)->state, UnlikeState::one_pair_each);
  const auto flat = unlike_lots(lots_of({5, 5, 5, 5}, {0, 0, 1, 1}), 1).value();
  EXPECT_EQ(flat.p, 1);
  EXPECT_FALSE(flat.f);
  const auto sure = unlike_lots(lots_of({1, 1, 1, 7, 7, 7}, {0, 0, 0, 1, 1, 1}), 1).value();
  EXPECT_FALSE(sure.f);  // no spread within: the F is not a number, the permutation p is
  EXPECT_NEAR(sure.p, 0.1, 1e-15);
  EXPECT_FALSE(unlike_lots(Weighted{}, 1).has_value());
}

RC_GTEST_PROP(UnlikeLots, ShiftMirrorAndOrderChangeNothing, ()) {
  const auto n = static_cast<std::size_t>(*rc::gen::inRange(4, 10));
  std::vector<std::int64_t> d;
  std::vector<std::int32_t> lot;
  for (std::size_t i = 0; i < n; ++i) {
    d.push_back(*rc::gen::inRange<std::int64_t>(-20, 21));
    lot.push_back(i < 3 ? static_cast<std::int32_t>(i) : *rc::gen::inRange(0, 3));
  }
  const auto a = unlike_lots(lots_of(d, lot), 1).value();
  for (auto& x : d) x = 1000 - 3 * x;
  std::ranges::reverse(d);
  std::ranges::reverse(lot);
  const auto b = unlike_lots(lots_of(d, lot), 1).value();
  RC_ASSERT(*a.exact == *b.exact);
  RC_ASSERT(a.f.has_value() == b.f.has_value());
  RC_ASSERT(a.p >= *a.smallest_p - 1e-15);
}

// Three lots of four by listing, against a shuffle of our own; then sixteen_pots_4x4x6 (63 063 000 ways), which is
// drawn.
TEST(UnlikeLots, ListingAgainstShuffling) {
  const std::vector<std::int64_t> d{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8};
  const std::vector<std::int32_t> lot{0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2};
  const auto exact = unlike_lots(lots_of(d, lot), 1).value();
  ASSERT_TRUE(exact.exact);
  const auto statistic = [](const std::vector<std::int64_t>& x) {
    std::int64_t total = 0;
    for (std::size_t l = 0; l < 3; ++l) {
      std::int64_t sum = 0;
      for (std::size_t i = 0; i < 4; ++i) sum += x[4 * l + i];
      total += sum * sum;
    }
    return total;
  };
  auto x = d;
  Draws draws(1, Stream::other);
  int extreme = 0;
  const int m = 100'000;
  for (int i = 0; i < m; ++i) {
    draws.shuffle(std::span(x));
    extreme += statistic(x) >= statistic(d);
  }
  EXPECT_NEAR(exact.p, extreme / static_cast<double>(m), 0.008);  // five standard errors
  // 16 brew pairs in four lots: drawn, the same p for the same seed whatever the order of the rows.
  const auto set = reference::brew_pair_set("sixteen_pots_4x4x6");
  const auto pairs = brew_pairs(set.tasted, set.lot_of, set.grid).value();
  const auto a = unlike_lots(pairs.values, 5).value(), b = unlike_lots(pairs.values, 5).value();
  EXPECT_EQ(a.p, b.p);
  EXPECT_EQ(a.draws, lot_draws);
}

// Source: brew_pairs/four_pots_4x1x4.csv; least squares in exact fractions (a second program): F = 14000/4551 on 3 and
// 8 df, mean squares 125/48 and 1517/1792; p by 30-digit arithmetic. With sheets 3 and 10 left out: F = 670752/179191
// on 3 and 6 df.
TEST(UnlikeLotsOnePair, FOfLotOverLotByAssessor) {
  auto set = reference::brew_pair_set("four_pots_4x1x4");
  const auto seen = unlike_lots_one_pair(set.tasted, 4, set.grid);
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen->state, CrossState::fitted);
  EXPECT_EQ(seen->df_lots, 3);
  EXPECT_EQ(seen->df_cross, 8);
  EXPECT_TRUE(near(seen->f, 14000.0 / 4551, 1e-12));
  EXPECT_TRUE(near(seen->ms_lots, 125.0 / 48, 1e-12));
  EXPECT_TRUE(near(seen->ms_cross, 1517.0 / 1792, 1e-12));
  EXPECT_TRUE(near(seen->p, 0.0905433724954516, 1e-11));

  // methods: within is lot × assessor over the number of assessors; f = 9449/14000.
  const auto pairs = brew_pairs(set.tasted, set.lot_of, set.grid).value();
  const auto shrunk = shrunken_lots(pairs.values, *seen);
  ASSERT_TRUE(shrunk);
  for (const Shrunken& s : shrunk->items) {
    EXPECT_TRUE(near(s.factor, 9449.0 / 14000, 1e-12));
    const double d = pairs.values.value(static_cast<std::size_t>(s.index));
    EXPECT_TRUE(near(s.value, 2.1875 + 9449.0 / 14000 * (d - 2.1875), 1e-12));
  }

  set.tasted.erase(set.tasted.begin() + 9);
  set.tasted.erase(set.tasted.begin() + 2);
  const auto missing = unlike_lots_one_pair(set.tasted, 4, set.grid);
  ASSERT_TRUE(missing);
  EXPECT_EQ(missing->df_cross, 6);
  EXPECT_TRUE(near(missing->f, 670752.0 / 179191, 1e-12));
  EXPECT_TRUE(near(missing->p, 0.0793237005709697697, 1e-11));
}

TEST(UnlikeLotsOnePair, States) {
  // One assessor; each assessor with a lot of his own; an additive table (nothing left).
  EXPECT_EQ(unlike_lots_one_pair(std::vector<TastedPair>{{0, 0, 1, false, 2}, {1, 0, 2, true, 2}}, 2, 2)->state,
            CrossState::too_few);
  EXPECT_EQ(unlike_lots_one_pair(std::vector<TastedPair>{{0, 0, 1, false, 2}, {1, 1, 2, true, 2}}, 2, 2)->state,
            CrossState::too_few);
  std::vector<TastedPair> additive;
  for (std::int32_t l = 0; l < 3; ++l)
    for (std::int32_t a = 0; a < 4; ++a) additive.push_back({l, a, 3 * l + a, (l + a) % 2 == 0, 2});
  const auto seen = unlike_lots_one_pair(additive, 3, 2).value();
  EXPECT_EQ(seen.state, CrossState::no_spread);
  EXPECT_GT(seen.ms_lots, 0);
  for (auto& t : additive) t.d = 5;
  const auto flat = unlike_lots_one_pair(additive, 3, 2).value();
  EXPECT_EQ(flat.state, CrossState::no_spread);
  EXPECT_EQ(flat.ms_lots, 0);
  EXPECT_FALSE(unlike_lots_one_pair({}, 2, 2).has_value());
  EXPECT_FALSE(unlike_lots_one_pair(additive, 2, 2).has_value());
}

// --- assessors ------------------------------------------------------------------------------------------------

/// Two or three brew pairs of a few assessors, sides in turn.
std::vector<TastedPair> some_sheets(std::int32_t pairs, std::int32_t assessors) {
  std::vector<TastedPair> out;
  for (std::int32_t g = 0; g < pairs; ++g)
    for (std::int32_t a = 0; a < assessors; ++a)
      out.push_back({g, a, *rc::gen::inRange<std::int64_t>(-8, 9), (g + a) % 2 == 0, 2});
  return out;
}

/// All arrangements in doubles, straight from the words of the rule.
double listed(const std::vector<TastedPair>& rows, std::int32_t pairs, std::int32_t assessors) {
  const auto n = static_cast<std::size_t>(assessors);
  std::vector<std::vector<double>> e(static_cast<std::size_t>(pairs), std::vector<double>(n));
  double lean = 0;
  std::vector<double> middle(static_cast<std::size_t>(pairs));
  for (std::int32_t g = 0; g < pairs; ++g) {
    double sum[2] = {0, 0}, count[2] = {0, 0};
    for (const auto& t : rows)
      if (t.brew_pair == g) {
        sum[t.b_first] += static_cast<double>(t.d);
        ++count[t.b_first];
      }
    middle[static_cast<std::size_t>(g)] = (sum[0] / count[0] + sum[1] / count[1]) / 2;
    lean += (sum[1] / count[1] - sum[0] / count[0]) / 2 / pairs;
  }
  for (const auto& t : rows)
    e[static_cast<std::size_t>(t.brew_pair)][static_cast<std::size_t>(t.assessor)] =
        static_cast<double>(t.d) - middle[static_cast<std::size_t>(t.brew_pair)] - (t.b_first ? lean : -lean);
  const auto statistic = [&](const std::vector<std::vector<std::size_t>>& who) {
    double total = 0;
    for (std::size_t a = 0; a < n; ++a) {
      double sum = 0;
      for (std::size_t g = 0; g < e.size(); ++g) sum += e[g][who[g][a]];
      total += sum * sum;
    }
    return total;
  };
  std::vector<std::size_t> first(n);
  for (std::size_t a = 0; a < n; ++a) first[a] = a;
  std::vector<std::vector<std::size_t>> who(e.size(), first);
  const double seen = statistic(who);
  double extreme = 0, ways = 0;
  const auto walk = [&](auto&& self, std::size_t g) -> void {
    if (g == e.size()) {
      extreme += statistic(who) >= seen - 1e-9;
      ++ways;
      return;
    }
    who[g] = first;
    do self(self, g + 1);
    while (std::next_permutation(who[g].begin(), who[g].end()));
    who[g] = first;
  };
  walk(walk, 0);
  return extreme / ways;
}

RC_GTEST_PROP(UnlikeAssessors, AllArrangementsAgainstTheWordsOfTheRule, ()) {
  const std::int32_t pairs = *rc::gen::inRange(1, 4), assessors = *rc::gen::inRange(2, 5);
  const auto rows = some_sheets(pairs, assessors);
  const auto seen = unlike_assessors(rows, 2, 1).value();
  RC_ASSERT(seen.exact.has_value());
  RC_ASSERT(std::abs(seen.p - listed(rows, pairs, assessors)) < 1e-12);
}

RC_GTEST_PROP(UnlikeAssessors, RowsInAnyOrderAndABAndUnitChangeNothing, ()) {
  auto rows = some_sheets(3, 4);
  rows.erase(rows.begin() + 5);  // a missing sheet
  const auto a = unlike_assessors(rows, 2, 1).value();
  std::ranges::reverse(rows);
  for (auto& t : rows) t.d *= -1'000'000'000;
  const auto b = unlike_assessors(rows, 2'000'000'000, 1).value();
  RC_ASSERT(*a.exact == *b.exact);
}

TEST(UnlikeAssessors, FoundWhenOneTastesOtherwise) {
  std::vector<TastedPair> rows;
  Draws draws(3, Stream::other);
  for (std::int32_t g = 0; g < 8; ++g)
    for (std::int32_t a = 0; a < 6; ++a)
      rows.push_back({g, a, static_cast<std::int64_t>(draws.below(3)) + (a == 2 ? 8 : 0), (g + a) % 2 == 0, 2});
  const auto seen = unlike_assessors(rows, 2, 1).value();
  EXPECT_EQ(seen.draws, assessor_draws);
  EXPECT_DOUBLE_EQ(seen.p, 1.0 / static_cast<double>(assessor_draws + 1));
  const auto shrunk = shrunken_assessors(rows, 2, 0.0).value();
  EXPECT_GT(shrunk.items[2].value, 2.0);
  EXPECT_LT(shrunk.items[1].value, 0.0);
}

TEST(UnlikeAssessors, RepeatServingIsOneCell) {
  // Assessor 2 tasted the first brew pair twice, sides swapped: halves. As one sheet with the mean it would have no
  // side.
  const std::vector<TastedPair> rows{{0, 0, 2, false, 2}, {0, 1, 4, true, 2},  {0, 2, 6, false, 1}, {0, 2, 1, true, 1},
                                     {1, 0, 0, true, 2},  {1, 1, 3, false, 2}, {1, 2, 5, true, 2}};
  const auto seen = unlike_assessors(rows, 2, 1).value();
  ASSERT_TRUE(seen.exact);
  EXPECT_EQ(36 % seen.exact->den, 0u);  // 3!·3! arrangements: the repeat is no fourth label
}

TEST(UnlikeAssessors, LogGridWithMissingSheetsFits) {
  std::vector<TastedPair> rows;
  Draws draws(13, Stream::other);
  for (std::int32_t g = 0; g < 16; ++g)
    for (std::int32_t a = 0; a < 12; ++a)
      if (draws.below(6) != 0)
        rows.push_back(
            {g, a, static_cast<std::int64_t>(draws.below(4'000'000'000)) - 2'000'000'000, draws.below(2) == 0, 2});
  const auto seen = unlike_assessors(rows, 1'000'000'000, 1);
  ASSERT_TRUE(seen);
  EXPECT_GT(seen->p, 0.001);
  EXPECT_LT(seen->p, 1);
}

TEST(UnlikeAssessors, NotAsked) {
  const std::vector<TastedPair> one{{0, 0, 1, false, 2}, {1, 0, 2, true, 2}};
  EXPECT_EQ(unlike_assessors(one, 2, 1)->state, UnlikeState::not_asked);
  const std::vector<TastedPair> own{{0, 0, 1, false, 2}, {1, 1, 2, true, 2}};
  EXPECT_EQ(unlike_assessors(own, 2, 1)->state, UnlikeState::not_asked);
  EXPECT_EQ(unlike_assessors({}, 2, 1).error().kind, ErrorKind::missing);
  const auto shrunk = shrunken_assessors(own, 2, 0.75);
  ASSERT_TRUE(shrunk);
  for (const auto& s : shrunk->items) EXPECT_EQ(s.value, 0.75);
  // All alike: asked, and p is 1.
  std::vector<TastedPair> flat;
  for (std::int32_t a = 0; a < 4; ++a) flat.push_back({0, a, 3, a % 2 == 0, 2});
  EXPECT_EQ(unlike_assessors(flat, 2, 1)->p, 1);
  const auto every = shrunken_assessors(flat, 2, 1.5).value();
  for (const auto& s : every.items) EXPECT_EQ(s.value, 1.5);
}

// --- shrunken lots and lean -------------------------------------------------------------------------------------

// Worked by hand: lots (0, 2), (4, 6), (5, 7): means 1, 5, 6, within 2, between 2·(9 + 1 + 4)/2 = 14, n₀ = 2,
// σ² = 6, f = 6/(6 + 1).
TEST(ShrunkenLots, ByHand) {
  const auto seen = shrunken_lots(lots_of({0, 2, 4, 6, 5, 7}, {0, 0, 1, 1, 2, 2})).value();
  EXPECT_TRUE(near(seen.variance_within, 2, 1e-14));
  EXPECT_TRUE(near(seen.variance_between, 6, 1e-14));
  EXPECT_TRUE(near(seen.items[0].value, 4 + 6.0 / 7 * (1 - 4), 1e-14));
  EXPECT_TRUE(near(seen.items[2].factor, 6.0 / 7, 1e-14));
  EXPECT_EQ(seen.items[1].own, 5);
}

// Unequal lots (0, 2), (4, 6, 8): within 10/3, between 30, n₀ = (5 − 13/5)/1 = 12/5, σ² = 100/9, est 7/2.
TEST(ShrunkenLots, UnequalLotsByHand) {
  const auto seen = shrunken_lots(lots_of({0, 2, 4, 6, 8}, {0, 0, 1, 1, 1})).value();
  EXPECT_TRUE(near(seen.variance_between, 100.0 / 9, 1e-13));
  EXPECT_TRUE(near(seen.items[0].factor, 20.0 / 23, 1e-13));
  EXPECT_TRUE(near(seen.items[1].factor, 10.0 / 11, 1e-13));
  EXPECT_TRUE(near(seen.items[0].value, 3.5 + 20.0 / 23 * (1 - 3.5), 1e-13));
}

// brew_pairs/moved_3x3x4.csv without sheets 3 and 5 and with T1's differences raised by 2, worked out in exact
// fractions by a second program: lean 79/72, within 14010391/8211456, between 4665960097/3555560448.
TEST(ShrunkenAssessors, MissingSheets) {
  auto set = reference::brew_pair_set("moved_3x3x4");
  set.tasted.erase(set.tasted.begin() + 4);
  set.tasted.erase(set.tasted.begin() + 2);
  for (auto& t : set.tasted)
    if (t.assessor == 0) t.d += 4;
  EXPECT_EQ(lean_to_first_cup(set.tasted, set.grid, 0.05)->exact.text(), "79/72");
  const auto seen = shrunken_assessors(set.tasted, set.grid, 0.0).value();
  EXPECT_TRUE(near(seen.variance_within, 1.7062005812367502, 1e-12));
  EXPECT_TRUE(near(seen.variance_between, 1.3122994715571772, 1e-12));
  EXPECT_TRUE(near(seen.items[0].value, 1.6322895453621433, 1e-12));
  EXPECT_TRUE(near(seen.items[1].value, -0.4476736931787383, 1e-12));
  EXPECT_TRUE(near(seen.items[2].value, -0.22699726522877017, 1e-12));
  EXPECT_TRUE(near(seen.items[3].value, -0.760505912508459, 1e-12));
}

TEST(ShrunkenLots, OneLotAndAllAlike) {
  EXPECT_EQ(shrunken_lots(lots_of({1, 2, 6}, {0, 0, 0}))->items[0].value, 3);
  const auto alike = shrunken_lots(lots_of({2, 2, 2, 2}, {0, 0, 1, 1})).value();
  for (const auto& s : alike.items) EXPECT_EQ(s.value, 2);
  // Alike within, apart between: nothing is shrunken.
  const auto sure = shrunken_lots(lots_of({1, 1, 7, 7}, {0, 0, 1, 1})).value();
  EXPECT_EQ(sure.items[0].value, 1);
  EXPECT_EQ(sure.items[1].value, 7);
}

TEST(Lean, States) {
  EXPECT_EQ(lean_to_first_cup(std::vector<TastedPair>{{0, 0, 1, true, 2}, {1, 0, 1, false, 2}}, 2, 0.05)->state,
            LeanState::no_brew_pair);
  const std::vector<TastedPair> alike{{0, 0, 3, true, 2}, {0, 1, 1, false, 2}, {1, 0, 5, true, 2}, {1, 1, 3, false, 2}};
  const auto flat = lean_to_first_cup(alike, 2, 0.05).value();
  EXPECT_EQ(flat.state, LeanState::no_spread);
  EXPECT_EQ(flat.estimate, 0.5);
  EXPECT_EQ(flat.lower, 0.5);
  EXPECT_FALSE(lean_to_first_cup({}, 2, 0.05).has_value());
  EXPECT_FALSE(lean_to_first_cup(alike, 0, 0.05).has_value());
  EXPECT_FALSE(lean_to_first_cup(alike, 2, 0).has_value());
}

// A brew pair's luck gets into the pooled lean when its orders are not balanced, and not into ours: one brew pair is 10
// higher on all its sheets and has two of three B first.
TEST(Lean, ABrewPairsLuckCancels) {
  const std::vector<TastedPair> rows{{0, 0, 1, true, 2},  {0, 1, -1, false, 2}, {0, 2, -1, false, 2},
                                     {1, 0, 21, true, 2}, {1, 1, 21, true, 2},  {1, 2, 19, false, 2}};
  const auto lean = lean_to_first_cup(rows, 1, 0.05).value();
  EXPECT_EQ(lean.exact.text(), "1");
  EXPECT_GT(*lean.pooled, 4);
}

}  // namespace
}  // namespace likeleaf::stats
