#include "core/acts/unmask.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/acts/key_vault.h"
#include "core/codec/value_text.h"
#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;

const Pairing& pairing_of(const Unmasked& unmasked, IdOf<Pair> pair, IdOf<Assessor> person) {
  for (const auto& one : unmasked.pairings())
    if (one.pair == pair && one.assessor == person) return one;
  throw std::runtime_error("no such pairing");
}

/// As somebody would who wrote into the book's file.
template <class T>
std::shared_ptr<const T> rewritten(const T& value, const std::string& what, const std::string& into) {
  std::string text = codec::text_of(value);
  text.replace(text.find(what), what.size(), into);
  return std::make_shared<const T>(value_of(codec::read<T>(text)));
}

TEST(Unmasking, IsRefusedWithTheOpenSheetsNamed) {
  const SmallTrial t;
  auto trial = t.sealed;
  for (const auto* open : open_sheets(*trial))
    if (!(open->assessor == t.kay && open->place != 1)) trial = t.run(trial, LockSheet{open->id});
  const auto refused = unmask(*trial, "H.", t.noon);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::not_allowed);
  EXPECT_EQ(refused.error().value, "K., warm-up pair of sitting 1; K., pair 2 of sitting 1");
  EXPECT_FALSE(open_unmasked(trial));
}

TEST(Unmasking, FindsAnUntouchedTrialIntactAndHappensOnce) {
  const SmallTrial t;
  const auto locked = t.all_locked(t.sealed);
  const auto record = value_of(unmask(*locked, "H.", t.noon));
  EXPECT_TRUE(record.plan_intact && record.key_intact && record.sheets_intact);
  const auto done = t.run(locked, Unmask{"H."});
  EXPECT_EQ(stage(*done), Stage::unmasked);
  EXPECT_EQ(unmask(*done, "H.", t.noon).error().kind, ErrorKind::not_allowed);
}

TEST(Unmasking, SeesAChangedKeyPlanOrSheet) {
  const SmallTrial t;
  Trial trial = *t.all_locked(t.sealed);
  trial.key = rewritten(*trial.key, "\"level_a\":0,\"level_b\":1", "\"level_a\":1,\"level_b\":0");
  auto record = value_of(unmask(trial, "H.", t.noon));
  EXPECT_FALSE(record.key_intact);
  EXPECT_TRUE(record.plan_intact && record.sheets_intact);

  trial.sealed = rewritten(*trial.sealed, "\"margin\":2", "\"margin\":1");
  auto sheet = std::make_shared<Sheet>(*trial.sheets.begin()->second);
  sheet->note = "written afterwards";
  trial.sheets.begin()->second = sheet;
  record = value_of(unmask(trial, "H.", t.noon));
  EXPECT_FALSE(record.plan_intact || record.sheets_intact);
}

/// As a program would have sealed it that wrote what this one leaves out at its default.
TEST(Unmasking, FindsASealOfAnotherWriterIntact) {
  const SmallTrial t;
  Trial trial = *t.all_locked(t.sealed);
  auto plan = std::make_shared<SealedPlan>(*trial.sealed);
  plan->text.insert(plan->text.find("\"schedule\":"), "\"record\":\"\",");
  plan->plan_digest = Digest::of(plan->text);
  trial.sealed = std::make_shared<const SealedPlan>(value_of(codec::read<SealedPlan>(codec::text_of(*plan))));
  EXPECT_EQ(trial.sealed->plan, plan->plan);
  EXPECT_TRUE(value_of(unmask(trial, "H.", t.noon)).plan_intact);
}

TEST(Unmasking, JoinsEachSheetWithWhatItsCupsHeld) {
  const SmallTrial t;
  auto trial = t.run(t.sealed, PutSippedFirst{t.kays(), Side::right});
  trial = t.run(t.all_locked(trial), Unmask{"H."});
  const auto unmasked = value_of(open_unmasked(trial));
  EXPECT_EQ(unmasked.pairings().size(), 6u);
  const Pairing& kays = pairing_of(unmasked, t.contrast, t.kay);
  EXPECT_EQ(kays.side_b, Side::left);
  EXPECT_EQ(kays.first, Side::right);  // as it really was
  EXPECT_FALSE(kays.b_first());
  EXPECT_EQ(kays.levels, (Contrast{0, 1}));
  EXPECT_EQ(trial->brews.at(kays.brew_b)->level, 1u);
  const Pairing& arrs = pairing_of(unmasked, t.contrast, t.arr);
  EXPECT_EQ(arrs.side_b, Side::right);
  EXPECT_EQ(arrs.first, Side::left);  // as planned
  EXPECT_EQ(pairing_of(unmasked, t.blank, t.kay).kind, PairKind::blank);
}

TEST(Unmasking, AppliesAmendmentsToCopies) {
  const SmallTrial t;
  auto trial = t.run(t.sealed, PutMark{t.kays(), Side::left, "bitterness", Mark(*Score::from_halves(8))});
  trial = t.all_locked(trial);
  Amendment mark{Amendment::Target::sheet_mark, t.kays(), Side::left, {}, "bitterness", "", "6,5", "K.", "misread", {}};
  trial = t.run(trial, Amend{mark});
  const auto brew = trial->key->pairs[1].cup_b.brew;
  trial = t.run(trial, Amend{{Amendment::Target::brew, {}, {}, brew, "steep", "", "50 s", "O.", "timer", {}}});
  trial = t.run(trial, Unmask{"H."});
  const auto unmasked = value_of(open_unmasked(trial));
  const auto& sheet = *pairing_of(unmasked, t.contrast, t.kay).sheet;
  EXPECT_EQ(sheet.left.marks.at("bitterness"), Mark(*Score::from_halves(13)));
  EXPECT_EQ(trial->sheets.at(t.kays())->left.marks.at("bitterness"), Mark(*Score::from_halves(8)));
  EXPECT_EQ(unmasked.trial().brews.at(brew)->infusions.at(0).steep, seconds(50));
  EXPECT_TRUE(trial->brews.at(brew)->infusions.empty());
  EXPECT_TRUE(trial->unmasked->sheets_intact);
}

TEST(Unmasking, TellsExclusionsBeforeFromAfterEvenWhenTheClockIsPutBack) {
  const SmallTrial t;
  auto trial = t.all_locked(t.sealed);
  trial = value_of(apply(trial, Exclude{t.kays(), "H.", "cold"}, t.at(900))).next;
  trial = value_of(apply(trial, Unmask{"H."}, t.at(600))).next;
  const auto arrs = SmallTrial::serving(*trial, t.contrast, t.arr);
  trial = value_of(apply(trial, Exclude{arrs, "H.", "spicy lunch"}, t.at(300))).next;
  const auto unmasked = value_of(open_unmasked(trial));
  EXPECT_TRUE(pairing_of(unmasked, t.contrast, t.kay).excluded_before);
  EXPECT_TRUE(pairing_of(unmasked, t.contrast, t.arr).excluded_after);
  EXPECT_FALSE(pairing_of(unmasked, t.contrast, t.arr).excluded_before);
}

TEST(Voiding, BrewsThePairAgainUnderASpareWithTheSameLevelsSidesAndPourOrder) {
  const SmallTrial t;
  auto trial = t.run(t.sealed, VoidPair{t.contrast, "O.", "spilt"});
  const Spare& spare = trial->key->spares[0];
  const auto pair = resolve_pair(*trial, spare.pair);
  ASSERT_TRUE(pair);
  EXPECT_EQ(pair->level_b, 1u);
  EXPECT_EQ(pair->code_a, spare.code_one);
  EXPECT_EQ(trial->brews.at(pair->cup_a.brew)->level, 0u);
  EXPECT_EQ(trial->brews.at(pair->cup_b.brew)->level, 1u);
  EXPECT_LT(trial->brews.at(pair->cup_b.brew)->number, trial->brews.at(pair->cup_a.brew)->number);
  EXPECT_EQ(trial->brews.at(pair->cup_b.brew)->portion, 5);
  EXPECT_EQ(live_servings(*trial).size(), 6u);
  for (const auto& serving : trial->servings) {
    if (serving.pair != spare.pair) continue;
    EXPECT_EQ(serving.instead_of, t.contrast);
    EXPECT_EQ(serving.place, 1);
    EXPECT_EQ(serving.left, serving.assessor == t.kay ? pair->code_b : pair->code_a);
  }
  // The replacement is voided too: the second spare still resolves to the sealed pair's levels.
  trial = t.run(trial, VoidPair{spare.pair, "O.", "spilt again"});
  const auto second = resolve_pair(*trial, trial->key->spares[1].pair);
  ASSERT_TRUE(second);
  EXPECT_EQ(second->lot, t.lot);
  EXPECT_EQ(second->level_a, 0u);
  const auto unmasked = value_of(open_unmasked(t.run(t.all_locked(trial), Unmask{"H."})));
  EXPECT_EQ(unmasked.pairings().size(), 6u);
  EXPECT_EQ(pairing_of(unmasked, second->id, t.kay).side_b, Side::left);
}

TEST(Voiding, WithoutASpareTakesThePairOutAndRecordsThatPointAtEachOtherEnd) {
  const SmallTrial t;
  auto trial = t.run(t.sealed, VoidPair{t.contrast, "O.", "spilt"});
  trial = t.run(trial, VoidPair{t.blank, "O.", "spilt"});
  trial = t.run(trial, VoidPair{trial->key->spares[0].pair, "O.", "spilt"});
  EXPECT_FALSE(trial->voids.back().spare);
  EXPECT_EQ(live_servings(*trial).size(), 4u);

  Trial looped = *t.sealed;
  looped.voids = {{looped.key->spares[0].pair, "O.", "-", t.noon, 0}};
  EXPECT_FALSE(resolve_pair(looped, looped.key->spares[0].pair));
  looped.voids[0].spare = 99;
  EXPECT_FALSE(resolve_pair(looped, looped.key->spares[0].pair));
}

TEST(Vault, OpensForThePreparerOnly) {
  const SmallTrial t;
  EXPECT_EQ(KeyVault::reveal(*t.planned, t.preparer).error().kind, ErrorKind::not_allowed);
  EXPECT_EQ(KeyVault::reveal(*t.sealed, t.kay).error().value, "K.");
  EXPECT_FALSE(KeyVault::reveal(*t.sealed, t.head));
  const auto pass = KeyVault::reveal(*t.sealed, t.preparer);
  ASSERT_TRUE(pass);
  EXPECT_EQ(KeyVault::open(*t.sealed, *pass), *t.sealed->key);
}

TEST(Vault, OpensForASelfBlindedTasterAfterUnmaskingOnly) {
  const SmallTrial t;
  Trial trial = *t.all_locked(t.sealed);
  auto plan = std::make_shared<SealedPlan>(*trial.sealed);
  plan->plan.blinding = Blinding::self;
  trial.sealed = plan;
  EXPECT_FALSE(KeyVault::reveal(trial, t.kay));
  trial.unmasked = value_of(unmask(trial, "K.", t.noon));
  EXPECT_TRUE(KeyVault::reveal(trial, t.kay));
}

}  // namespace
}  // namespace likeleaf
