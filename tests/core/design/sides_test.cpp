#include "core/design/sides.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <array>
#include <cstdlib>
#include <map>
#include <set>
#include <vector>

#include "tests/core/design/plans.h"

namespace likeleaf::design {
namespace {

RC_GTEST_PROP(EvenTable, IsEvenToOneWhateverOfOwnerLotAndContrastIsHeld, (std::uint64_t seed)) {
  const std::size_t owners = *rc::gen::inRange<std::size_t>(1, 9);
  const std::size_t lots = *rc::gen::inRange<std::size_t>(1, 7);
  const std::size_t contrasts = *rc::gen::inRange<std::size_t>(1, 4);
  const std::size_t sets = *rc::gen::inRange<std::size_t>(0, 6);
  Draw draw(test::seed_of(seed));
  const EvenTable table(draw, owners, lots, contrasts, sets);
  for (unsigned held = 0; held < 8; ++held) {
    std::map<std::array<std::size_t, 3>, int> sums;
    for (std::size_t o = 0; o < owners; ++o)
      for (std::size_t l = 0; l < lots; ++l)
        for (std::size_t c = 0; c < contrasts; ++c)
          for (std::size_t s = 0; s < sets; ++s)
            sums[{(held & 1U) != 0 ? o : 0, (held & 2U) != 0 ? l : 0, (held & 4U) != 0 ? c : 0}] +=
                table.at(o, l, c, s) ? 1 : -1;
    for (const auto& [what, sum] : sums) RC_ASSERT(std::abs(sum) <= 1);
  }
}

TEST(EvenTable, SaysYesAsOftenAsNoForEveryCellOverManyDraws) {
  std::vector<int> yes(3 * 2 * 3);
  constexpr int draws = 2000;
  Draw draw(test::seed_of(2));
  for (int i = 0; i < draws; ++i) {
    const EvenTable table(draw, 1, 3, 2, 3);
    for (std::size_t cell = 0; cell < yes.size(); ++cell)
      yes[cell] += table.at(0, cell / 6, cell / 3 % 2, cell % 3) ? 1 : 0;
  }
  for (const int n : yes) EXPECT_NEAR(n, draws / 2.0, 90);  // four standard deviations
}

/// One contrast pair a code pair, level b under the second code, poured in the order given.
Key key_of(const std::vector<bool>& b_poured_first) {
  Key key;
  for (std::size_t i = 0; i < b_poured_first.size(); ++i) {
    const int n = static_cast<int>(i);
    const auto a = test::id_of<Brew>(2 * i), b = test::id_of<Brew>(2 * i + 1);
    const bool first = b_poured_first[i];
    key.brews.push_back({.id = a, .number = 2 * n + (first ? 2 : 1), .lot = test::id_of<Lot>(0), .set = n + 1});
    key.brews.push_back({.id = b, .number = 2 * n + (first ? 1 : 2), .lot = test::id_of<Lot>(0), .set = n + 1});
    key.pairs.push_back({.id = test::id_of<Pair>(i),
                         .lot = test::id_of<Lot>(0),
                         .set = n + 1,
                         .code_a = *BlindCode::from(100 + n),
                         .code_b = *BlindCode::from(200 + n),
                         .cup_a = {a, {}},
                         .cup_b = {b, {}},
                         .repeat_of = {}});
  }
  return key;
}

BlindServing serving_of(const Key& key, std::size_t pair, std::uint64_t assessor, bool b_left) {
  const auto& p = key.pairs[pair];
  return {.id = {},
          .assessor = test::id_of<Assessor>(assessor),
          .pair = p.id,
          .left = b_left ? p.code_b : p.code_a,
          .right = b_left ? p.code_a : p.code_b,
          .instead_of = {}};
}

TEST(MeasureBalance, CountsWhatIsThereAlsoWhereItIsBad) {
  const Key key = key_of({true, true, false, true});
  std::vector<BlindServing> servings;
  for (std::size_t pair = 0; pair < 4; ++pair) {
    servings.push_back(serving_of(key, pair, 1, true));
    servings.push_back(serving_of(key, pair, 2, pair == 0));
  }
  const Balance balance = measure_balance(key, servings);
  EXPECT_EQ(balance.most_unequal_in_a_pair, 2);        // pair 0: b left for both
  EXPECT_EQ(balance.most_unequal_for_an_assessor, 4);  // assessor 1: b left always
  EXPECT_EQ(balance.pour_order_difference, 2);         // three to one
  EXPECT_EQ(balance.reference_set_log2, 4U);
}

TEST(MeasureBalance, LeavesControlsOut) {
  Key key = key_of({true, false});
  key.pairs[1].kind = PairKind::blank;
  const Balance balance = measure_balance(key, {serving_of(key, 1, 1, true), serving_of(key, 1, 2, true)});
  EXPECT_EQ(balance.most_unequal_in_a_pair, 0);
  EXPECT_EQ(balance.pour_order_difference, 1);
  EXPECT_EQ(balance.reference_set_log2, 1U);
}

}  // namespace
}  // namespace likeleaf::design
