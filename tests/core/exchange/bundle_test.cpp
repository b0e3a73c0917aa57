#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/codec/value_text.h"
#include "core/exchange/bundle_read.h"
#include "core/exchange/bundle_write.h"
#include "tests/core/exchange/trial_maker.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using testing::Made;
using testing::make_trial;
using ::testing::Not;
using testing::Upto;

std::string text_of(const Made& made) {
  return bundle_text(made.trial, made.book, made.attributes);
}

std::string shown(const Error& error) {
  return error.field + " | " + error.value + " | " + error.allowed + " | " + error.where;
}

Error error_of(const std::string& text) {
  const auto read = read_bundle(text, "trial.json");
  if (read) ADD_FAILURE() << "was read";
  return read ? Error{} : read.error();
}

/// Reads an unmasked bundle after a change; the digests no longer hold, but rules between records are looked at first.
Error error_after(const std::function<void(json&)>& change, Upto upto = Upto::unmasked) {
  json bundle = json::parse(text_of(make_trial(upto)));
  change(bundle["trial"]);
  return error_of(bundle.dump());
}

class BundleOfEveryStage : public ::testing::TestWithParam<Upto> {};

TEST_P(BundleOfEveryStage, ComesBackAsItWasWritten) {
  const Made made = make_trial(GetParam());
  const std::string text = text_of(made);
  const auto read = read_bundle(text);
  ASSERT_TRUE(read) << shown(read.error());
  EXPECT_EQ(bundle_text(read->trial, read->registers, read->attributes), text);
  EXPECT_EQ(read->digest, trial_digest(made.trial, made.book, made.attributes));
  EXPECT_EQ(read->trial.draft, made.trial.draft);
  EXPECT_EQ(read->trial.servings, made.trial.servings);
}
INSTANTIATE_TEST_SUITE_P(Stages, BundleOfEveryStage,
                         ::testing::Values(Upto::draft, Upto::sealed, Upto::tasted, Upto::unmasked));

RC_GTEST_PROP(Bundle, ReadsBackAnyTrialWithTheSameDigest, ()) {
  const auto number = *rc::gen::inRange<std::uint64_t>(1, 1000000);
  const auto upto = *rc::gen::element(Upto::draft, Upto::sealed, Upto::tasted, Upto::unmasked);
  const Made made = make_trial(upto, number, *rc::gen::inRange(1, 4), *rc::gen::inRange(1, 4));
  const auto read = read_bundle(text_of(made));
  RC_ASSERT(read.has_value());
  RC_ASSERT(read->digest == trial_digest(made.trial, made.book, made.attributes));
  RC_ASSERT(read->trial.sheets.size() == made.trial.sheets.size());
}

TEST(Bundle, HoldsNothingOfTheKeyedSideBeforeUnmask) {
  const Made made = make_trial(Upto::tasted);
  const json trial = json::parse(text_of(made))["trial"];
  for (const char* key : {"key", "brews", "served", "unmasked"}) EXPECT_FALSE(trial.contains(key)) << key;
  const std::string text = text_of(made);
  for (const auto& brew : made.trial.key->brews) EXPECT_THAT(text, Not(HasSubstr(brew.id.text())));
  const std::string key = made.trial.key->text;
  EXPECT_THAT(text, Not(HasSubstr(json::parse(key)["seed"].get<std::string>())));
  EXPECT_THAT(text, Not(HasSubstr(json::parse(key)["salt"].get<std::string>())));
}

TEST(Bundle, IsTheSameBeforeUnmaskWhateverTheKeySays) {
  Made made = make_trial(Upto::tasted);
  const std::string before = text_of(made);
  Key swapped = *made.trial.key;
  swapped.text.clear();
  for (auto& pair : swapped.pairs) std::swap(pair.cup_a, pair.cup_b);
  swapped.text = codec::text_of(swapped);
  made.trial.key = std::make_shared<const Key>(swapped);
  made.trial.brews.clear();
  EXPECT_EQ(text_of(made), before);
}

TEST(Bundle, OfASealedTrialKeepsTheLotsNamesOfThatDay) {
  Made made = make_trial(Upto::tasted);
  const std::string before = text_of(made);
  made.book.lots[0].name = "renamed since";
  EXPECT_EQ(text_of(made), before);
}

TEST(BundleRefuses, WhatIsNotJson) {
  const Error error = error_of("this is no bundle");
  EXPECT_EQ(error.kind, ErrorKind::malformed);
  EXPECT_THAT(error.where, HasSubstr("trial.json"));
}

TEST(BundleRefuses, OtherJsonAsNoBundle) {
  EXPECT_EQ(error_of("[1,2]").kind, ErrorKind::malformed);
  EXPECT_EQ(error_of(R"({"format":"shopping-list","version":1})").field, "format");
}

TEST(BundleRefuses, ANewerVersionBeforeItsUnknownKeys) {
  const Error error = error_of(R"({"format":"likeleaf-bundle","version":2,"made_by":"Likeleaf 9","essence":{}})");
  EXPECT_EQ(error.kind, ErrorKind::newer_version);
  EXPECT_EQ(error.value, "2");
  EXPECT_EQ(error.allowed, "up to 1");
}

TEST(BundleRefuses, WhatIsBeyondTheLimitsOfTheHouse) {
  const auto refused = [](const std::string& pointer, const json& value) {
    return error_after([&](json& trial) { trial[json::json_pointer(pointer)] = value; });
  };
  const Error name = refused("/sealed/registers/assessors/0/alias", std::string(61, 'K'));
  EXPECT_EQ(name.kind, ErrorKind::too_large) << shown(name);
  EXPECT_EQ(name.field, "assessor");
  EXPECT_EQ(name.allowed, "at most 60 characters");
  EXPECT_THAT(name.where, HasSubstr("/trial/sealed/registers/assessors/0"));
  EXPECT_EQ(refused("/sealed/registers/assessors/0/alias", "K.\nThe book is sound.").allowed, "one line");
  EXPECT_EQ(refused("/sealed/plan/lever/levels/1/value", 120'000).value, "120\u00A0°C");
  EXPECT_EQ(refused("/brews/0/infusions/0/steep_ms", -5).field, "steep");
  EXPECT_EQ(refused("/brews/0/infusions/0/pour_mc", 400'000).field, "pour temperature");
  EXPECT_EQ(refused("/brews/0/leaf_mg", -1).field, "leaf");
  EXPECT_EQ(refused("/sheets/0/note", std::string(4001, 'n')).field, "note");
}

TEST(BundleRefuses, AMissingPairByItsCodes) {
  const Made made = make_trial(Upto::unmasked);
  const auto pair = made.trial.key->pairs[1];
  const Error error = error_after([](json& trial) { trial["key"]["pairs"].erase(1); });
  EXPECT_EQ(error.kind, ErrorKind::missing) << shown(error);
  EXPECT_THAT(error.field, HasSubstr(pair.code_a.text()));
  EXPECT_THAT(error.field, HasSubstr(pair.code_b.text()));
}

TEST(BundleRefuses, ServingsThatWereLeftOut) {
  const Error error = error_after([](json& trial) {
    const json pair = trial["key"]["pairs"][0]["id"];
    json kept = json::array();
    for (const auto& serving : trial["servings"])
      if (serving["pair"] != pair) kept.push_back(serving);
    json sheets = json::array();
    for (const auto& sheet : trial["sheets"])
      for (const auto& serving : kept)
        if (serving["id"] == sheet["serving"]) sheets.push_back(sheet);
    trial["servings"] = kept;
    trial["sheets"] = sheets;
    trial["served"] = json::array();
  });
  EXPECT_EQ(error.kind, ErrorKind::missing) << shown(error);
  EXPECT_THAT(error.field, HasSubstr("servings of pair"));
}

TEST(BundleRefuses, ACodeUsedTwice) {
  const Error error =
      error_after([](json& trial) { trial["key"]["pairs"][1]["code_a"] = trial["key"]["pairs"][0]["code_a"]; });
  EXPECT_EQ(error.kind, ErrorKind::duplicate) << shown(error);
  EXPECT_EQ(error.field, "code");
}

TEST(BundleRefuses, ACodeUsedTwiceOnTheOpenSide) {
  const Error error = error_after(
      [](json& trial) {
        auto& servings = trial["servings"];
        for (auto& serving : servings)
          if (serving["pair"] != servings[0]["pair"]) serving["left"] = servings[0]["left"];
      },
      Upto::tasted);
  EXPECT_EQ(error.field, "code") << shown(error);
  EXPECT_EQ(error.kind, ErrorKind::duplicate);
}

TEST(BundleRefuses, ABrewThatIsNotThere) {
  const Error error = error_after([](json& trial) { trial["key"]["brews"].erase(0); });
  EXPECT_EQ(error.kind, ErrorKind::not_found) << shown(error);
  EXPECT_THAT(error.field, HasSubstr("brew"));
}

TEST(BundleRefuses, ASheetOfNoServing) {
  const Error error = error_after(
      [](json& trial) { trial["sheets"][0]["serving"] = "0b6f3a52-7c1d-4e8f-9a20-5d3c1b7e4f66"; }, Upto::tasted);
  EXPECT_EQ(error.field, "serving") << shown(error);
}

TEST(BundleRefuses, AnUnmaskedTrialWithAnOpenSheetByName) {
  const Error error = error_after([](json& trial) {
    trial["sheets"][0].erase("locked");
    trial["sheets"][0].erase("digest");
    trial["unmasked"]["sheets_intact"] = false;
  });
  EXPECT_EQ(error.kind, ErrorKind::missing) << shown(error);
  EXPECT_THAT(error.value, HasSubstr("sitting"));
}

TEST(BundleRefuses, AKeyInATrialThatIsStillBlind) {
  const Error error = error_after([](json& trial) { trial.erase("unmasked"); });
  EXPECT_EQ(error.kind, ErrorKind::not_allowed) << shown(error);
}

TEST(BundleRefuses, ChangedContentAsDamaged) {
  EXPECT_EQ(error_after([](json& t) { t["sealed"]["plan"]["question"] = "another"; }).kind, ErrorKind::damaged);
  EXPECT_EQ(error_after([](json& t) { t["sheets"][0]["note"] = "another"; }).kind, ErrorKind::damaged);
  EXPECT_EQ(error_after([](json& t) { std::swap(t["key"]["pairs"][0]["cup_a"], t["key"]["pairs"][0]["cup_b"]); }).kind,
            ErrorKind::damaged);
  EXPECT_EQ(error_after([](json& t) { t["sheets"][0]["note"] = "another"; }, Upto::tasted).kind, ErrorKind::damaged);
}

TEST(BundleRefuses, AValueOutOfRangeWithItsPointer) {
  const Error error = error_after([](json& t) { t["servings"][2]["left"] = 1000; });
  EXPECT_THAT(error.where, HasSubstr("trial.json: /trial/servings/2/left"));
  EXPECT_EQ(error.value, "1000");
}

TEST(BundleRefuses, AKeyWrittenTwice) {
  std::string text = text_of(make_trial(Upto::draft));
  text.insert(text.find("\"version\""), "\"version\": 1, ");
  EXPECT_EQ(error_of(text).kind, ErrorKind::duplicate);
}

TEST(BundleRefuses, TenThousandDeepBeforeBuildingIt) {
  const std::string deep(10000, '[');
  EXPECT_EQ(error_of(deep).kind, ErrorKind::too_deep);
  EXPECT_EQ(error_of(R"({"format":"likeleaf-bundle","version":1,"trial":)" + deep).kind, ErrorKind::too_deep);
}

TEST(BundleRefuses, DepthInsideTextIsNoDepth) {
  Made made = make_trial(Upto::draft);
  made.trial.draft.notes = std::string(500, '[') + "\\\"{";
  EXPECT_TRUE(read_bundle(text_of(made)));
}

TEST(BundleRefuses, TwoHundredMegabytes) {
  const std::string text(200u << 20, ' ');
  const Error error = error_of(text);
  EXPECT_EQ(error.kind, ErrorKind::too_large);
  EXPECT_EQ(error.value, "200 MiB");
  EXPECT_EQ(error.allowed, "at most 32 MiB");
}

TEST(BundleRefuses, AFileOfTwoHundredMegabytesWithoutReadingIt) {
  const auto path = std::filesystem::temp_directory_path() / "likeleaf-large-bundle.json";
  { std::ofstream(path).put(' '); }
  std::filesystem::resize_file(path, 200u << 20);  // a hole: no disk is used
  const auto read = read_bundle_file(path);
  std::filesystem::remove(path);
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().kind, ErrorKind::too_large);
}

TEST(BundleReads, AnAdmittedBreakOfTheSheetsIsCarriedOn) {
  json bundle = json::parse(text_of(make_trial(Upto::unmasked)));
  bundle["trial"]["sheets"][0]["note"] = "changed on the home bench";
  bundle["trial"]["unmasked"]["sheets_intact"] = false;
  const auto read = read_bundle(bundle.dump());
  ASSERT_TRUE(read) << shown(read.error());
  EXPECT_FALSE(read->trial.unmasked->sheets_intact);
}

}  // namespace
}  // namespace likeleaf::exchange
