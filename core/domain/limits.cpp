#include "core/domain/limits.h"

#include <algorithm>

#include "core/base/line_text.h"
#include "core/base/number_text.h"
#include "core/domain/asked.h"

namespace likeleaf {
namespace {

/// Keeps the first error; where things stand is worked out for that one only.
class Limits {
 public:
  explicit Limits(std::string where) : where_(std::move(where)) {}

  /// Goes into a member of the record, for as long as the guard lives.
  class Inside {
   public:
    Inside(Limits& limits, const std::string& member) : limits_(limits), before_(limits.where_.size()) {
      limits_.where_ += "/" + member;
    }
    Inside(const Inside&) = delete;
    Inside& operator=(const Inside&) = delete;
    ~Inside() { limits_.where_.resize(before_); }

   private:
    Limits& limits_;
    std::size_t before_;
  };

  void name(const char* field, const std::string& text) { line(field, text, name_length); }
  void sentence(const char* field, const std::string& text) { line(field, text, sentence_length); }
  void paragraph(const char* field, const std::string& text) {
    if (error_) return;
    if (const auto read = parse_lines(text, paragraph_length, field); !read) refuse(read.error());
  }
  void number(const std::string& field, std::int64_t value, const Range& range, std::string shown) {
    if (!error_ && !range.holds(value))
      refuse({ErrorKind::bad_value, field, std::move(shown), std::string(range.text), {}});
  }
  void whole(const char* field, std::int64_t value, std::int64_t low, std::int64_t high) {
    const std::string allowed = std::to_string(low) + " to " + std::to_string(high);
    number(field, value, {low, high, allowed}, std::to_string(value));
  }
  void warmth(const std::string& field, Temperature value, const Range& range = any_temperature) {
    number(field, value.milli_celsius(), range, temperature_text(clamped(value), Style{}));
  }
  void mass(const std::string& field, Mass value, const Range& range = any_mass) {
    number(field, value.count(), range, mass_text(value, Style{}));
  }
  void time(const std::string& field, Duration value, const Range& range = any_duration) {
    number(field, value.count(), range, duration_text(value, Style{}));
  }
  void count(const char* field, std::size_t entries, std::size_t most) {
    if (!error_ && entries > most)
      refuse({ErrorKind::too_large, field, std::to_string(entries), "at most " + std::to_string(most), {}});
  }
  [[nodiscard]] Result<void> done() const {
    if (error_) return tl::unexpected<Error>(*error_);
    return {};
  }

 private:
  static Temperature clamped(Temperature value) {
    return Temperature(bounded(value.milli_celsius()));  // keeps the arithmetic of °F from overflowing
  }
  void line(const char* field, const std::string& text, std::size_t most) {
    if (error_) return;
    const auto read = parse_line(text, most, field);
    if (!read) refuse(read.error());
    if (read && text.find_first_of("\n\r") != std::string::npos)
      refuse({ErrorKind::bad_value, field, shown_value(text), "one line", {}});
  }
  void refuse(Error error) {
    error.where = where_;
    if (!error_) error_ = std::move(error);
  }

  std::string where_;
  std::optional<Error> error_;
};

using Inside = Limits::Inside;

std::string nth(const char* list, std::size_t index) {
  return std::string(list) + "/" + std::to_string(index);
}

void quantity(Limits& limits, const std::string& field, ConstantKind kind, std::int64_t value, PlanState state) {
  const bool sealed = state == PlanState::sealed;
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return limits.mass(field, Mass(value), sealed ? planned_mass : any_mass);
    case ConstantKind::steep_time:
      return limits.time(field, Duration(value), sealed ? planned_steep : any_duration);
    case ConstantKind::longest_hold:
      return limits.time(field, Duration(value));
    default:
      return limits.warmth(field, Temperature(value), sealed ? planned_temperature : any_temperature);
  }
}

bool is_measured(ConstantKind kind) {
  return kind == ConstantKind::leaf_dose || kind == ConstantKind::water_mass || kind == ConstantKind::steep_time ||
         kind == ConstantKind::longest_hold || kind == ConstantKind::water_temperature ||
         kind == ConstantKind::tasting_temperature;
}

void level_within(Limits& limits, const Lever& lever, const Level& level, std::size_t index, PlanState state) {
  const std::string field = "level " + std::to_string(index + 1);
  limits.name(field.c_str(), level.label);
  limits.name(field.c_str(), level.record);
  if (const auto kind = constant_of(lever.kind); kind && is_numeric(lever.kind) && level.value)
    quantity(limits, field, *kind, *level.value, state);
  limits.count("infusions", level.schedule.size(), most_infusions);
  for (const auto& infusion : level.schedule) {
    quantity(limits, field + ", water temperature", ConstantKind::water_temperature, infusion.pour.milli_celsius(),
             state);
    quantity(limits, field + ", steep time", ConstantKind::steep_time, infusion.steep.count(), state);
    quantity(limits, field + ", water mass", ConstantKind::water_mass, infusion.water.count(), state);
  }
}

void constant_within(Limits& limits, const Constant& constant, PlanState state) {
  limits.name("name of the constant", constant.name);
  limits.sentence("constant", constant.text);
  limits.name("constant", constant.record);
  if (!is_measured(constant.kind)) return;
  const std::string name = constant_name(constant.kind);
  if (constant.target) quantity(limits, name, constant.kind, *constant.target, state);
  if (!constant.tolerance) return;
  // A tolerance is a step: nothing below 0, and no wider than the widest target.
  if (constant.kind == ConstantKind::water_temperature || constant.kind == ConstantKind::tasting_temperature)
    limits.number(name + ", tolerance", *constant.tolerance, {0, planned_temperature.high, "0 to 100 °C"},
                  std::to_string(*constant.tolerance / 1000) + " °C");
  else
    quantity(limits, name + ", tolerance", constant.kind, *constant.tolerance, PlanState::draft);
}

void cup_within(Limits& limits, const CupMarks& cup) {
  limits.count("aroma words", cup.words.size(), most_cup_words);
  for (const auto& word : cup.words) {
    limits.name("aroma word", word.word);
    if (word.strength) limits.whole("strength of an aroma word", *word.strength, 1, 3);
  }
  limits.paragraph("fault note", cup.fault_note);
}

void brew_within(Limits& limits, const Brew& brew) {
  if (brew.leaf) limits.mass("leaf", *brew.leaf);
  limits.count("infusions", brew.infusions.size(), most_infusions);
  for (const auto& infusion : brew.infusions) {
    if (infusion.pour) limits.warmth("pour temperature", *infusion.pour);
    if (infusion.water) limits.mass("water", *infusion.water);
    if (infusion.steep) limits.time("steep", *infusion.steep);
  }
  for (const auto& stamp : brew.stamps)
    limits.whole("infusion of a stamp", stamp.infusion, 1, static_cast<std::int64_t>(most_infusions));
  for (const auto& reading : brew.readings) {
    limits.warmth("temperature", reading.temperature);
    limits.paragraph("place", reading.place);
  }
  if (brew.tds_permyriad) limits.whole("strength in hundredths of a per cent", *brew.tds_permyriad, 0, 10'000);
  if (brew.ph_hundredths) limits.whole("pH in hundredths", *brew.ph_hundredths, 0, 1'400);
  limits.paragraph("chilling", brew.chill);
  limits.paragraph("note", brew.note);
}

void happenings_within(Limits& limits, const Trial& trial) {
  for (std::size_t i = 0; i < trial.voids.size(); ++i) {
    const Inside inside(limits, nth("voids", i));
    limits.paragraph("who", trial.voids[i].who);
    limits.paragraph("reason", trial.voids[i].why);
  }
  for (std::size_t i = 0; i < trial.exclusions.size(); ++i) {
    const Inside inside(limits, nth("exclusions", i));
    limits.paragraph("who", trial.exclusions[i].who);
    limits.paragraph("reason", trial.exclusions[i].why);
  }
  for (std::size_t i = 0; i < trial.amendments.size(); ++i) {
    const auto& amendment = trial.amendments[i];
    const Inside inside(limits, nth("amendments", i));
    limits.sentence("field", amendment.field);
    limits.paragraph("old value", amendment.old_value);
    limits.paragraph("new value", amendment.new_value);
    limits.paragraph("who", amendment.who);
    limits.paragraph("reason", amendment.why);
  }
  if (trial.unmasked) {
    const Inside inside(limits, "unmasked");
    limits.paragraph("who", trial.unmasked->who);
  }
  if (trial.rule) {
    const Inside inside(limits, "rule");
    limits.paragraph("house rule", trial.rule->sentence);
    limits.paragraph("from when", trial.rule->from_when);
    limits.paragraph("who", trial.rule->who);
    limits.paragraph("review date", trial.rule->review);
    limits.paragraph("reason", trial.rule->why);
  }
}

}  // namespace

Range planned_range(ConstantKind kind) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return planned_mass;
    case ConstantKind::steep_time:
      return planned_steep;
    case ConstantKind::longest_hold:
      return any_duration;
    default:
      return planned_temperature;
  }
}

Result<void> within_limits(const Plan& plan, PlanState state, const std::string& where) {
  Limits limits(where);
  limits.name("house", plan.house);
  limits.sentence("question", plan.question);
  limits.whole("trial number", plan.number, 0, 1'000'000);
  limits.name("what changes", plan.lever.name);
  limits.count("levels", plan.lever.levels.size(), most_levels);
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) {
    const Inside inside(limits, nth("lever/levels", i));
    level_within(limits, plan.lever, plan.lever.levels[i], i, state);
  }
  for (std::size_t i = 0; i < plan.constants.size(); ++i) {
    const Inside inside(limits, nth("constants", i));
    constant_within(limits, plan.constants[i], state);
  }
  for (std::size_t i = 0; i < plan.attributes.size(); ++i) {
    const Inside inside(limits, nth("attributes", i));
    limits.name("attribute", plan.attributes[i].attribute);
    limits.whole("margin", plan.attributes[i].margin, 0, 1'000'000);
  }
  for (std::size_t i = 0; i < plan.controls.size(); ++i) {
    const Inside inside(limits, nth("controls", i));
    limits.whole("yardstick, dilution in parts of a thousand", plan.controls[i].dilution.count(), 0, 1000);
    limits.whole("sitting", plan.controls[i].sitting, 0, 10'000);
  }
  limits.whole("brew pairs", plan.brew_pairs, 0, 10'000);
  limits.whole("pairs a sitting", plan.pairs_per_sitting, 0, 10'000);
  limits.whole("sittings", plan.sittings, 0, 10'000);
  limits.number("cup volume", plan.cup.count(), any_volume, std::to_string(plan.cup.count() / 1000) + " ml");
  limits.whole("error rate in parts of a thousand", plan.alpha_permille, state == PlanState::sealed ? 1 : 0, 200);
  if (plan.rule) {
    limits.sentence("if-then rule", plan.rule->action);
    for (const auto& clause : plan.rule->clauses) {
      limits.name("attribute", clause.attribute);
      limits.whole("if-then rule", clause.by, 0, 1'000'000);
    }
  }
  if (plan.reference_pair) limits.paragraph("agreed words", plan.reference_pair->words);
  limits.paragraph("which sheets will not count", plan.exclusion_rule);
  limits.paragraph("notes", plan.notes);
  return limits.done();
}

Result<void> within_limits(const Registers& registers, const std::string& where) {
  Limits limits(where);
  for (std::size_t i = 0; i < registers.lots.size(); ++i) {
    const Lot& lot = registers.lots[i];
    const Inside inside(limits, nth("lots", i));
    limits.name("lot code", lot.code);
    limits.sentence("lot, name", lot.name);
    limits.sentence("cultivar", lot.cultivar);
    limits.sentence("origin", lot.origin);
    limits.sentence("harvest", lot.harvest);
    limits.sentence("allergens", lot.allergens);
    limits.paragraph("lot, notes", lot.notes);
    if (lot.moisture) limits.whole("moisture in parts of a thousand", lot.moisture->count(), 0, 1000);
    limits.mass("stock", lot.stock, {0, 100'000'000'000, "0 to 100000 kg"});
  }
  for (std::size_t i = 0; i < registers.waters.size(); ++i) {
    const Water& water = registers.waters[i];
    const Inside inside(limits, nth("waters", i));
    limits.name("water", water.name);
    limits.paragraph("water, notes", water.notes);
    for (const auto& [field, salts] : {std::pair{"hardness in mg/l", water.hardness_mg_l},
                                       {"alkalinity in mg/l", water.alkalinity_mg_l},
                                       {"dissolved solids in mg/l", water.tds_mg_l}})
      if (salts) limits.whole(field, *salts, 0, 5'000);
    if (water.ph_hundredths) limits.whole("pH in hundredths", *water.ph_hundredths, 0, 1'400);
  }
  for (std::size_t i = 0; i < registers.vessels.size(); ++i) {
    const Vessel& vessel = registers.vessels[i];
    const Inside inside(limits, nth("vessels", i));
    limits.name("vessel", vessel.name);
    limits.sentence("material", vessel.material);
    limits.paragraph("vessel, notes", vessel.notes);
    limits.mass("vessel, mass", vessel.mass);
    limits.number("vessel, volume", vessel.volume.count(), any_volume,
                  std::to_string(vessel.volume.count() / 1000) + " ml");
  }
  for (std::size_t i = 0; i < registers.assessors.size(); ++i) {
    const Inside inside(limits, nth("assessors", i));
    limits.name("assessor", registers.assessors[i].alias);
    limits.paragraph("assessor, notes", registers.assessors[i].notes);
  }
  return limits.done();
}

Result<void> within_limits(const Attribute& attribute, const std::string& where) {
  Limits limits(where);
  limits.name("attribute", attribute.id);
  limits.name("attribute", attribute.name);
  limits.name("house word", attribute.house_word);
  limits.sentence("definition", attribute.definition);
  limits.sentence("low end", attribute.low);
  limits.sentence("high end", attribute.high);
  limits.sentence("more", attribute.more);
  limits.sentence("less", attribute.less);
  limits.whole("margin", attribute.margin, 0, 1'000'000);
  return limits.done();
}

Result<void> within_limits_after_seal(const Trial& trial) {
  Limits limits({});
  std::size_t i = 0;
  for (const auto& [id, sheet] : trial.sheets) {
    const Inside inside(limits, nth("sheets", i++));
    cup_within(limits, sheet->left);
    cup_within(limits, sheet->right);
    limits.paragraph("note", sheet->note);
  }
  for (i = 0; i < trial.days.size(); ++i) {
    const Inside inside(limits, nth("days", i));
    limits.paragraph("note on the day", trial.days[i].note);
  }
  i = 0;
  for (const auto& [id, brew] : trial.brews) {
    const Inside inside(limits, nth("brews", i++));
    brew_within(limits, *brew);
  }
  i = 0;
  for (const auto& [id, served] : trial.served) {
    const Inside inside(limits, nth("served", i++));
    if (served.left) limits.warmth("left cup", *served.left);
    if (served.right) limits.warmth("right cup", *served.right);
  }
  if (trial.key) {
    const Inside inside(limits, "key");
    limits.name("generator", trial.key->generator);
    for (const auto& pair : trial.key->pairs)
      for (const auto dilution : {pair.cup_a.dilution, pair.cup_b.dilution})
        limits.whole("dilution in parts of a thousand", dilution.count(), 0, 1000);
  }
  happenings_within(limits, trial);
  return limits.done();
}

}  // namespace likeleaf
