#pragma once
// The ladder of schemas: step n is resources/schema/00n.sql and takes a book from version n − 1 to n.
#include <filesystem>

#include "core/store/sql.h"

namespace likeleaf::store {

inline constexpr std::int64_t application_id = 0x4C4C4631;  ///< "LLF1"

/// The newest version this program knows: the number of embedded steps.
int newest_version();
int version_of(Db& db);
/// Climbs from the book's version to the newest, one transaction a step with the version inside it: foreign keys are
/// off while it runs and checked before each commit. Throws SQLite::Exception or BadRow; a failed step leaves the book
/// at the version before it.
void climb(Db& db);

}  // namespace likeleaf::store
