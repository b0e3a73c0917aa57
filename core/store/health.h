#pragma once
// The full check of a book: `likeleaf check`.
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/task.h"

namespace SQLite {
class Database;
}

namespace likeleaf::store {

struct Health {
  int trials = 0, sealed = 0, locked_sheets = 0;  ///< what was looked at
  std::vector<Error> findings;                    ///< empty: nothing wrong in what was looked at
  bool stopped = false;                           ///< not everything was looked at
};

/// SQLite's full integrity check, foreign keys, every document read, and the three digests recomputed: each sealed plan
/// and key against the digests of the seal, each locked sheet against its own. A finding names the trial's number.
/// `progress` hears the share done, and hears it again where SQLite gives no share while it looks at the file; both run
/// on the caller's thread.
Health check_health(SQLite::Database& db, const std::stop_token& stop = {}, const Progress& progress = {});

}  // namespace likeleaf::store
