#pragma once
// The full check of a book: `likeleaf check`.
#include <string>
#include <vector>

#include "core/base/result.h"

namespace SQLite {
class Database;
}

namespace likeleaf::store {

struct Health {
  int trials = 0, sealed = 0, locked_sheets = 0;  ///< what was looked at
  std::vector<Error> findings;                    ///< empty: nothing wrong
};

/// SQLite's full integrity check, foreign keys, every document read, and the three digests recomputed: each sealed plan
/// and key against the digests of the seal, each locked sheet against its own. A finding names the trial's number.
Health check_health(SQLite::Database& db);

}  // namespace likeleaf::store
