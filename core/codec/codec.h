#pragma once
// JSON of every value type of the domain, for the seal's canonical texts, the store's documents and the bundle. Only
// .cpp files include this header: it brings in nlohmann's.
//
// The shape: an object a struct; keys say their unit ("stock_mg"); enumerations are lower_snake words; ids are UUID
// text; moments are ISO text (stamps add "boot_ms"); numbers are whole. A field that may be absent is left out. Each
// struct is described once, and that one description writes and reads it, so that the two cannot drift apart.
//
// The reader is strict: unknown keys, missing keys, wrong types, words outside an enumeration, fractions and exponents,
// text over 100 000 bytes or not UTF-8 are refused. Error: kind missing or malformed, field = the key, value as given,
// allowed, where = the JSON pointer of the offending value.
#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/digest.h"
#include "core/base/result.h"
#include "core/domain/attribute.h"
#include "core/domain/trial.h"

namespace likeleaf {

// ---- Texts ----------------------------------------------------------------------------------------------

inline constexpr std::size_t text_limit = 100'000;                   ///< bytes of one string
inline constexpr std::int64_t number_limit = 1'000'000'000'000'000;  ///< no whole number lies further from zero
inline constexpr std::size_t list_limit = 1'000'000;                 ///< entries of one list
inline constexpr std::size_t document_limit = 32u << 20;             ///< bytes of one document
inline constexpr int depth_limit = 64;                               ///< nesting of one document

/// Canonical text: sorted keys, no spaces, UTF-8 as it is. Throws nlohmann::json::type_error on text that is not UTF-8,
/// which neither apply() nor the reader lets into a trial.
std::string canonical_text(const nlohmann::json& value);
/// Parses after checking size and depth on the bytes; keys that appear twice in one object are refused too. Errors:
/// too_large, too_deep, malformed (value names the place in bytes), `where` is left to the caller except for keys.
Result<nlohmann::json> parse_document(std::string_view text, std::size_t most_bytes = document_limit,
                                      int most_depth = depth_limit);
/// pointer + "/" + key, with "~" and "/" of the key escaped (RFC 6901).
std::string pointer_to(const std::string& pointer, std::string_view key);
std::string pointer_to(const std::string& pointer, std::size_t index);

// ---- Reading single values: each refuses what it is not, with `where` = pointer -------------------------

Result<std::string> read_text(const nlohmann::json& value, const std::string& pointer);
Result<std::int64_t> read_whole(const nlohmann::json& value, const std::string& pointer,
                                std::int64_t lowest = -number_limit, std::int64_t highest = number_limit);
Result<bool> read_bool(const nlohmann::json& value, const std::string& pointer);
Result<Moment> read_moment(const nlohmann::json& value, const std::string& pointer);  ///< ISO text; boot_ms 0
Result<Digest> read_digest(const nlohmann::json& value, const std::string& pointer);  ///< 64 hexadecimal digits
nlohmann::json to_json(const Moment& moment);
nlohmann::json to_json(const Digest& digest);

template <class Record>
nlohmann::json to_json(const IdOf<Record>& id) {
  return id.text();
}
template <class Record>
Result<IdOf<Record>> read_id(const nlohmann::json& value, const std::string& pointer) {
  const auto text = read_text(value, pointer);
  if (!text) return tl::unexpected<Error>(text.error());
  const auto id = IdOf<Record>::parse(*text);
  if (id) return *id;
  return fail(ErrorKind::malformed, pointer.substr(pointer.rfind('/') + 1), *text,
              "an id such as 0b6f3a52-7c1d-4e8f-9a20-5d3c1b7e4f66", pointer);
}

/// A list, each entry by `read_one(entry, pointer)`.
template <class ReadOne>
auto read_list(const nlohmann::json& value, const std::string& pointer, ReadOne read_one, std::size_t most = list_limit)
    -> Result<std::vector<typename decltype(read_one(value, pointer))::value_type>> {
  const std::string field = pointer.substr(pointer.rfind('/') + 1);
  if (!value.is_array()) return fail(ErrorKind::malformed, field, value.type_name(), "a list", pointer);
  if (value.size() > most)
    return fail(ErrorKind::too_large, field, std::to_string(value.size()) + " entries",
                "at most " + std::to_string(most) + " entries", pointer);
  std::vector<typename decltype(read_one(value, pointer))::value_type> list;
  list.reserve(value.size());
  for (std::size_t i = 0; i < value.size(); ++i) {
    auto one = read_one(value[i], pointer_to(pointer, i));
    if (!one) return tl::unexpected<Error>(one.error());
    list.push_back(std::move(*one));
  }
  return list;
}
template <class T>
nlohmann::json list_json(const std::vector<T>& list) {
  nlohmann::json out = nlohmann::json::array();
  for (const auto& one : list) out.push_back(to_json(one));
  return out;
}

/// An object read key by key, for envelopes that are not a domain struct. The first error stands; after it nothing more
/// is looked at. `done()` refuses keys that were never asked for.
class ObjectReader {
 public:
  ObjectReader(const nlohmann::json& value, std::string pointer);
  /// The member, or nullptr: missing is an error for need(), none for find().
  const nlohmann::json* need(const std::string& key);
  const nlohmann::json* find(const std::string& key);
  /// Pointer of a member.
  [[nodiscard]] std::string at(const std::string& key) const { return pointer_to(pointer_, key); }
  /// Takes what a read function gave; keeps its error.
  template <class T>
  void take(Result<T> got, T& into) {
    if (!got) return refuse(got.error());
    if (!error_) into = std::move(*got);
  }
  /// reader.need_as("lots", lots, [](const json& v, const std::string& p) { return read_list(v, p, read_lot); });
  template <class T, class Read>
  void need_as(const std::string& key, T& into, Read read) {
    if (const auto* member = need(key)) take<T>(read(*member, at(key)), into);
  }
  template <class T, class Read>
  void find_as(const std::string& key, std::optional<T>& into, Read read) {
    const auto* member = find(key);
    if (member == nullptr) return;
    auto got = read(*member, at(key));
    if (got)
      into = std::move(*got);
    else
      refuse(got.error());
  }
  void refuse(Error error) {
    if (!error_) error_ = std::move(error);
  }
  [[nodiscard]] bool good() const { return !error_; }
  Result<void> done();

 private:
  const nlohmann::json& value_;
  std::string pointer_;
  std::vector<std::string> asked_;
  std::optional<Error> error_;
};

// ---- Registers ------------------------------------------------------------------------------------------
nlohmann::json to_json(const Lot& lot);
nlohmann::json to_json(const Water& water);
nlohmann::json to_json(const Vessel& vessel);
nlohmann::json to_json(const Assessor& assessor);
nlohmann::json to_json(const Registers& registers);
nlohmann::json to_json(const Attribute& attribute);
Result<Lot> read_lot(const nlohmann::json& value, const std::string& pointer);
Result<Water> read_water(const nlohmann::json& value, const std::string& pointer);
Result<Vessel> read_vessel(const nlohmann::json& value, const std::string& pointer);
Result<Assessor> read_assessor(const nlohmann::json& value, const std::string& pointer);
Result<Registers> read_registers(const nlohmann::json& value, const std::string& pointer);
Result<Attribute> read_attribute(const nlohmann::json& value, const std::string& pointer);

// ---- Plan -----------------------------------------------------------------------------------------------
nlohmann::json to_json(const InfusionPlan& infusion);
nlohmann::json to_json(const Level& level);
nlohmann::json to_json(const Lever& lever);
nlohmann::json to_json(const Constant& constant);
nlohmann::json to_json(const PlanAttribute& attribute);
nlohmann::json to_json(const PlanAssessor& assessor);
nlohmann::json to_json(const RuleClause& clause);
nlohmann::json to_json(const IfThenRule& rule);
nlohmann::json to_json(const Control& control);
nlohmann::json to_json(const ReferenceWords& words);
nlohmann::json to_json(const Plan& plan);
/// With "plan_digest" and "key_digest" (plan_text() leaves both out).
nlohmann::json to_json(const SealedPlan& sealed);
Result<InfusionPlan> read_infusion_plan(const nlohmann::json& value, const std::string& pointer);
Result<Level> read_level(const nlohmann::json& value, const std::string& pointer);
Result<Lever> read_lever(const nlohmann::json& value, const std::string& pointer);
Result<Constant> read_constant(const nlohmann::json& value, const std::string& pointer);
Result<PlanAttribute> read_plan_attribute(const nlohmann::json& value, const std::string& pointer);
Result<PlanAssessor> read_plan_assessor(const nlohmann::json& value, const std::string& pointer);
Result<RuleClause> read_rule_clause(const nlohmann::json& value, const std::string& pointer);
Result<IfThenRule> read_if_then_rule(const nlohmann::json& value, const std::string& pointer);
Result<Control> read_control(const nlohmann::json& value, const std::string& pointer);
Result<ReferenceWords> read_reference_words(const nlohmann::json& value, const std::string& pointer);
Result<Plan> read_plan(const nlohmann::json& value, const std::string& pointer);
Result<SealedPlan> read_sealed_plan(const nlohmann::json& value, const std::string& pointer);

// ---- Key (keyed side) -----------------------------------------------------------------------------------
nlohmann::json to_json(const KeyCup& cup);
nlohmann::json to_json(const KeyPair& pair);
nlohmann::json to_json(const PlannedBrew& brew);
nlohmann::json to_json(const Spare& spare);
/// With seed and salt as hexadecimal text: for the book and the digest. A bundle carries both after unmask only.
nlohmann::json to_json(const Key& key);
Result<KeyCup> read_key_cup(const nlohmann::json& value, const std::string& pointer);
Result<KeyPair> read_key_pair(const nlohmann::json& value, const std::string& pointer);
Result<PlannedBrew> read_planned_brew(const nlohmann::json& value, const std::string& pointer);
Result<Spare> read_spare(const nlohmann::json& value, const std::string& pointer);
/// "seed" may be absent (all zero then).
Result<Key> read_key_value(const nlohmann::json& value, const std::string& pointer);

// ---- Brewing (keyed side) -------------------------------------------------------------------------------
nlohmann::json to_json(const Stamp& stamp);
nlohmann::json to_json(const Reading& reading);
nlohmann::json to_json(const Infusion& infusion);
nlohmann::json to_json(const Brew& brew);
nlohmann::json to_json(const ServedPair& served);
Result<Stamp> read_stamp(const nlohmann::json& value, const std::string& pointer);
Result<Reading> read_reading(const nlohmann::json& value, const std::string& pointer);
Result<Infusion> read_infusion(const nlohmann::json& value, const std::string& pointer);
Result<Brew> read_brew(const nlohmann::json& value, const std::string& pointer);
Result<ServedPair> read_served_pair(const nlohmann::json& value, const std::string& pointer);

// ---- Tasting (open side) --------------------------------------------------------------------------------
nlohmann::json to_json(const BlindServing& serving);
/// {"half_points":15}, {"seconds":41} (2: under 3; 121: over 120), or "could_not_judge", "not_tasted", "spoilt".
nlohmann::json to_json(const Mark& mark);
nlohmann::json to_json(const WordMark& word);
nlohmann::json to_json(const CupMarks& cup);
nlohmann::json to_json(const Guess& guess);
nlohmann::json to_json(const Sheet& sheet);
nlohmann::json to_json(const DayState& day);
Result<BlindServing> read_blind_serving(const nlohmann::json& value, const std::string& pointer);
Result<Mark> read_mark(const nlohmann::json& value, const std::string& pointer);
Result<WordMark> read_word_mark(const nlohmann::json& value, const std::string& pointer);
Result<CupMarks> read_cup_marks(const nlohmann::json& value, const std::string& pointer);
Result<Guess> read_guess(const nlohmann::json& value, const std::string& pointer);
Result<Sheet> read_sheet(const nlohmann::json& value, const std::string& pointer);
Result<DayState> read_day_state(const nlohmann::json& value, const std::string& pointer);

// ---- What happened to the trial -------------------------------------------------------------------------
nlohmann::json to_json(const Amendment& amendment);
nlohmann::json to_json(const Void& voided);
nlohmann::json to_json(const Exclusion& exclusion);
nlohmann::json to_json(const UnmaskRecord& record);
nlohmann::json to_json(const AdoptedRule& rule);
nlohmann::json to_json(const KeyOpening& opening);
Result<Amendment> read_amendment(const nlohmann::json& value, const std::string& pointer);
Result<Void> read_void(const nlohmann::json& value, const std::string& pointer);
Result<Exclusion> read_exclusion(const nlohmann::json& value, const std::string& pointer);
Result<UnmaskRecord> read_unmask_record(const nlohmann::json& value, const std::string& pointer);
Result<AdoptedRule> read_adopted_rule(const nlohmann::json& value, const std::string& pointer);
Result<KeyOpening> read_key_opening(const nlohmann::json& value, const std::string& pointer);

// ---- Words of enumerations, for columns and messages ----------------------------------------------------
std::string word_of(LeverKind kind);
std::string word_of(LeafType type);
std::string word_of(Scale scale);
std::string word_of(StampKind kind);
std::string word_of(PairKind kind);
std::string word_of(NoScore reason);
std::string word_of(Direct answer);
std::string word_of(Side side);
std::string word_of(EnteredBy by);
std::string word_of(Amendment::Target target);
Result<LeverKind> read_lever_kind(const nlohmann::json& value, const std::string& pointer);
Result<LeafType> read_leaf_type(const nlohmann::json& value, const std::string& pointer);
Result<Scale> read_scale(const nlohmann::json& value, const std::string& pointer);
Result<StampKind> read_stamp_kind(const nlohmann::json& value, const std::string& pointer);
Result<PairKind> read_pair_kind(const nlohmann::json& value, const std::string& pointer);
Result<NoScore> read_no_score(const nlohmann::json& value, const std::string& pointer);
Result<Direct> read_direct(const nlohmann::json& value, const std::string& pointer);
Result<Side> read_side(const nlohmann::json& value, const std::string& pointer);
Result<EnteredBy> read_entered_by(const nlohmann::json& value, const std::string& pointer);
Result<Amendment::Target> read_amendment_target(const nlohmann::json& value, const std::string& pointer);

}  // namespace likeleaf
