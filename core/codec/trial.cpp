// JSON of the key, of brewing and tasting, and of what happened to a trial.
#include "core/domain/trial.h"
#include "core/base/hex.h"
#include "core/codec/shape.h"

namespace likeleaf::codec {

// The words stand in the order of the enumerators.
template <>
struct Words<PairKind> {
  static constexpr std::array list{"contrast", "blank", "yardstick", "repeat", "warm_up"};
};
template <>
struct Words<StampKind> {
  static constexpr std::array list{"pour_start", "pour_end", "drain_start", "drain_end", "chill_start", "ready"};
};
template <>
struct Words<NoScore> {
  static constexpr std::array list{"could_not_judge", "not_tasted", "spoilt"};
};
template <>
struct Words<Direct> {
  static constexpr std::array list{"left_more", "right_more", "cannot_tell"};
};
template <>
struct Words<Side> {
  static constexpr std::array list{"left", "right"};
};
template <>
struct Words<EnteredBy> {
  static constexpr std::array list{"screen", "paper", "import"};
};
template <>
struct Words<Amendment::Target> {
  static constexpr std::array list{"sheet_mark", "sheet_direct", "brew", "plan_note"};
};

template <>
struct Value<BlindCode> {
  static json write(BlindCode code) { return code.number(); }
  static Result<BlindCode> read(const json& value, const std::string& pointer) {
    return read_whole(value, pointer, 100, 999).map([](std::int64_t n) {
      return *BlindCode::from(static_cast<int>(n));
    });
  }
};

/// Seed and salt: 64 hexadecimal digits, as a digest is written.
template <>
struct Value<std::array<std::uint8_t, 32>> {
  using Bytes = std::array<std::uint8_t, 32>;
  static json write(const Bytes& bytes) { return hex_text(bytes); }
  static Result<Bytes> read(const json& value, const std::string& pointer) {
    return read_from_text(value, pointer, [](const std::string& text) -> Result<Bytes> {
      Bytes bytes{};
      if (read_hex(text, bytes)) return bytes;
      return fail(ErrorKind::malformed, {}, shown_value(text), "64 hexadecimal digits in lower case");
    });
  }
};

template <>
struct Value<Mark> {
  static json write(const Mark& mark) {
    if (const auto* score = std::get_if<Score>(&mark)) return json::object({{"half_points", score->halves()}});
    if (const auto* finish = std::get_if<FinishTime>(&mark)) return json::object({{"seconds", finish->seconds()}});
    return word_of(std::get<NoScore>(mark));
  }
  static Result<Mark> read(const json& value, const std::string& pointer) {
    if (value.is_string()) return Value<NoScore>::read(value, pointer).map([](NoScore reason) { return Mark(reason); });
    ObjectReader object(value, pointer);
    std::optional<std::int64_t> halves, seconds;
    object.find_as("half_points", halves, [](const json& v, const std::string& p) { return read_whole(v, p, 0, 20); });
    object.find_as("seconds", seconds, [](const json& v, const std::string& p) { return read_whole(v, p, 2, 121); });
    if (auto done = object.done(); !done) return tl::unexpected<Error>(done.error());
    if (halves.has_value() == seconds.has_value())
      return fail(ErrorKind::malformed, last_key(pointer), halves ? "both" : "neither", "either half_points or seconds",
                  pointer);
    if (halves) return Mark(*Score::from_halves(static_cast<int>(*halves)));
    return Mark(FinishTime::from_seconds(static_cast<int>(*seconds)));
  }
};

template <>
struct Start<KeyPair> {
  static KeyPair make() {
    const BlindCode code = *BlindCode::from(100);
    return {{}, PairKind::contrast, {}, 0, 0, 1, 1, code, code, {}, {}, {}};
  }
};
template <>
struct Start<Spare> {
  static Spare make() {
    const BlindCode code = *BlindCode::from(100);
    return {{}, code, code, {}, {}};
  }
};
template <>
struct Start<BlindServing> {
  static BlindServing make() {
    const BlindCode code = *BlindCode::from(100);
    return {{}, {}, {}, 1, 1, 1, code, code, Side::left, {}};
  }
};

template <>
struct Shape<KeyCup> {
  static void describe(auto& v, auto& x) {
    v.need("brew", x.brew);
    v.need("dilution_permille", x.dilution);
  }
};
template <>
struct Shape<KeyPair> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("kind", x.kind);
    v.need("lot", x.lot);
    v.need("set", x.set);
    v.need("level_a", x.level_a);
    v.need("level_b", x.level_b);
    v.need("sitting", x.sitting);
    v.need("code_a", x.code_a);
    v.need("code_b", x.code_b);
    v.need("cup_a", x.cup_a);
    v.need("cup_b", x.cup_b);
    v.maybe("repeat_of", x.repeat_of);
  }
};
template <>
struct Shape<PlannedBrew> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("number", x.number);
    v.need("lot", x.lot);
    v.need("level", x.level);
    v.need("set", x.set);
    v.need("sitting", x.sitting);
    v.need("portion", x.portion);
  }
};
template <>
struct Shape<Spare> {
  static void describe(auto& v, auto& x) {
    v.need("pair", x.pair);
    v.need("code_one", x.code_one);
    v.need("code_two", x.code_two);
    v.need("brew_one", x.brew_one);
    v.need("brew_two", x.brew_two);
  }
};
template <>
struct Shape<Key> {
  static void describe(auto& v, auto& x) {
    v.unless_empty("seed", x.seed);
    v.need("salt", x.salt);
    v.need("generator", x.generator);
    v.need("brews", x.brews);
    v.need("pairs", x.pairs);
    v.need("spares", x.spares);
  }
};

/// As its text was kept when it was sealed, whatever this shape has become.
template <>
struct Value<Key> {
  static json write(const Key& x) { return x.text.empty() ? write_shape(x) : json::parse(x.text); }
  static Result<Key> read(const json& value, const std::string& pointer) {
    auto key = read_shape<Key>(value, pointer);
    if (key) key->text = canonical_text(value);
    return key;
  }
};

template <>
struct Shape<Stamp> {
  static void describe(auto& v, auto& x) {
    v.need("kind", x.kind);
    v.need("infusion", x.infusion);
    v.need("at", x.at);
    v.unless_empty("boot_ms", x.at.boot_ms);  // after "at", which reads as 0: a steep is measured on this clock
    v.maybe("undone", x.undone);
  }
};
template <>
struct Shape<likeleaf::Reading> {
  static void describe(auto& v, auto& x) {
    v.need("at", x.at);
    v.need("temperature_mc", x.temperature);
    v.need("place", x.place);
  }
};
template <>
struct Shape<Infusion> {
  static void describe(auto& v, auto& x) {
    v.maybe("pour_mc", x.pour);
    v.maybe("water_mg", x.water);
    v.maybe("steep_ms", x.steep);
  }
};
template <>
struct Shape<Brew> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("number", x.number);
    v.need("lot", x.lot);
    v.need("level", x.level);
    v.need("set", x.set);
    v.need("sitting", x.sitting);
    v.need("portion", x.portion);
    v.maybe("leaf_mg", x.leaf);
    v.need("infusions", x.infusions);
    v.need("stamps", x.stamps);
    v.need("readings", x.readings);
    v.maybe("tds_permyriad", x.tds_permyriad);
    v.maybe("ph_hundredths", x.ph_hundredths);
    v.need("chill", x.chill);
    v.need("note", x.note);
  }
};
template <>
struct Shape<ServedPair> {
  static void describe(auto& v, auto& x) {
    v.need("pair", x.pair);
    v.maybe("served", x.served);
    v.maybe("left_mc", x.left);
    v.maybe("right_mc", x.right);
  }
};

template <>
struct Shape<BlindServing> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("assessor", x.assessor);
    v.need("pair", x.pair);
    v.need("sitting", x.sitting);
    v.need("place", x.place);
    v.need("of", x.of);
    v.need("left", x.left);
    v.need("right", x.right);
    v.need("first", x.first);
    v.maybe("instead_of", x.instead_of);
  }
};
template <>
struct Shape<WordMark> {
  static void describe(auto& v, auto& x) {
    v.need("word", x.word);
    v.maybe("strength", x.strength);
  }
};
template <>
struct Shape<CupMarks> {
  static void describe(auto& v, auto& x) {
    v.need("marks", x.marks);
    v.need("words", x.words);
    v.need("fault", x.fault);
    v.need("fault_note", x.fault_note);
  }
};
template <>
struct Shape<Guess> {
  static void describe(auto& v, auto& x) {
    v.need("saw_difference", x.saw_difference);
    v.maybe("present_way", x.present_way);
  }
};
template <>
struct Shape<SecondReading> {
  static void describe(auto& v, auto& x) {
    v.need("left", x.left);
    v.need("right", x.right);
    v.need("directs", x.directs);
  }
};
template <>
struct Shape<Sheet> {
  static void describe(auto& v, auto& x) {
    v.need("serving", x.serving);
    v.need("left", x.left);
    v.need("right", x.right);
    v.need("directs", x.directs);
    v.maybe("sipped_first", x.sipped_first);
    v.need("note", x.note);
    v.maybe("started", x.started);
    v.maybe("locked", x.locked);
    v.unless_empty("digest", x.digest);
    v.maybe("guess", x.guess);
    v.need("entered_by", x.entered_by);
    // Left out where there is none, so that the digests of all other sheets do not depend on it.
    v.unless_empty("second", x.second);
  }
};
template <>
struct Shape<DayState> {
  static void describe(auto& v, auto& x) {
    v.need("assessor", x.assessor);
    v.need("sitting", x.sitting);
    v.need("cold", x.cold);
    v.need("ate_lately", x.ate_lately);
    v.need("swallows", x.swallows);
    v.need("note", x.note);
    v.need("noted", x.noted);
  }
};

template <>
struct Shape<Amendment> {
  static void describe(auto& v, auto& x) {
    v.need("target", x.target);
    v.unless_empty("serving", x.serving);
    v.maybe("side", x.side);
    v.unless_empty("brew", x.brew);
    v.need("field", x.field);
    v.need("old_value", x.old_value);
    v.need("new_value", x.new_value);
    v.need("who", x.who);
    v.need("why", x.why);
    v.need("at", x.at);
  }
};
template <>
struct Shape<Void> {
  static void describe(auto& v, auto& x) {
    v.need("pair", x.pair);
    v.need("who", x.who);
    v.need("why", x.why);
    v.need("at", x.at);
    v.maybe("spare", x.spare);
  }
};
template <>
struct Shape<Exclusion> {
  static void describe(auto& v, auto& x) {
    v.need("serving", x.serving);
    v.need("who", x.who);
    v.need("why", x.why);
    v.need("at", x.at);
  }
};
template <>
struct Shape<UnmaskRecord> {
  static void describe(auto& v, auto& x) {
    v.need("at", x.at);
    v.need("who", x.who);
    v.unless_empty("sheets_digest", x.sheets_digest);
    v.need("plan_intact", x.plan_intact);
    v.need("key_intact", x.key_intact);
    v.need("sheets_intact", x.sheets_intact);
  }
};
template <>
struct Shape<AdoptedRule> {
  static void describe(auto& v, auto& x) {
    v.need("sentence", x.sentence);
    v.need("leaves", x.leaves);
    v.need("from_when", x.from_when);
    v.need("who", x.who);
    v.need("review", x.review);
    v.need("counter_checked", x.counter_checked);
    v.need("at", x.at);
    v.unless_empty("left", x.left);
    v.unless_empty("why", x.why);
  }
};
template <>
struct Shape<KeyOpening> {
  static void describe(auto& v, auto& x) {
    v.need("preparer", x.preparer);
    v.need("opened", x.opened);
    v.maybe("closed", x.closed);
  }
};

LIKELEAF_WORDS_OF(PairKind);
LIKELEAF_WORDS_OF(Direct);
LIKELEAF_WORDS_OF(Side);
LIKELEAF_WORDS_OF(EnteredBy);
LIKELEAF_CODEC_OF(KeyPair);
LIKELEAF_CODEC_OF(Key);
LIKELEAF_CODEC_OF(Stamp);
LIKELEAF_CODEC_OF(likeleaf::Reading);
LIKELEAF_CODEC_OF(Brew);
LIKELEAF_CODEC_OF(ServedPair);
LIKELEAF_CODEC_OF(BlindServing);
LIKELEAF_CODEC_OF(Mark);
LIKELEAF_CODEC_OF(Guess);
LIKELEAF_CODEC_OF(Sheet);
LIKELEAF_CODEC_OF(DayState);
LIKELEAF_CODEC_OF(Amendment);
LIKELEAF_CODEC_OF(Void);
LIKELEAF_CODEC_OF(Exclusion);
LIKELEAF_CODEC_OF(UnmaskRecord);
LIKELEAF_CODEC_OF(AdoptedRule);
LIKELEAF_CODEC_OF(KeyOpening);

}  // namespace likeleaf::codec
