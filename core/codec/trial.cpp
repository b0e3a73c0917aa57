// JSON of the key, of brewing and tasting, and of what happened to a trial.
#include "core/codec/shapes.h"

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
  static json write(const std::array<std::uint8_t, 32>& bytes) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : bytes) {
      text += digits[byte >> 4];
      text += digits[byte & 15];
    }
    return text;
  }
  static Result<std::array<std::uint8_t, 32>> read(const json& value, const std::string& pointer) {
    const auto text = read_text(value, pointer);
    if (!text) return tl::unexpected<Error>(text.error());
    const auto digit = [](char c) { return c >= '0' && c <= '9' ? c - '0' : c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1; };
    const bool good =
        text->size() == 64 && std::all_of(text->begin(), text->end(), [&](char c) { return digit(c) >= 0; });
    if (!good)
      return fail(ErrorKind::malformed, pointer.substr(pointer.rfind('/') + 1), shown_value(*text),
                  "64 hexadecimal digits in lower case", pointer);
    std::array<std::uint8_t, 32> bytes{};
    for (std::size_t i = 0; i < bytes.size(); ++i)
      bytes[i] = static_cast<std::uint8_t>(digit((*text)[2 * i]) * 16 + digit((*text)[2 * i + 1]));
    return bytes;
  }
};

template <>
struct Value<Mark> {
  static json write(const Mark& mark) {
    if (const auto* score = std::get_if<Score>(&mark)) return json::object({{"half_points", score->halves()}});
    if (const auto* finish = std::get_if<FinishTime>(&mark)) return json::object({{"seconds", finish->seconds()}});
    return write_word(std::get<NoScore>(mark));
  }
  static Result<Mark> read(const json& value, const std::string& pointer) {
    if (value.is_string()) return read_word<NoScore>(value, pointer).map([](NoScore reason) { return Mark(reason); });
    ObjectReader object(value, pointer);
    std::optional<std::int64_t> halves, seconds;
    object.find_as("half_points", halves, [](const json& v, const std::string& p) { return read_whole(v, p, 0, 20); });
    object.find_as("seconds", seconds, [](const json& v, const std::string& p) { return read_whole(v, p, 2, 121); });
    if (auto done = object.done(); !done) return tl::unexpected<Error>(done.error());
    if (halves.has_value() == seconds.has_value())
      return fail(ErrorKind::malformed, pointer.substr(pointer.rfind('/') + 1), halves ? "both" : "neither",
                  "either half_points or seconds", pointer);
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

}  // namespace likeleaf::codec

namespace likeleaf {

using codec::Value;
using nlohmann::json;

json to_json(const KeyCup& cup) {
  return Value<KeyCup>::write(cup);
}
json to_json(const KeyPair& pair) {
  return Value<KeyPair>::write(pair);
}
json to_json(const PlannedBrew& brew) {
  return Value<PlannedBrew>::write(brew);
}
json to_json(const Spare& spare) {
  return Value<Spare>::write(spare);
}
json to_json(const Key& key) {
  return Value<Key>::write(key);
}
json to_json(const Stamp& stamp) {
  return Value<Stamp>::write(stamp);
}
json to_json(const Reading& reading) {
  return Value<Reading>::write(reading);
}
json to_json(const Infusion& infusion) {
  return Value<Infusion>::write(infusion);
}
json to_json(const Brew& brew) {
  return Value<Brew>::write(brew);
}
json to_json(const ServedPair& served) {
  return Value<ServedPair>::write(served);
}
json to_json(const BlindServing& serving) {
  return Value<BlindServing>::write(serving);
}
json to_json(const Mark& mark) {
  return Value<Mark>::write(mark);
}
json to_json(const WordMark& word) {
  return Value<WordMark>::write(word);
}
json to_json(const CupMarks& cup) {
  return Value<CupMarks>::write(cup);
}
json to_json(const Guess& guess) {
  return Value<Guess>::write(guess);
}
json to_json(const Sheet& sheet) {
  return Value<Sheet>::write(sheet);
}
json to_json(const DayState& day) {
  return Value<DayState>::write(day);
}
json to_json(const Amendment& amendment) {
  return Value<Amendment>::write(amendment);
}
json to_json(const Void& voided) {
  return Value<Void>::write(voided);
}
json to_json(const Exclusion& exclusion) {
  return Value<Exclusion>::write(exclusion);
}
json to_json(const UnmaskRecord& record) {
  return Value<UnmaskRecord>::write(record);
}
json to_json(const AdoptedRule& rule) {
  return Value<AdoptedRule>::write(rule);
}
json to_json(const KeyOpening& opening) {
  return Value<KeyOpening>::write(opening);
}

Result<KeyCup> read_key_cup(const json& value, const std::string& pointer) {
  return Value<KeyCup>::read(value, pointer);
}
Result<KeyPair> read_key_pair(const json& value, const std::string& pointer) {
  return Value<KeyPair>::read(value, pointer);
}
Result<PlannedBrew> read_planned_brew(const json& value, const std::string& pointer) {
  return Value<PlannedBrew>::read(value, pointer);
}
Result<Spare> read_spare(const json& value, const std::string& pointer) {
  return Value<Spare>::read(value, pointer);
}
Result<Key> read_key_value(const json& value, const std::string& pointer) {
  return Value<Key>::read(value, pointer);
}
Result<Stamp> read_stamp(const json& value, const std::string& pointer) {
  return Value<Stamp>::read(value, pointer);
}
Result<Reading> read_reading(const json& value, const std::string& pointer) {
  return Value<Reading>::read(value, pointer);
}
Result<Infusion> read_infusion(const json& value, const std::string& pointer) {
  return Value<Infusion>::read(value, pointer);
}
Result<Brew> read_brew(const json& value, const std::string& pointer) {
  return Value<Brew>::read(value, pointer);
}
Result<ServedPair> read_served_pair(const json& value, const std::string& pointer) {
  return Value<ServedPair>::read(value, pointer);
}
Result<BlindServing> read_blind_serving(const json& value, const std::string& pointer) {
  return Value<BlindServing>::read(value, pointer);
}
Result<Mark> read_mark(const json& value, const std::string& pointer) {
  return Value<Mark>::read(value, pointer);
}
Result<WordMark> read_word_mark(const json& value, const std::string& pointer) {
  return Value<WordMark>::read(value, pointer);
}
Result<CupMarks> read_cup_marks(const json& value, const std::string& pointer) {
  return Value<CupMarks>::read(value, pointer);
}
Result<Guess> read_guess(const json& value, const std::string& pointer) {
  return Value<Guess>::read(value, pointer);
}
Result<Sheet> read_sheet(const json& value, const std::string& pointer) {
  return Value<Sheet>::read(value, pointer);
}
Result<DayState> read_day_state(const json& value, const std::string& pointer) {
  return Value<DayState>::read(value, pointer);
}
Result<Amendment> read_amendment(const json& value, const std::string& pointer) {
  return Value<Amendment>::read(value, pointer);
}
Result<Void> read_void(const json& value, const std::string& pointer) {
  return Value<Void>::read(value, pointer);
}
Result<Exclusion> read_exclusion(const json& value, const std::string& pointer) {
  return Value<Exclusion>::read(value, pointer);
}
Result<UnmaskRecord> read_unmask_record(const json& value, const std::string& pointer) {
  return Value<UnmaskRecord>::read(value, pointer);
}
Result<AdoptedRule> read_adopted_rule(const json& value, const std::string& pointer) {
  return Value<AdoptedRule>::read(value, pointer);
}
Result<KeyOpening> read_key_opening(const json& value, const std::string& pointer) {
  return Value<KeyOpening>::read(value, pointer);
}

std::string word_of(StampKind kind) {
  return codec::write_word(kind);
}
std::string word_of(PairKind kind) {
  return codec::write_word(kind);
}
std::string word_of(NoScore reason) {
  return codec::write_word(reason);
}
std::string word_of(Direct answer) {
  return codec::write_word(answer);
}
std::string word_of(Side side) {
  return codec::write_word(side);
}
std::string word_of(EnteredBy by) {
  return codec::write_word(by);
}
std::string word_of(Amendment::Target target) {
  return codec::write_word(target);
}
Result<StampKind> read_stamp_kind(const json& value, const std::string& pointer) {
  return codec::read_word<StampKind>(value, pointer);
}
Result<PairKind> read_pair_kind(const json& value, const std::string& pointer) {
  return codec::read_word<PairKind>(value, pointer);
}
Result<NoScore> read_no_score(const json& value, const std::string& pointer) {
  return codec::read_word<NoScore>(value, pointer);
}
Result<Direct> read_direct(const json& value, const std::string& pointer) {
  return codec::read_word<Direct>(value, pointer);
}
Result<Side> read_side(const json& value, const std::string& pointer) {
  return codec::read_word<Side>(value, pointer);
}
Result<EnteredBy> read_entered_by(const json& value, const std::string& pointer) {
  return codec::read_word<EnteredBy>(value, pointer);
}
Result<Amendment::Target> read_amendment_target(const json& value, const std::string& pointer) {
  return codec::read_word<Amendment::Target>(value, pointer);
}

}  // namespace likeleaf
