#pragma once
// From rows to snapshots.
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/domain/attribute.h"
#include "core/domain/register.h"
#include "core/domain/trial.h"
#include "core/store/ledger.h"

namespace SQLite {
class Database;
}

namespace likeleaf::store {

/// The numbers of a book's trials as seen from one that is not among them.
struct NumbersAround {
  int lowest = 0, highest = 0;
  std::optional<int> below, above;  ///< the nearest on each side
};

/// Everything of one trial. Errors: not_found; damaged when a row does not read; what SQLite said.
Result<Trial> load_trial(SQLite::Database& db, IdOf<Trial> id);
Result<Registers> load_registers(SQLite::Database& db);
/// The house's own attributes, in the order they were added.
Result<std::vector<Attribute>> load_attributes(SQLite::Database& db);
/// The list of trials, newest first.
Result<std::vector<LedgerRow>> load_ledger(SQLite::Database& db);
/// Every trial by name, newest first.
Result<std::vector<TrialName>> load_names(SQLite::Database& db);
/// Which numbers there are around one that no trial has; nothing in a book without trials.
std::optional<NumbersAround> numbers_around(SQLite::Database& db, int number);
std::optional<IdOf<Trial>> trial_of_number(SQLite::Database& db, int number);
/// The smallest number that is free and larger than every number in use.
int next_number(SQLite::Database& db);
bool has_trial(SQLite::Database& db, IdOf<Trial> id);
/// Digest of the bundle a trial came from; nothing when it was made here.
std::optional<std::string> import_digest(SQLite::Database& db, IdOf<Trial> id);
std::vector<IdOf<Trial>> all_trials(SQLite::Database& db);

}  // namespace likeleaf::store
