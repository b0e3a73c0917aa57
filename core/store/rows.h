#pragma once
// From snapshots to rows. What is written is the difference between two snapshots, so that one piece of code serves
// every command, its undo, and an import, and nothing is written twice.
#include <optional>
#include <string>

#include "core/domain/attribute.h"
#include "core/domain/register.h"
#include "core/domain/trial.h"
#include "core/store/sql.h"

namespace likeleaf::store {

/// Adds (before is nullptr) or changes one trial. The snapshots share the parts that did not change, and only rows of
/// parts that differ are touched. Within one trial the order is: what may still change, then locks, then the unmask,
/// since the schema's triggers guard what stands. Throws SQLite::Exception, also when a trigger refuses.
void persist(Db& db, const Trial* before, const Trial& after, const std::optional<std::string>& import_digest = {});

/// Adds or changes one record of a register.
void persist(Db& db, const Lot& lot);
void persist(Db& db, const Water& water);
void persist(Db& db, const Vessel& vessel);
void persist(Db& db, const Assessor& assessor);
void persist(Db& db, const Attribute& attribute);

/// "water temperature 88 °C against 68 °C": the lever and its levels, the present way first.
std::string changes_text(const Lever& lever);

}  // namespace likeleaf::store
