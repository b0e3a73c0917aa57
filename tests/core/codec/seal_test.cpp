#include "core/codec/seal.h"

#include <gtest/gtest.h>

#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;

Sheet small_sheet() {
  Sheet sheet;
  sheet.serving = *IdOf<Serving>::parse("0b6f3a52-7c1d-4e8f-9a20-5d3c1b7e4f66");
  sheet.left.marks.insert_or_assign("bitterness", Mark(*Score::from_halves(15)));
  sheet.left.marks.insert_or_assign("finish_length", Mark(FinishTime::from_seconds(1)));
  sheet.right.marks.insert_or_assign("bitterness", Mark(NoScore::could_not_judge));
  sheet.right.words = {{"wet_stone", 2}};
  sheet.directs["bitterness"] = Direct::left_more;
  sheet.note = "tr\u00E8s vif";
  sheet.started = Moment{1'772'454'600'000, 60, 77};
  sheet.locked = Moment{1'772'454'730'250, 60, 99};
  return sheet;
}

TEST(Seal, SheetTextIsSortedUnspacedAndLeavesOutWhatIsNotContent) {
  EXPECT_EQ(
      sheet_text(small_sheet()),
      R"({"directs":{"bitterness":"left_more"},"entered_by":"screen",)"
      R"("left":{"fault":false,"fault_note":"","marks":{"bitterness":{"half_points":15},"finish_length":{"seconds":2}},"words":[]},)"
      R"("locked":"2026-03-02T13:32:10.250+01:00","note":"très vif",)"
      R"("right":{"fault":false,"fault_note":"","marks":{"bitterness":"could_not_judge"},"words":[{"strength":2,"word":"wet_stone"}]},)"
      R"("serving":"0b6f3a52-7c1d-4e8f-9a20-5d3c1b7e4f66"})");
}

TEST(Seal, GuessStartAndUncorrectedClockDoNotChangeASheetsDigestButEveryAnswerDoes) {
  const Sheet sheet = small_sheet();
  Sheet same = sheet;
  same.guess = Guess{true, Side::left};
  same.started.reset();
  same.locked->boot_ms = 1;
  same.digest = sheet_digest(sheet);
  EXPECT_EQ(sheet_digest(same), sheet_digest(sheet));
  for (int change = 0; change < 5; ++change) {
    Sheet other = sheet;
    if (change == 0) other.left.marks.insert_or_assign("bitterness", Mark(*Score::from_halves(14)));
    if (change == 1) other.right.marks.insert_or_assign("bitterness", Mark(NoScore::spoilt));
    if (change == 2) other.directs["bitterness"] = Direct::cannot_tell;
    if (change == 3) other.note += " ";
    if (change == 4) other.locked->utc_ms += 1;
    EXPECT_NE(sheet_digest(other), sheet_digest(sheet)) << change;
  }
}

TEST(Seal, PlanDigestFollowsThePlanAndNotTheKey) {
  const SmallTrial t;
  SealedPlan sealed = *t.sealed->sealed;
  const Digest before = plan_digest(sealed);
  sealed.key_digest = Digest::of("another key");
  EXPECT_EQ(plan_digest(sealed), before);
  sealed.plan.attributes[0].margin += 1;
  EXPECT_NE(plan_digest(sealed), before);
}

TEST(Seal, KeyDigestIsSaltedSeededAndOverEveryCode) {
  const SmallTrial t;
  const Key key = *t.sealed->key;
  Key salted = key, seeded = key, coded = key;
  salted.salt[0] ^= 1;
  seeded.seed[31] ^= 1;
  std::swap(coded.pairs[1].code_a, coded.pairs[1].code_b);
  for (const Key& other : {salted, seeded, coded}) EXPECT_NE(key_digest(other), key_digest(key));
  EXPECT_NE(key_text(key).find("\"seed\":\"a5a5a5"), std::string::npos);
}

TEST(Seal, WhatIsWrittenIsReadBack) {
  const SmallTrial t;
  EXPECT_EQ(value_of(read_draft(draft_text(t.planned->draft))), t.planned->draft);
  EXPECT_EQ(value_of(read_key(key_text(*t.sealed->key))), *t.sealed->key);
  SealedPlan bare = *t.sealed->sealed;
  bare.plan_digest = {};
  bare.key_digest = {};
  bare.sealed.boot_ms = 0;  // the uncorrected clock is kept for stamps only
  EXPECT_EQ(value_of(read_sealed(plan_text(*t.sealed->sealed))), bare);
  EXPECT_EQ(read_draft("not json").error().kind, ErrorKind::malformed);
}

TEST(Seal, SheetsDigestCountsLockedSheetsOnly) {
  const SmallTrial t;
  const auto written = t.run(t.sealed, PutSheetNote{t.kays(), "soft"});
  EXPECT_EQ(sheets_digest(*written), sheets_digest(*t.sealed));
  EXPECT_NE(sheets_digest(*t.run(written, LockSheet{t.kays()})), sheets_digest(*t.sealed));
}

}  // namespace
}  // namespace likeleaf
