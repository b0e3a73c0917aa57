#pragma once
// One row of the list of trials, and a trial by name alone.
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/domain/plan.h"
#include "core/domain/trial.h"

namespace likeleaf::store {

struct TrialName {
  IdOf<Trial> id;
  int number = 0;
  std::string question;
};

struct LedgerRow {
  IdOf<Trial> id;
  int number = 0;
  std::string question;
  Lever lever;                    ///< what changes, and its levels in the plan's order
  std::vector<std::string> lots;  ///< codes
  std::vector<LeafType> leaf_types;
  std::vector<std::string> assessors;
  Stage stage = Stage::plan;
  int sheets_locked = 0, sheets = 0;  ///< those that count; left at 0 once unmasked, when all are locked
  Moment created;
  std::optional<Moment> sealed, unmasked;
  bool paper_import = false;
  bool adopted = false;
};

}  // namespace likeleaf::store
