// Bundles as houses have them: what every later version must read, with the findings that were found then.
#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "core/evidence/find.h"
#include "core/exchange/bundle_read.h"
#include "core/exchange/bundle_write.h"
#include "core/exchange/findings_json.h"
#include "tests/core/store/bench_book.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;
using test::Folder;
using test::World;

class BundleV1 : public ::testing::TestWithParam<int> {
 protected:
  [[nodiscard]] static std::filesystem::path file(const char* what) {
    return std::filesystem::path(LIKELEAF_SOURCE_DIR) / "tests/reference/bundle-v1" /
           ("trial-" + std::to_string(GetParam()) + "." + what + ".json");
  }
  [[nodiscard]] static std::string text(const char* what) {
    std::ifstream in(file(what), std::ios::binary);
    EXPECT_TRUE(in) << file(what);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
  }
};

TEST_P(BundleV1, ComesIntoANewBookWithTheFindingsOfThen) {
  Folder folder;
  World world;
  auto session = Session::create(folder / "new.leafbook", world.services());
  ASSERT_OK(session);
  auto import = read_bundle_file(file("bundle"));
  ASSERT_OK(import);
  const auto outcome = (*session)->import_trial(*import);
  ASSERT_OK(outcome);
  EXPECT_EQ(outcome->number, GetParam());
  EXPECT_TRUE((*session)->import_trial(*import).value().skipped);
  ASSERT_OK((*session)->take(outcome->trial));
  const auto unmasked = (*session)->unmasked();
  ASSERT_OK(unmasked);
  const auto findings = evidence::find(*unmasked);
  ASSERT_OK(findings);
  EXPECT_EQ(json::parse(findings_json(*findings, *unmasked)), json::parse(text("findings")));
}

/// Every seal still verifies, and what goes out again is what came in.
TEST_P(BundleV1, KeepsItsDigestsAndGoesOutAsItCame) {
  Folder folder;
  World world;
  const auto book = folder / "new.leafbook";
  IdOf<Trial> id;
  {
    auto session = Session::create(book, world.services());
    ASSERT_OK(session);
    id = (*session)->import_trial(read_bundle_file(file("bundle")).value()).value().trial;
  }
  auto session = Session::open(book, OpenWay::write, world.services());
  ASSERT_OK(session);
  const auto health = (*session)->check_book();
  EXPECT_TRUE(health.findings.empty()) << test::words_of(health.findings.front());
  EXPECT_EQ(health.sealed, 1);
  const auto trial = (*session)->read(id).value();
  const auto again = json::parse(bundle_text(*trial, (*session)->registers(), (*session)->attributes()));
  EXPECT_EQ(again.at("trial"), json::parse(text("bundle")).at("trial"));
}

INSTANTIATE_TEST_SUITE_P(Trials, BundleV1, ::testing::Values(14, 15, 16));

}  // namespace
}  // namespace likeleaf::exchange
