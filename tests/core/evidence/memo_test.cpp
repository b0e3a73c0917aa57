#include "core/evidence/memo.h"

#include <gtest/gtest.h>

#include "core/evidence/find.h"
#include "core/exchange/findings_json.h"
#include "tests/core/evidence/trial_builder.h"

namespace likeleaf::evidence {
namespace {

using likeleaf::test::TrialBuilder;
using At = TrialBuilder::At;

stats::Weighted values(std::vector<std::int64_t> d) {
  return stats::plain(d, 2).value();
}

TEST(Memo, TheSameNumbersAreWorkedOutOnce) {
  Memo memo;
  const auto v = values({3, 4, 5, -1, 2, 6});
  const auto first = memo.sign_flip(v, 1, {}).value(), again = memo.sign_flip(v, 1, {}).value();
  EXPECT_EQ(memo.worked_out(), 1U);
  EXPECT_EQ(first.two_sided.p, again.two_sided.p);
  EXPECT_EQ(first.two_sided.p, stats::sign_flip(v, 1)->two_sided.p);
}

TEST(Memo, OtherNumbersAreNotMistakenForThem) {
  Memo memo;
  const auto v = values({3, 4, 5, -1, 2, 6}), other = values({3, 4, 5, -1, 2, 7});
  EXPECT_NE(memo.sign_flip(v, 1, {})->two_sided.p, memo.sign_flip(values({3, 4, 5, 1, 2, 6}), 1, {})->two_sided.p);
  EXPECT_NE(memo.flip_interval(v, 0.05, 1, {}).value()->upper, memo.flip_interval(other, 0.05, 1, {}).value()->upper);
  EXPECT_NE(memo.flip_interval(v, 0.05, 1, {}).value()->lower, memo.flip_interval(v, 0.1, 1, {}).value()->lower);
  EXPECT_NE(memo.flip_equivalence(v, {1, 1}, 1, {})->p, memo.flip_equivalence(v, {4, 1}, 1, {})->p);
  auto unlike = v;
  unlike.w = {1, 1, 1, 1, 1, 5};
  unlike.w_den = 10;
  EXPECT_NE(memo.sign_flip(unlike, 1, {})->groups, 0U);
  EXPECT_EQ(memo.worked_out(), 8U);
}

TEST(Memo, WhatWasCancelledIsWorkedOutTheNextTime) {
  Memo memo;
  std::stop_source stop;
  stop.request_stop();
  const auto v = values({3, 4, 5, -1, 2, 6});
  EXPECT_EQ(memo.sign_flip(v, 1, stop.get_token()).error().kind, ErrorKind::cancelled);
  EXPECT_TRUE(memo.sign_flip(v, 1, {}));
}

TEST(Memo, TheOldestGoFirst) {
  Memo memo(2);
  for (const std::int64_t last : {6, 7, 8}) (void)memo.sign_flip(values({3, 4, 5, -1, 2, last}), 1, {});
  (void)memo.sign_flip(values({3, 4, 5, -1, 2, 8}), 1, {});
  EXPECT_EQ(memo.worked_out(), 3U);
  (void)memo.sign_flip(values({3, 4, 5, -1, 2, 6}), 1, {});
  EXPECT_EQ(memo.worked_out(), 4U);
}

TEST(Memo, FindingsOfAnUnchangedTrialAskForNothingNewAndAreTheSame) {
  TrialBuilder builder(2, 4, 3);
  builder.attribute("body", true);
  builder.attribute("sweetness", true);
  builder.fill("body", [](const At& at) { return std::pair(6, 10 + (at.lot ? 4 : -2) + at.assessor + at.set % 2); });
  builder.fill("sweetness", [](const At& at) { return std::pair(8, 8 + (at.set + at.assessor) % 3 - 1); });
  const auto unmasked = builder.unmasked();
  Memo memo;
  const auto first = find(unmasked, memo).value();
  const auto asked = memo.worked_out();
  EXPECT_GT(asked, 0U);
  const auto again = find(unmasked, memo).value();
  EXPECT_EQ(memo.worked_out(), asked);
  EXPECT_EQ(exchange::findings_json(first, unmasked), exchange::findings_json(again, unmasked));
  EXPECT_EQ(exchange::findings_json(first, unmasked), exchange::findings_json(find(unmasked).value(), unmasked));
}

}  // namespace
}  // namespace likeleaf::evidence
