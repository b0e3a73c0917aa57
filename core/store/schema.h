#pragma once
// A book's schema: which version it is, and the climb to a newer one.
#include "core/store/ladder.h"
#include "core/store/sql.h"

namespace likeleaf::store {

inline constexpr std::int64_t application_id = 0x4C4C4631;  ///< "LLF1"

int version_of(Db& db);
/// Climbs from the book's version to the ladder's newest, one transaction a step with the version inside it: foreign
/// keys are off while it runs and checked before each commit. Throws SQLite::Exception or BadRow; a failed step leaves
/// the book at the version before it.
void climb(Db& db, const Ladder& ladder);

}  // namespace likeleaf::store
