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
void persist(Connection& db, const Trial* before, const Trial& after,
             const std::optional<std::string>& import_digest = {});

/// Adds or changes one record of a register.
void persist(Connection& db, const Lot& lot);
void persist(Connection& db, const Water& water);
void persist(Connection& db, const Vessel& vessel);
void persist(Connection& db, const Assessor& assessor);
void persist(Connection& db, const Attribute& attribute);

}  // namespace likeleaf::store
