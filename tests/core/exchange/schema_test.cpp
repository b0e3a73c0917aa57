// The published schema and the reader are held together: what is written and read, the schema accepts.
#include <gtest/gtest.h>

#include <fstream>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <random>

#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wpedantic"
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>
#pragma GCC diagnostic pop

#include "core/base/embedded.h"
#include "core/evidence/find.h"
#include "core/exchange/bundle_read.h"
#include "core/exchange/bundle_write.h"
#include "core/exchange/findings_json.h"
#include "tests/core/exchange/trial_maker.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;
using testing::make_trial;
using testing::Upto;

class SchemaTest : public ::testing::Test {
 protected:
  void SetUp() override {
    std::ifstream file(LIKELEAF_SOURCE_DIR "/resources/bundle.schema.json");
    text_ = json::parse(file);
    const valijson::adapters::NlohmannJsonAdapter adapter(text_);
    valijson::SchemaParser().populateSchema(adapter, schema_);
  }
  bool accepts(const json& bundle) {
    valijson::Validator validator;
    const valijson::adapters::NlohmannJsonAdapter adapter(bundle);
    return validator.validate(schema_, adapter, nullptr);
  }
  json text_;
  valijson::Schema schema_;
};

json bundle_of(Upto upto, std::uint64_t number) {
  const auto made = make_trial(upto, number, 1, 1);
  return json::parse(bundle_text(made.trial, made.book, made.attributes));
}

/// Changes one place, anywhere: drops it, gives it another type, another value, or a neighbour that is not known.
void mutate(json& value, std::mt19937_64& random) {
  json* at = &value;
  while (at->is_structured() && !at->empty() && random() % 8 != 0) {
    auto child = at->begin();
    std::advance(child, static_cast<std::ptrdiff_t>(random() % at->size()));
    at = &*child;
  }
  const json values[] = {nullptr, -1, 1.5, 1e30, "", "left", json::array(), json::object(), true, 99999999999999999ull};
  switch (random() % 4) {
    case 0:
      if (at->is_object())
        (*at)["essence"] = 1;
      else
        *at = nullptr;
      break;
    case 1:
      if (at->is_structured() && !at->empty())
        at->erase(at->begin());
      else
        *at = json::array();
      break;
    default:
      *at = values[random() % std::size(values)];
  }
}

TEST_F(SchemaTest, AcceptsWhatIsWrittenAtEveryStage) {
  for (const Upto upto : {Upto::draft, Upto::sealed, Upto::tasted, Upto::unmasked})
    for (std::uint64_t number = 1; number < 6; ++number) EXPECT_TRUE(accepts(bundle_of(upto, number)));
}

TEST_F(SchemaTest, AcceptsWhateverTheReaderAcceptsAndNothingCrashes) {
  std::mt19937_64 random(7);
  int read_anyway = 0, refused_by_both = 0, refused_by_reader = 0;
  for (const Upto upto : {Upto::draft, Upto::tasted, Upto::unmasked}) {
    const json start = bundle_of(upto, 3);
    for (int i = 0; i < 300; ++i) {
      json bundle = start;
      mutate(bundle, random);
      const auto read = read_bundle(bundle.dump());
      const bool accepted = accepts(bundle);
      if (read) {
        ++read_anyway;
        EXPECT_TRUE(accepted) << bundle.dump(1);
      } else if (read.error().kind != ErrorKind::damaged) {
        ++refused_by_reader;
        refused_by_both += !accepted;
      }
    }
  }
  EXPECT_GT(read_anyway, 0);
  EXPECT_GT(refused_by_both * 10, refused_by_reader * 8) << refused_by_both << " of " << refused_by_reader;
}

TEST_F(SchemaTest, RefusesAKeyInABlindTrial) {
  json bundle = bundle_of(Upto::unmasked, 2);
  EXPECT_TRUE(accepts(bundle));
  bundle["trial"].erase("unmasked");
  EXPECT_FALSE(accepts(bundle));
}

TEST(BundleBytes, CutAndChangedTextNeverCrashesAndIsNeverReadInPart) {
  const auto made = make_trial(Upto::unmasked, 5, 1, 1);
  const std::string text = bundle_text(made.trial, made.book, made.attributes);
  std::mt19937_64 random(11);
  for (int i = 0; i < 400; ++i) {
    std::string bytes = text;
    if (i % 2 == 0)
      bytes.resize(random() % (text.size() - 2));
    else
      bytes[random() % bytes.size()] = static_cast<char>(random());
    const auto read = read_bundle(bytes);
    EXPECT_FALSE(i % 2 == 0 && read.has_value());
    EXPECT_TRUE(!read || read->trial.sheets.size() == made.trial.sheets.size());
  }
}

// What machines read of the findings is what its published schema says, for every sample trial.
TEST(FindingsJson, of_every_sample_fits_its_schema) {
  std::ifstream file(LIKELEAF_SOURCE_DIR "/resources/findings.schema.json");
  const json schema_text = json::parse(file);
  valijson::Schema schema;
  const valijson::adapters::NlohmannJsonAdapter schema_adapter(schema_text);
  valijson::SchemaParser().populateSchema(schema_adapter, schema);
  const auto names = embedded_names("sample_sessions/trial-");
  ASSERT_EQ(names.size(), 3U);
  for (const auto name : names) {
    const auto import = read_bundle(*embedded(name), std::string(name));
    ASSERT_TRUE(import.has_value());
    const auto unmasked = open_unmasked(std::make_shared<const Trial>(import->trial));
    ASSERT_TRUE(unmasked.has_value());
    const auto findings = evidence::find(*unmasked);
    ASSERT_TRUE(findings.has_value());
    const std::string text = findings_json(*findings, *unmasked);
    json document = json::parse(text);
    const auto fits = [&](const json& what) {
      valijson::Validator validator;
      valijson::ValidationResults results;
      const bool ok = validator.validate(schema, valijson::adapters::NlohmannJsonAdapter(what), &results);
      valijson::ValidationResults::Error error;
      while (!ok && results.popError(error)) std::cout << name << ": " << error.description << '\n';
      return ok;
    };
    EXPECT_TRUE(fits(document));
    EXPECT_EQ(text.find("seed"), std::string::npos);
    EXPECT_EQ(text.find("salt"), std::string::npos);
    document["attributes"][0]["word"] = "significant";
    EXPECT_FALSE(fits(document));
  }
}

}  // namespace
}  // namespace likeleaf::exchange
