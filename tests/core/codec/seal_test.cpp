#include "core/codec/seal.h"

#include <gtest/gtest.h>

#include "core/codec/value_text.h"
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
  Key key = *t.sealed->key, other_key = key;
  other_key.salt[0] ^= 1;
  const SealedPlan before = sealed;
  take_digests(sealed, key);
  EXPECT_EQ(sealed, before);
  take_digests(sealed, other_key);
  EXPECT_EQ(sealed.plan_digest, before.plan_digest);
  EXPECT_NE(sealed.key_digest, before.key_digest);
  sealed.plan.attributes[0].margin += 1;
  take_digests(sealed, key);
  EXPECT_NE(sealed.plan_digest, before.plan_digest);
}

TEST(Seal, KeyDigestIsSaltedSeededAndOverEveryCode) {
  const SmallTrial t;
  const Key key = *t.sealed->key;
  Key salted = key, seeded = key, coded = key;
  salted.salt[0] ^= 1;
  seeded.seed[31] ^= 1;
  std::swap(coded.pairs[1].code_a, coded.pairs[1].code_b);
  for (Key other : {salted, seeded, coded}) {
    SealedPlan sealed = *t.sealed->sealed;
    take_digests(sealed, other);
    EXPECT_NE(key_digest(other), key_digest(key));
    EXPECT_EQ(sealed.key_digest, key_digest(other));
  }
  EXPECT_NE(key.text.find("\"seed\":\"a5a5a5"), std::string::npos);
}

TEST(Seal, WhatWasSealedIsReadBackWithItsText) {
  const SmallTrial t;
  SealedPlan sealed = *t.sealed->sealed;
  sealed.sealed.boot_ms = 0;  // the uncorrected clock is kept for stamps only
  EXPECT_EQ(value_of(codec::read<SealedPlan>(codec::text_of(sealed))), sealed);
  EXPECT_EQ(value_of(codec::read<Key>(codec::text_of(*t.sealed->key))), *t.sealed->key);
  EXPECT_EQ(value_of(codec::read<Plan>(codec::text_of(t.planned->draft))), t.planned->draft);
  EXPECT_EQ(codec::read<Plan>("not json").error().kind, ErrorKind::malformed);
}

/// As a program would have written it that had one key less, or wrote one that this one leaves out.
TEST(Seal, ATextThatThisProgramWouldNotWriteKeepsItsDigest) {
  const SmallTrial t;
  const auto grown = [](const std::string& text, const std::string& at, const std::string& more) {
    std::string out = text;
    return out.insert(out.find(at), more);
  };
  const std::string explicit_record = grown(codec::text_of(*t.sealed->sealed), "\"schedule\":", "\"record\":\"\",");
  const SealedPlan sealed = value_of(codec::read<SealedPlan>(explicit_record));
  EXPECT_EQ(sealed.plan, t.sealed->sealed->plan);
  EXPECT_NE(sealed.text, t.sealed->sealed->text);
  EXPECT_EQ(plan_digest(sealed), Digest::of(grown(t.sealed->sealed->text, "\"schedule\":", "\"record\":\"\",")));
  EXPECT_EQ(codec::text_of(sealed), explicit_record) << "and is written again as it was";

  Key unseeded = *t.sealed->key;
  unseeded.seed = {};
  unseeded.text.clear();
  const std::string zeros =
      grown(codec::text_of(unseeded), "\"spares\":", "\"seed\":\"" + std::string(64, '0') + "\",");
  const Key key = value_of(codec::read<Key>(zeros));
  EXPECT_NE(codec::text_of(unseeded), zeros);
  EXPECT_EQ(key_digest(key), Digest::of(zeros));
  EXPECT_EQ(codec::text_of(key), zeros);
}

/// The second entry came to sheets after the first of them were locked: they are digested as if it were not there.
TEST(Seal, AKeyThatIsNewInSheetsIsAbsentAtItsDefault) {
  const Sheet sheet = small_sheet();
  const std::string text = sheet_text(sheet);
  EXPECT_EQ(text.find("\"second\":"), std::string::npos);
  EXPECT_EQ(sheet_digest(value_of(codec::read<Sheet>(text))), Digest::of(text));
  Sheet entered_twice = sheet;
  entered_twice.second.directs["bitterness"] = Direct::left_more;
  EXPECT_NE(sheet_digest(entered_twice), sheet_digest(sheet));
}

TEST(Seal, SheetsDigestCountsLockedSheetsOnly) {
  const SmallTrial t;
  const auto written = t.run(t.sealed, PutSheetNote{t.kays(), "soft"});
  EXPECT_EQ(sheets_digest(*written), sheets_digest(*t.sealed));
  EXPECT_NE(sheets_digest(*t.run(written, LockSheet{t.kays()})), sheets_digest(*t.sealed));
}

}  // namespace
}  // namespace likeleaf
