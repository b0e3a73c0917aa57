#include "core/codec/codec.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/base/utf8.h"
#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using nlohmann::json;
using testing::SmallTrial;
using testing::value_of;

// ---- Any value of a type: built from rapidcheck's draws -------------------------------------------------

std::int64_t whole(std::int64_t lowest, std::int64_t highest) {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange<std::int64_t>(lowest, highest + 1));
}
std::int64_t quantity() {
  return whole(-number_limit, number_limit);
}
bool coin() {
  return *rc::gen::arbitrary<bool>();
}
std::string text() {
  static const std::vector<std::string> pieces = {"a", "\"",     "\\",     "/",          "~", "\n",
                                                  " ", "\u00E9", "\u2212", "\U0001F375", "0", ""};
  std::string out;
  for (auto n = whole(0, 6); n > 0; --n) out += pieces[static_cast<std::size_t>(whole(0, 11))];
  return out;
}
template <class E>
E one_of(int count) {
  return static_cast<E>(whole(0, count - 1));
}
template <class R>
IdOf<R> any_id() {
  FixedEntropy entropy(static_cast<std::uint64_t>(whole(1, 1'000'000)));
  return IdOf<R>::make(entropy);
}
template <class Make>
auto perhaps(Make make) -> std::optional<decltype(make())> {
  return coin() ? std::optional(make()) : std::nullopt;
}
template <class Make>
auto some(Make make) {
  std::vector<decltype(make())> out;
  for (auto n = whole(0, 3); n > 0; --n) out.push_back(make());
  return out;
}
Moment moment() {
  return {whole(0, 4'000'000'000'000), static_cast<std::int32_t>(whole(-840, 840)), 0};
}
BlindCode code() {
  return *BlindCode::from(static_cast<int>(whole(100, 999)));
}
Mark mark() {
  switch (whole(0, 2)) {
    case 0:
      return *Score::from_halves(static_cast<int>(whole(0, 20)));
    case 1:
      return FinishTime::from_seconds(static_cast<int>(whole(0, 300)));
    default:
      return one_of<NoScore>(3);
  }
}
CupMarks cup() {
  CupMarks out;
  for (auto n = whole(0, 3); n > 0; --n) out.marks.insert_or_assign(text(), mark());
  out.words = some([] { return WordMark{text(), perhaps([] { return static_cast<int>(whole(1, 3)); })}; });
  out.fault = coin();
  out.fault_note = text();
  return out;
}
Sheet sheet() {
  Sheet out;
  out.serving = any_id<Serving>();
  out.left = cup();
  out.right = cup();
  for (auto n = whole(0, 3); n > 0; --n) out.directs[text()] = one_of<Direct>(3);
  out.sipped_first = perhaps([] { return one_of<Side>(2); });
  out.note = text();
  out.started = perhaps(moment);
  out.locked = perhaps(moment);
  if (coin()) out.digest = Digest::of(text());
  out.guess = perhaps([] { return Guess{coin(), perhaps([] { return one_of<Side>(2); })}; });
  out.entered_by = one_of<EnteredBy>(3);
  for (auto n = whole(0, 2); n > 0; --n) out.second.left.insert_or_assign(text(), mark());
  for (auto n = whole(0, 2); n > 0; --n) out.second.right.insert_or_assign(text(), mark());
  for (auto n = whole(0, 2); n > 0; --n) out.second.directs[text()] = one_of<Direct>(3);
  return out;
}
Brew brew() {
  Brew out;
  out.id = any_id<Brew>();
  out.lot = any_id<Lot>();
  out.level = static_cast<std::size_t>(whole(0, 5));
  out.leaf = perhaps([] { return Mass(quantity()); });
  out.infusions = some([] {
    return Infusion{perhaps([] { return Temperature(quantity()); }), perhaps([] { return Mass(quantity()); }),
                    perhaps([] { return Duration(quantity()); })};
  });
  out.stamps = some([] {
    Moment at = moment();
    at.boot_ms = whole(0, 1'000'000);
    return Stamp{one_of<StampKind>(6), static_cast<int>(whole(1, 9)), at, perhaps(moment)};
  });
  out.readings = some([] { return Reading{moment(), Temperature(quantity()), text()}; });
  out.tds_permyriad = perhaps(quantity);
  out.chill = text();
  return out;
}
Plan plan() {
  Plan out;
  out.id = any_id<Trial>();
  out.question = text();
  out.lever = {one_of<LeverKind>(10), text(), some([] {
                 return Level{text(), perhaps(quantity), some([] {
                                return InfusionPlan{Temperature(quantity()), Duration(quantity()), Mass(quantity())};
                              }),
                              coin(), text()};
               })};
  out.constants = some(
      [] { return Constant{one_of<ConstantKind>(17), text(), perhaps(quantity), perhaps(quantity), text(), text()}; });
  out.lots = some(any_id<Lot>);
  if (coin()) out.warm_up_lot = any_id<Lot>();
  out.attributes = some([] { return PlanAttribute{text(), coin(), quantity(), one_of<Expectation>(4)}; });
  out.assessors = some([] { return PlanAssessor{any_id<Assessor>(), one_of<Role>(3)}; });
  out.controls = some([] { return Control{one_of<ControlKind>(3), any_id<Lot>(), 1, 2, Permille(quantity())}; });
  out.serving_way = one_of<ServingWay>(3);
  out.sip = one_of<SipProtocol>(2);
  out.blinding = one_of<Blinding>(2);
  out.engine = one_of<EnginePolicy>(2);
  out.rule = perhaps([] {
    return IfThenRule{some([] {
                        return RuleClause{text(), one_of<RuleClause::Way>(3), quantity()};
                      }),
                      1, some(any_id<Lot>), text()};
  });
  out.reference_pair = perhaps([] { return ReferenceWords{any_id<Lot>(), text(), coin()}; });
  out.follows = perhaps(any_id<Trial>);
  return out;
}
KeyPair key_pair() {
  return {any_id<Pair>(),
          one_of<PairKind>(5),
          any_id<Lot>(),
          2,
          0,
          1,
          3,
          code(),
          code(),
          {any_id<Brew>(), Permille(0)},
          {any_id<Brew>(), Permille(120)},
          perhaps(any_id<Pair>)};
}
Amendment amendment() {
  Amendment out{one_of<Amendment::Target>(4),
                {},
                perhaps([] { return one_of<Side>(2); }),
                {},
                text(),
                text(),
                text(),
                text(),
                text(),
                moment()};
  if (coin()) out.serving = any_id<Serving>();
  if (coin()) out.brew = any_id<Brew>();
  return out;
}

/// Through canonical text and back.
template <class T>
void comes_back(const T& value) {
  const std::string written = codec::text_of(value);
  const auto again = codec::read<T>(written);
  RC_ASSERT(again.has_value());
  RC_ASSERT(*again == value);
  RC_ASSERT(codec::text_of(*again) == written);
}

RC_GTEST_PROP(Codec, SheetsComeBackAsTheyWere, ()) {
  comes_back(sheet());
}
RC_GTEST_PROP(Codec, BrewsComeBackWithTheUncorrectedClockOfTheirStamps, ()) {
  comes_back(brew());
}
RC_GTEST_PROP(Codec, PlansComeBackAsTheyWere, ()) {
  comes_back(plan());
}
RC_GTEST_PROP(Codec, KeyPairsComeBackAsTheyWere, ()) {
  comes_back(key_pair());
}
RC_GTEST_PROP(Codec, AmendmentsComeBackAsTheyWere, ()) {
  comes_back(amendment());
}

TEST(Codec, EveryOtherRecordComesBackToo) {
  const SmallTrial t;
  const Lot lot{t.lot, "L-07", "pan-fired",  LeafType::green, LeafForm::rolled, "",
                "",    "",     Permille(55), grams(50),       "nuts",           ""};
  EXPECT_EQ(value_of(codec::read<Lot>(codec::to_json(lot), "")), lot);
  const Water water{{}, "house soft", 40, {}, 90, 720, "boiled"};
  EXPECT_EQ(value_of(codec::read<Water>(codec::to_json(water), "")), water);
  const Vessel vessel{{}, "pot", "glass", grams(300), millilitres(250), ""};
  EXPECT_EQ(value_of(codec::read<Vessel>(codec::to_json(vessel), "")), vessel);
  SealedPlan sealed = *t.sealed->sealed;
  sealed.sealed.boot_ms = 0;  // the uncorrected clock is kept for stamps only
  EXPECT_EQ(value_of(codec::read<SealedPlan>(codec::to_json(sealed), "")), sealed);
  EXPECT_EQ(value_of(codec::read<Key>(codec::to_json(*t.sealed->key), "")), *t.sealed->key);
  EXPECT_EQ(value_of(codec::read<BlindServing>(codec::to_json(t.sealed->servings[1]), "")), t.sealed->servings[1]);
  const Void voided{t.contrast, "O.", "spilt", {1, 2, 0}, 1};
  EXPECT_EQ(value_of(codec::read<Void>(codec::to_json(voided), "")), voided);
  const Exclusion exclusion{t.kays(), "H.", "cold", {1, 0, 0}};
  EXPECT_EQ(value_of(codec::read<Exclusion>(codec::to_json(exclusion), "")), exclusion);
  const UnmaskRecord record{{1, 0, 0}, "H.", Digest::of("x"), true, false, true};
  EXPECT_EQ(value_of(codec::read<UnmaskRecord>(codec::to_json(record), "")), record);
  const AdoptedRule rule{"L-07 at 68 °C", {t.lot}, "spring", "H.", "autumn", true, {1, 0, 0}};
  EXPECT_EQ(value_of(codec::read<AdoptedRule>(codec::to_json(rule), "")), rule);
  const AdoptedRule left{"L-07 at 68 °C", {t.lot}, "", "H.", "", false, {1, 0, 0}, true, "too little"};
  EXPECT_EQ(value_of(codec::read<AdoptedRule>(codec::to_json(left), "")), left);
  EXPECT_FALSE(codec::to_json(rule).contains("left")) << "bundles of before stay as they were";
  const KeyOpening opening{t.preparer, {1, 0, 0}, Moment{2, 0, 0}};
  EXPECT_EQ(value_of(codec::read<KeyOpening>(codec::to_json(opening), "")), opening);
  const DayState day{t.kay, 2, true, false, true, "cold", {1, 0, 0}};
  EXPECT_EQ(value_of(codec::read<DayState>(codec::to_json(day), "")), day);
  const ServedPair served{t.contrast, Moment{5, 0, 0}, celsius(41), {}};
  EXPECT_EQ(value_of(codec::read<ServedPair>(codec::to_json(served), "")), served);
}

// ---- What is refused, and how ---------------------------------------------------------------------------

struct Refusal {
  const char* what;
  json patch;  ///< merged into a good sheet
  ErrorKind kind;
  const char *field, *where, *allowed;
};

TEST(Codec, RefusesWithFieldPlaceAndWhatIsAllowed) {
  Sheet good;
  good.left.marks.insert_or_assign("bitterness", Mark(*Score::from_halves(15)));
  const std::vector<Refusal> refusals = {
      {"unknown key", {{"colour", "red"}}, ErrorKind::malformed, "colour", "/sheets/3/colour", "only these keys"},
      {"missing key", {{"note", nullptr}}, ErrorKind::missing, "note", "/sheets/3/note", "required"},
      {"wrong type", {{"note", 7}}, ErrorKind::malformed, "note", "/sheets/3/note", "text"},
      {"unknown word",
       {{"entered_by", "fax"}},
       ErrorKind::malformed,
       "entered_by",
       "/sheets/3/entered_by",
       "one of: screen, paper, import"},
      {"fraction",
       {{"left", {{"marks", {{"bitterness", {{"half_points", 7.3}}}}}}}},
       ErrorKind::malformed,
       "half_points",
       "/sheets/3/left/marks/bitterness/half_points",
       "whole number, 0 to 20"},
      {"out of range",
       {{"left", {{"marks", {{"bitterness", {{"half_points", 22}}}}}}}},
       ErrorKind::malformed,
       "half_points",
       "/sheets/3/left/marks/bitterness/half_points",
       "0 to 20"},
      {"a list where an object belongs",
       {{"left", json::array()}},
       ErrorKind::malformed,
       "left",
       "/sheets/3/left",
       "an object"},
      {"no id", {{"serving", "17"}}, ErrorKind::malformed, "serving", "/sheets/3/serving", "an id such as"},
      {"no time", {{"locked", "yesterday"}}, ErrorKind::malformed, "locked", "/sheets/3/locked", "a time such as"},
      {"not UTF-8", {{"note", "\xC3("}}, ErrorKind::malformed, "note", "/sheets/3/note", "UTF-8"},
      {"long text",
       {{"note", std::string(text_limit + 1, 'x')}},
       ErrorKind::too_large,
       "note",
       "/sheets/3/note",
       "100000 bytes"},
  };
  for (const auto& refusal : refusals) {
    json value = codec::to_json(good);
    value.merge_patch(refusal.patch);
    const auto read = codec::read<Sheet>(value, "/sheets/3");
    ASSERT_FALSE(read) << refusal.what;
    EXPECT_EQ(read.error().kind, refusal.kind) << refusal.what;
    EXPECT_EQ(read.error().field, refusal.field) << refusal.what;
    EXPECT_EQ(read.error().where, refusal.where) << refusal.what;
    EXPECT_NE(read.error().allowed.find(refusal.allowed), std::string::npos)
        << refusal.what << ": " << read.error().allowed;
  }
}

TEST(Codec, RefusesNumbersBeyondItsLimitAndCodesBelowThreeDigits) {
  EXPECT_FALSE(read_whole(json(std::uint64_t{18'446'744'073'709'551'615u}), "/n"));
  EXPECT_FALSE(read_whole(json(number_limit + 1), "/n"));
  EXPECT_EQ(value_of(read_whole(json(number_limit), "/n")), number_limit);
  EXPECT_FALSE(read_whole(json(2.0), "/n"));
  const SmallTrial t;
  json serving = codec::to_json(t.sealed->servings[1]);
  serving["left"] = 99;
  EXPECT_EQ(codec::read<BlindServing>(serving, "/servings/1").error().where, "/servings/1/left");
}

TEST(Codec, DocumentsAreRefusedBeforeTheyCostMemory) {
  EXPECT_EQ(parse_document(std::string(10'000, '[')).error().kind, ErrorKind::too_deep);
  EXPECT_EQ(parse_document("[\"" + std::string(500, '[') + "\"]").has_value(), true);
  EXPECT_EQ(parse_document("[[1]]", 100, 1).error().kind, ErrorKind::too_deep);
  // An escaped quote does not end a text, an escaped backslash before a quote does not go on with it.
  EXPECT_TRUE(parse_document(R"(["\"[[[["])", 100, 1));
  EXPECT_EQ(parse_document(R"(["\\",[1]])", 100, 1).error().kind, ErrorKind::too_deep);
  EXPECT_EQ(parse_document("12345", 4).error().kind, ErrorKind::too_large);
  EXPECT_EQ(parse_document("{\"a\":1,").error().kind, ErrorKind::malformed);
  EXPECT_EQ(parse_document("\"\xFF\"").error().kind, ErrorKind::malformed);
  EXPECT_EQ(parse_document("1e999").error().kind, ErrorKind::malformed);
  const auto twice = parse_document(R"([{"a":{"a":1},"b":2,"b":3}])");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().kind, ErrorKind::duplicate);
  EXPECT_EQ(twice.error().value, "b");
}

TEST(Codec, PointersEscapeWhatTheyAreMadeOf) {
  EXPECT_EQ(pointer_to("/marks", "a/b~c"), "/marks/a~1b~0c");
  EXPECT_EQ(pointer_to("/lots", std::size_t{2}), "/lots/2");
}

TEST(Codec, TellsUtf8FromBytesThatLookLikeIt) {
  for (const char* good : {"", "abc", "\u00E9", "\u2212", "\U0001F375"}) EXPECT_TRUE(valid_utf8(good)) << good;
  for (const char* bad : {"\xC0\xAF", "\xED\xA0\x80", "\xF5\x80\x80\x80", "\xE2\x88", "\x80", "\xE0\x9F\xBF"})
    EXPECT_FALSE(valid_utf8(bad));
}

}  // namespace
}  // namespace likeleaf
