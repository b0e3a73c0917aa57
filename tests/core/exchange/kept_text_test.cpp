// Seals of a program that wrote its texts another way than this one: they verify over the text as it was kept.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "core/exchange/bundle_read.h"
#include "core/exchange/bundle_write.h"
#include "tests/core/exchange/trial_maker.h"
#include "tests/core/store/bench_book.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;
using test::Folder;
using test::World;
using ::testing::HasSubstr;
using testing::Made;
using testing::make_trial;
using testing::Upto;

/// A sealed and unmasked trial whose plan says what this program leaves out at its default.
Made of_another_writer() {
  Made made = make_trial(Upto::unmasked);
  json plan = json::parse(made.trial.sealed->text);
  for (auto& level : plan["plan"]["lever"]["levels"]) level["record"] = "";
  auto sealed = std::make_shared<SealedPlan>(*made.trial.sealed);
  sealed->text = plan.dump();
  sealed->plan_digest = Digest::of(sealed->text);
  made.trial.sealed = sealed;
  return made;
}

std::string bundle_of(const Made& made) {
  return bundle_text(made.trial, made.book, made.attributes);
}

TEST(KeptText, VerifiesThroughBundleBookAndBundleAgain) {
  const Made made = of_another_writer();
  const std::string bundle = bundle_of(made);
  ASSERT_THAT(bundle, HasSubstr("\"record\": \"\""));
  auto import = read_bundle(bundle);
  ASSERT_OK(import);
  EXPECT_EQ(import->trial.sealed->plan, made.trial.sealed->plan);

  Folder folder;
  World world;
  const auto book = folder / "new.leafbook";
  {
    auto session = Session::create(book, world.services());
    ASSERT_OK(session);
    ASSERT_OK((*session)->import_trial(*import));
  }
  auto session = Session::open(book, OpenWay::write, world.services());
  ASSERT_OK(session);
  const auto health = (*session)->check_book();
  EXPECT_TRUE(health.findings.empty()) << test::words_of(health.findings.front());
  EXPECT_EQ(health.sealed, 1);
  const auto trial = (*session)->read(made.trial.id()).value();
  EXPECT_EQ(bundle_text(*trial, (*session)->registers(), (*session)->attributes()), bundle);
  EXPECT_TRUE((*session)->import_trial(*import).value().skipped);
}

TEST(KeptText, OfAnotherWriterIsStillHeldToItsDigest) {
  json bundle = json::parse(bundle_of(of_another_writer()));
  bundle["trial"]["sealed"]["plan"]["lever"]["levels"][0].erase("record");
  const auto read = read_bundle(bundle.dump());
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().kind, ErrorKind::damaged);
  EXPECT_EQ(read.error().field, "fingerprint of the plan");
}

/// Sheets lie in the book as rows: the second entry, which came to them later, is absent where there is none, and so
/// the digest of a sheet without one is over the very text that was digested before there was such a key.
TEST(KeptText, OfASheetWithoutWhatCameLaterIsTheTextOfBefore) {
  json bundle = json::parse(bundle_of(make_trial(Upto::unmasked)));
  const auto unentered = [](const json& sheet) { return !sheet.contains("second"); };
  auto& sheets = bundle["trial"]["sheets"];
  const auto old_sheet = std::ranges::find_if(sheets, unentered);
  ASSERT_NE(old_sheet, sheets.end()) << "every sheet was entered twice";
  EXPECT_TRUE(read_bundle(bundle.dump()));
  json said = *old_sheet;
  for (const char* aside : {"started", "digest", "guess"}) said.erase(aside);
  EXPECT_EQ(Digest::of(said.dump()).hex(), old_sheet->at("digest"));
}

}  // namespace
}  // namespace likeleaf::exchange
