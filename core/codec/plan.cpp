// JSON of the registers and of the plan, open and sealed.
#include "core/codec/shape.h"
#include "core/domain/trial.h"

namespace likeleaf::codec {

// The words stand in the order of the enumerators.
template <>
struct Words<LeafType> {
  static constexpr std::array list{"white", "green", "yellow", "oolong", "black", "dark", "scented", "other"};
};
template <>
struct Words<LeafForm> {
  static constexpr std::array list{"whole", "broken", "ground", "rolled", "pressed"};
};
template <>
struct Words<Scale> {
  static constexpr std::array list{"intensity", "seconds", "register_bands"};
};
template <>
struct Words<LeverKind> {
  static constexpr std::array list{"water_temperature", "steep_time", "leaf_dose", "water",
                                   "leaf_size",         "vessel",     "agitation", "infusion_number",
                                   "brew_schedule",     "other"};
};
template <>
struct Words<ConstantKind> {
  static constexpr std::array list{"leaf_dose",    "water_mass", "water_temperature",
                                   "steep_time",   "water",      "vessel",
                                   "preheat",      "grind",      "strainer",
                                   "agitation",    "chill",      "tasting_temperature",
                                   "longest_hold", "eyes",       "rinse",
                                   "light_room",   "other"};
};
template <>
struct Words<Expectation> {
  static constexpr std::array list{"none", "more", "less", "same"};
};
template <>
struct Words<Role> {
  static constexpr std::array list{"taster", "preparer", "head"};
};
template <>
struct Words<RuleClause::Way> {
  static constexpr std::array list{"falls", "rises", "holds"};
};
template <>
struct Words<ControlKind> {
  static constexpr std::array list{"blank", "yardstick", "repeat"};
};
template <>
struct Words<ServingWay> {
  static constexpr std::array list{"holding_bath", "same_moment", "own_brews"};
};
template <>
struct Words<SipProtocol> {
  static constexpr std::array list{"cup_by_cup", "attribute_by_attribute"};
};
template <>
struct Words<Blinding> {
  static constexpr std::array list{"preparer", "self"};
};
template <>
struct Words<EnginePolicy> {
  static constexpr std::array list{"automatic", "exact_only"};
};

template <>
struct Shape<Lot> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("code", x.code);
    v.need("name", x.name);
    v.need("type", x.type);
    v.need("form", x.form);
    v.need("cultivar", x.cultivar);
    v.need("origin", x.origin);
    v.need("harvest", x.harvest);
    v.maybe("moisture_permille", x.moisture);
    v.need("stock_mg", x.stock);
    v.need("allergens", x.allergens);
    v.need("notes", x.notes);
  }
};
template <>
struct Shape<Water> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("name", x.name);
    v.maybe("hardness_mg_l", x.hardness_mg_l);
    v.maybe("alkalinity_mg_l", x.alkalinity_mg_l);
    v.maybe("tds_mg_l", x.tds_mg_l);
    v.maybe("ph_hundredths", x.ph_hundredths);
    v.need("notes", x.notes);
  }
};
template <>
struct Shape<Vessel> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("name", x.name);
    v.need("material", x.material);
    v.need("mass_mg", x.mass);
    v.need("volume_ul", x.volume);
    v.need("notes", x.notes);
  }
};
template <>
struct Shape<Assessor> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("alias", x.alias);
    v.need("notes", x.notes);
  }
};
template <>
struct Shape<Registers> {
  static void describe(auto& v, auto& x) {
    v.need("lots", x.lots);
    v.need("waters", x.waters);
    v.need("vessels", x.vessels);
    v.need("assessors", x.assessors);
  }
};
template <>
struct Shape<Attribute> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("name", x.name);
    v.need("house_word", x.house_word);
    v.need("scale", x.scale);
    v.need("definition", x.definition);
    v.need("low", x.low);
    v.need("high", x.high);
    v.need("more", x.more);
    v.need("less", x.less);
    v.need("margin", x.margin);
    v.need("direct", x.direct);
  }
};

template <>
struct Shape<InfusionPlan> {
  static void describe(auto& v, auto& x) {
    v.need("pour_mc", x.pour);
    v.need("steep_ms", x.steep);
    v.need("water_mg", x.water);
  }
};
template <>
struct Shape<Level> {
  static void describe(auto& v, auto& x) {
    v.need("label", x.label);
    v.maybe("value", x.value);
    v.need("schedule", x.schedule);
    v.need("present_way", x.present_way);
    v.unless_empty("record", x.record);
  }
};
template <>
struct Shape<Lever> {
  static void describe(auto& v, auto& x) {
    v.need("kind", x.kind);
    v.need("name", x.name);
    v.need("levels", x.levels);
  }
};
template <>
struct Shape<Constant> {
  static void describe(auto& v, auto& x) {
    v.need("kind", x.kind);
    v.need("name", x.name);
    v.maybe("target", x.target);
    v.maybe("tolerance", x.tolerance);
    v.need("text", x.text);
    v.need("record", x.record);
  }
};
template <>
struct Shape<PlanAttribute> {
  static void describe(auto& v, auto& x) {
    v.need("attribute", x.attribute);
    v.need("deciding", x.deciding);
    v.need("margin", x.margin);
    v.need("expected", x.expected);
  }
};
template <>
struct Shape<PlanAssessor> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("role", x.role);
  }
};
template <>
struct Shape<RuleClause> {
  static void describe(auto& v, auto& x) {
    v.need("attribute", x.attribute);
    v.need("way", x.way);
    v.need("by", x.by);
  }
};
template <>
struct Shape<IfThenRule> {
  static void describe(auto& v, auto& x) {
    v.need("clauses", x.clauses);
    v.need("to_level", x.to_level);
    v.need("leaves", x.leaves);
    v.need("action", x.action);
  }
};
template <>
struct Shape<Control> {
  static void describe(auto& v, auto& x) {
    v.need("kind", x.kind);
    v.need("lot", x.lot);
    v.need("level", x.level);
    v.need("sitting", x.sitting);
    v.need("dilution_permille", x.dilution);
  }
};
template <>
struct Shape<ReferenceWords> {
  static void describe(auto& v, auto& x) {
    v.need("lot", x.lot);
    v.need("words", x.words);
    v.need("held", x.held);
  }
};
template <>
struct Shape<Plan> {
  static void describe(auto& v, auto& x) {
    v.need("id", x.id);
    v.need("number", x.number);
    v.need("house", x.house);
    v.need("question", x.question);
    v.need("lever", x.lever);
    v.need("constants", x.constants);
    v.need("lots", x.lots);
    v.unless_empty("warm_up_lot", x.warm_up_lot);
    v.need("attributes", x.attributes);
    v.need("assessors", x.assessors);
    v.need("brew_pairs", x.brew_pairs);
    v.need("controls", x.controls);
    v.need("pairs_per_sitting", x.pairs_per_sitting);
    v.need("sittings", x.sittings);
    v.need("cup_ul", x.cup);
    v.need("serving_way", x.serving_way);
    v.need("sip", x.sip);
    v.need("blinding", x.blinding);
    v.need("engine", x.engine);
    v.need("alpha_permille", x.alpha_permille);
    v.need("hide_first_cup", x.hide_first_cup);
    v.need("swallow", x.swallow);
    v.maybe("rule", x.rule);
    v.maybe("reference_pair", x.reference_pair);
    v.need("exclusion_rule", x.exclusion_rule);
    v.need("notes", x.notes);
    v.maybe("follows", x.follows);
  }
};
/// The digests are left out while they are empty, so that the text the plan digest is over is this very shape.
template <>
struct Shape<SealedPlan> {
  static void describe(auto& v, auto& x) {
    v.need("plan", x.plan);
    v.need("registers", x.registers);
    v.need("attributes", x.attributes);
    v.need("sealed", x.sealed);
    v.unless_empty("plan_digest", x.plan_digest);
    v.unless_empty("key_digest", x.key_digest);
    v.need("paper_import", x.paper_import);
  }
};
/// A plan that was sealed is written as its text was kept, whatever this shape has become; only the digests, which
/// cannot be in a text that they are over, stand beside it.
template <>
struct Value<SealedPlan> {
  static json write(const SealedPlan& x) {
    if (x.text.empty()) return write_shape(x);
    json out = json::parse(x.text);
    if (!x.plan_digest.empty()) out["plan_digest"] = Value<Digest>::write(x.plan_digest);
    if (!x.key_digest.empty()) out["key_digest"] = Value<Digest>::write(x.key_digest);
    return out;
  }
  static Result<SealedPlan> read(const json& value, const std::string& pointer) {
    auto sealed = read_shape<SealedPlan>(value, pointer);
    if (!sealed) return sealed;
    json content = value;
    content.erase("plan_digest");
    content.erase("key_digest");
    sealed->text = canonical_text(content);
    return sealed;
  }
};

LIKELEAF_WORDS_OF(LeafType);
LIKELEAF_WORDS_OF(LeverKind);
LIKELEAF_CODEC_OF(std::string);
LIKELEAF_CODEC_OF(Moment);
LIKELEAF_CODEC_OF(IdOf<Lot>);
LIKELEAF_CODEC_OF(Lot);
LIKELEAF_CODEC_OF(Water);
LIKELEAF_CODEC_OF(Vessel);
LIKELEAF_CODEC_OF(Assessor);
LIKELEAF_CODEC_OF(Registers);
LIKELEAF_CODEC_OF(Attribute);
LIKELEAF_CODEC_OF(Lever);
LIKELEAF_CODEC_OF(Plan);
LIKELEAF_CODEC_OF(SealedPlan);

}  // namespace likeleaf::codec
