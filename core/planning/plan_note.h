#pragma once
// What check() finds in a plan, as facts. core/wording/plan_note_text.h says them.
#include <cstdint>
#include <optional>
#include <string>

#include "core/base/quantity.h"
#include "core/domain/plan.h"
#include "core/planning/engine_rule.h"
#include "core/planning/one_variable.h"

namespace likeleaf {

/// The part of a plan that a note is about.
enum class PlanField {
  question,
  lever_name,
  levels,
  level,           ///< of `index`
  infusion_pour,   ///< of level `index`, infusion `sub`
  infusion_steep,  ///< the same
  infusion_water,  ///< the same
  present_way,     ///< the tick at a level
  constant,        ///< of `index`
  tolerance,       ///< of constant `index`
  leaf_dose,       ///< of a brew, wherever it is said
  water_mass,      ///< of a brew, wherever it is said
  lots,
  stock,  ///< of `lot`
  warm_up_leaf,
  reference_pair,  ///< the open one
  assessors,
  preparer,
  head_taster,
  self_blinded,
  attributes,
  margin,  ///< of `attribute`
  sip_protocol,
  rule,           ///< the if-then rule
  clause,         ///< of `index`
  clause_amount,  ///< of clause `index`: by how much
  control,        ///< of `index`
  dilution,       ///< of control `index`, a yardstick
  yardstick,      ///< what control `index` pours
  blank_pairs,
  cup_volume,
  brew_pairs,
  pairs_per_sitting,
  sittings,
  blind_codes,
  alpha,
  verdict,  ///< what the plan can say
  one_variable
};

/// A part of a plan with its index, counted from 0.
struct PlanPlace {
  PlanField field = PlanField::question;
  std::size_t index = 0;
  std::size_t sub = 0;
  IdOf<Lot> lot = {};
  std::string attribute = {};  ///< its id
  bool operator==(const PlanPlace&) const = default;
};

/// What is wrong: one enumerator a message.
enum class Wrong {
  no_question,
  // The lever.
  lever_unnamed,
  too_few_levels,  ///< count
  no_level_value,  ///< named: the label; lowest to highest
  no_level_name,
  no_level_name_or_schedule,
  equal_levels,          ///< given, or named: the label
  several_present_ways,  ///< count
  // The lever's numbers and what is held.
  out_of_range,    ///< given; lowest to highest
  unknown_record,  ///< named: the id as the plan has it
  lever_held_too,
  constant_twice,
  negative_tolerance,  ///< given
  usual_tolerance,     ///< lowest: the tolerance that is taken
  no_leaf_dose,
  no_water_mass,
  // The leaf.
  no_lots,
  lot_twice,          ///< lot
  unknown_lot,        ///< lot
  lot_outside_trial,  ///< lot
  no_warm_up,
  warm_up_in_trial,   ///< lot
  stock_not_entered,  ///< lowest: the leaf needed
  stock_too_small,    ///< given; lowest: the leaf needed
  // People.
  unknown_assessor,  ///< person
  assessor_twice,    ///< person
  no_taster,
  preparer_tastes,  ///< person
  head_tastes,      ///< person
  no_preparer,
  several_self_blinded,  ///< count
  // What is decided.
  no_attributes,
  unknown_attribute,      ///< named: the id as the plan has it
  attribute_twice,        ///< named: its id
  second_timed,           ///< named: its id
  second_banded,          ///< named: its id
  no_margin,              ///< given; lowest to highest
  margin_out_of_range,    ///< given; lowest to highest
  too_many_side_by_side,  ///< count
  rule_without_condition,
  clause_outside_plan,  ///< named: the attribute's id
  clause_not_deciding,  ///< named: the attribute's id
  clause_by_nothing,    ///< count
  unknown_level,        ///< count: the level's number, from 1
  // Controls and sittings.
  unknown_sitting,          ///< count: its number; most: how many there are
  dilution_out_of_range,    ///< given; lowest to highest
  unusual_dilution,         ///< given; lowest to highest
  brew_pairs_out_of_range,  ///< count; most
  sitting_out_of_range,     ///< count: pairs of a sitting; most
  no_cup,
  empty_sitting,         ///< count: sittings
  negative_sittings,     ///< count: sittings
  over_six_pairs,        ///< count: of the fullest sitting
  over_four_pairs,       ///< count: of the fullest sitting
  too_many_codes,        ///< count; most
  cups_not_filled,       ///< lowest: what a brew has to fill; given: what comes from it
  yardstick_not_filled,  ///< lowest: what its cups take; given: what comes from its two brews
  few_solo_pairs,        ///< count: brew pairs
  few_solo_blanks,       ///< count; most: of how many pairs
  few_solo_days,         ///< count: sittings
  // What the plan will be able to say.
  alpha_out_of_range,  ///< given; lowest to highest
  cannot_decide,       ///< forecast
  leaf_never_shown,    ///< count: lots; most: brew pairs of each; p: the smallest there is
  several_variables    ///< problem
};

/// One thing that stands in the way of a seal, or a caution beside it. Which amounts a note carries stands at its
/// enumerator.
struct PlanNote {
  enum class Weight { blocks, caution };
  Wrong wrong = Wrong::no_question;
  PlanPlace place = {};
  Weight weight = Weight::blocks;
  std::optional<Quantity> given = {};                 ///< what there is
  std::optional<Quantity> lowest = {}, highest = {};  ///< what there may be, or has to be at least
  std::int64_t count = 0;
  std::int64_t most = 0;
  IdOf<Lot> lot = {};
  IdOf<Assessor> person = {};
  std::string named = {};
  double p = 1;
  std::optional<EngineForecast> forecast = {};
  std::optional<OneVariableProblem> problem = {};
  bool operator==(const PlanNote&) const = default;
};

/// The kind of error that a note is, were its plan sealed. `missing`: nothing is there yet.
ErrorKind kind_of(Wrong wrong);

}  // namespace likeleaf
