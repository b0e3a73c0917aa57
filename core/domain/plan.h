#pragma once
// A trial's plan: one question, one lever, everything else held. Saved as typed, so every field may be empty or wrong
// while it is a draft; check() in core/planning says what still stands in the way of a seal.
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/base/style.h"
#include "core/domain/attribute.h"
#include "core/domain/register.h"

namespace likeleaf {

struct Trial;

enum class LeverKind {
  water_temperature,
  steep_time,
  leaf_dose,
  water,
  leaf_size,
  vessel,
  agitation,
  infusion_number,
  brew_schedule,
  other
};
/// "water temperature", "steep time", … as screens say it.
std::string lever_name(LeverKind kind);
/// The lever's levels are numbers with a unit (temperature, time, dose) rather than labels.
bool is_numeric(LeverKind kind);

/// One infusion of a brew as planned.
struct InfusionPlan {
  Temperature pour;
  Duration steep;
  Mass water;
  bool operator==(const InfusionPlan&) const = default;
};

/// One setting of the lever.
struct Level {
  std::string label;                   ///< for labels, waters, vessels; may be empty for numbers
  std::optional<std::int64_t> value;   ///< milli-°C, ms or mg for numeric levers
  std::vector<InfusionPlan> schedule;  ///< for brew_schedule and infusion_number
  bool present_way = false;            ///< the house's way now
  std::string record = {};             ///< id text of a water or vessel, where one of the registers is the level
  bool operator==(const Level&) const = default;
};

struct Lever {
  LeverKind kind = LeverKind::water_temperature;
  std::string name;  ///< only for LeverKind::other
  std::vector<Level> levels;
  bool operator==(const Lever&) const = default;
  /// Index of the reference: the level ticked as the present way, else 0.
  [[nodiscard]] std::size_t reference() const;
};

/// What is held equal. Temperature, time and mass have a numeric target and tolerance, the others a text.
enum class ConstantKind {
  leaf_dose,            ///< mg
  water_mass,           ///< mg
  water_temperature,    ///< milli-°C
  steep_time,           ///< ms
  water,                ///< text, Water id in `record`
  vessel,               ///< text, Vessel id in `record`
  preheat,              ///< text
  grind,                ///< text: leaf size
  strainer,             ///< text
  agitation,            ///< text
  chill,                ///< text: the same way for both levels
  tasting_temperature,  ///< milli-°C; the hard limit within a pair at first sip is 1 °C
  longest_hold,         ///< ms in the lidded bath
  eyes,                 ///< text: opaque cups, lids or coloured light
  rinse,                ///< text: water, cracker
  light_room,           ///< text
  other                 ///< text, named by `name`
};
std::string constant_name(ConstantKind kind);

struct Constant {
  ConstantKind kind = ConstantKind::other;
  std::string name;                       ///< only for other
  std::optional<std::int64_t> target;     ///< in the kind's unit
  std::optional<std::int64_t> tolerance;  ///< ± in the kind's unit
  std::string text;
  std::string record;  ///< id text of a water or vessel
  bool operator==(const Constant&) const = default;
};

enum class Expectation { none, more, less, same };  ///< at the higher or not-reference level (B)

struct PlanAttribute {
  std::string attribute;
  bool deciding = false;
  std::int64_t margin = 2;  ///< as in Attribute::margin
  Expectation expected = Expectation::none;
  bool operator==(const PlanAttribute&) const = default;
};

enum class Role { taster, preparer, head };
struct PlanAssessor {
  IdOf<Assessor> id;
  Role role = Role::taster;
  bool operator==(const PlanAssessor&) const = default;
};

/// One clause of "if … then at the counter we …": what the change from the present way (reference) does.
struct RuleClause {
  std::string attribute;
  enum class Way { falls, rises, holds } way = Way::falls;
  std::int64_t by = 2;  ///< as in Attribute::margin; for holds: unused
  bool operator==(const RuleClause&) const = default;
};
struct IfThenRule {
  std::vector<RuleClause> clauses;
  std::size_t to_level = 1;       ///< the level that the house would go to
  std::vector<IdOf<Lot>> leaves;  ///< leaves named in the action: their own estimate is printed beside it
  std::string action;             ///< free: "L-12 goes to 68 °C at the counter"
  bool operator==(const IfThenRule&) const = default;
};

enum class ControlKind { blank, yardstick, repeat };
struct Control {
  ControlKind kind = ControlKind::blank;
  IdOf<Lot> lot;
  std::size_t level = 0;
  int sitting = 1;         ///< 1-based
  Permille dilution{120};  ///< yardstick only: 120 is 12 %
  bool operator==(const Control&) const = default;
};

enum class ServingWay { holding_bath, same_moment, own_brews };
enum class SipProtocol { cup_by_cup, attribute_by_attribute };
enum class Blinding { preparer, self };
enum class EnginePolicy { automatic, exact_only };  ///< exact_only: the house refuses t

struct ReferenceWords {  ///< the panel's open pair before the first sitting and what it agreed
  IdOf<Lot> lot;
  std::string words;
  bool held = false;
  bool operator==(const ReferenceWords&) const = default;
};

struct Plan {
  IdOf<Trial> id;
  int number = 1;
  std::string house;  ///< "Ferry pier counter": the report's head
  std::string question;
  Lever lever;
  std::vector<Constant> constants;
  std::vector<IdOf<Lot>> lots;
  IdOf<Lot> warm_up_lot;  ///< empty: no warm-up pair
  std::vector<PlanAttribute> attributes;
  std::vector<PlanAssessor> assessors;
  int brew_pairs = 3;  ///< of each lot (of each contrast when there are more levels)
  std::vector<Control> controls;
  int pairs_per_sitting = 4;  ///< controls included, the warm-up not
  int sittings = 0;           ///< 0: as many as are needed
  Volume cup{40000};          ///< poured into each cup
  ServingWay serving_way = ServingWay::holding_bath;
  SipProtocol sip = SipProtocol::cup_by_cup;
  Blinding blinding = Blinding::preparer;
  EnginePolicy engine = EnginePolicy::automatic;
  std::int64_t alpha_permille = 50;
  bool hide_first_cup = false;  ///< the first cup's scores are hidden until both are in
  bool swallow = false;         ///< default state: spit
  std::optional<IfThenRule> rule;
  std::optional<ReferenceWords> reference_pair;
  std::string exclusion_rule;  ///< in words: which sheets will not count
  std::string notes;
  std::optional<IdOf<Trial>> follows;  ///< the trial that this one follows up
  bool operator==(const Plan&) const = default;
};

/// Everyone with the role of taster, each once, in the plan's order.
std::vector<IdOf<Assessor>> tasters(const Plan& plan);
/// The first preparer; empty when there is none.
IdOf<Assessor> preparer(const Plan& plan);
/// The constant of a kind; nothing when the plan does not hold it.
const Constant* find_constant(const Plan& plan, ConstantKind kind);
/// The constant that a lever would be held as, were it not the lever; nothing for schedules and own levers.
std::optional<ConstantKind> constant_of(LeverKind kind);
/// A contrast: two levels of the lever, b judged against a. b is the higher level of a numeric lever, else the one that
/// is not the reference. Every level other than the reference makes one contrast with it.
struct Contrast {
  std::size_t a = 0, b = 1;
  auto operator<=>(const Contrast&) const = default;
};
std::vector<Contrast> contrasts(const Lever& lever);
/// "88 °C", "45 s", "4 g" or the level's label, else its infusions: "60 °C for 60 s, then 90 °C for 30 s"; celsius and
/// '.' only in machine files.
std::string level_text(const Lever& lever, std::size_t level, const Style& style);

}  // namespace likeleaf
