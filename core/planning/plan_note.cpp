#include "core/planning/plan_note.h"

namespace likeleaf {

ErrorKind kind_of(Wrong wrong) {
  switch (wrong) {
    case Wrong::no_question:
    case Wrong::lever_unnamed:
    case Wrong::too_few_levels:
    case Wrong::no_level_value:
    case Wrong::no_level_name:
    case Wrong::no_level_name_or_schedule:
    case Wrong::usual_tolerance:
    case Wrong::no_leaf_dose:
    case Wrong::no_water_mass:
    case Wrong::no_lots:
    case Wrong::no_warm_up:
    case Wrong::stock_not_entered:
    case Wrong::no_taster:
    case Wrong::no_preparer:
    case Wrong::no_attributes:
    case Wrong::no_margin:
    case Wrong::rule_without_condition:
      return ErrorKind::missing;
    case Wrong::equal_levels:
    case Wrong::several_present_ways:
    case Wrong::constant_twice:
    case Wrong::lot_twice:
    case Wrong::assessor_twice:
    case Wrong::attribute_twice:
      return ErrorKind::duplicate;
    case Wrong::unknown_record:
    case Wrong::unknown_lot:
    case Wrong::lot_outside_trial:
    case Wrong::unknown_assessor:
    case Wrong::unknown_attribute:
    case Wrong::clause_outside_plan:
    case Wrong::unknown_level:
    case Wrong::unknown_sitting:
      return ErrorKind::not_found;
    case Wrong::lever_held_too:
    case Wrong::preparer_tastes:
      return ErrorKind::conflict;
    case Wrong::too_many_codes:
      return ErrorKind::too_large;
    case Wrong::out_of_range:
    case Wrong::negative_tolerance:
    case Wrong::warm_up_in_trial:
    case Wrong::stock_too_small:
    case Wrong::head_tastes:
    case Wrong::several_self_blinded:
    case Wrong::second_timed:
    case Wrong::second_banded:
    case Wrong::margin_out_of_range:
    case Wrong::too_many_side_by_side:
    case Wrong::clause_not_deciding:
    case Wrong::clause_by_nothing:
    case Wrong::dilution_out_of_range:
    case Wrong::unusual_dilution:
    case Wrong::brew_pairs_out_of_range:
    case Wrong::sitting_out_of_range:
    case Wrong::no_cup:
    case Wrong::empty_sitting:
    case Wrong::negative_sittings:
    case Wrong::over_six_pairs:
    case Wrong::over_four_pairs:
    case Wrong::cups_not_filled:
    case Wrong::yardstick_not_filled:
    case Wrong::few_solo_pairs:
    case Wrong::few_solo_blanks:
    case Wrong::few_solo_days:
    case Wrong::alpha_out_of_range:
    case Wrong::cannot_decide:
    case Wrong::leaf_never_shown:
    case Wrong::several_variables:
      return ErrorKind::bad_value;
  }
  return ErrorKind::internal;
}

}  // namespace likeleaf
