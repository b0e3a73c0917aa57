#include "core/store/schema.h"

#include <fmt/format.h>

namespace likeleaf::store {

int version_of(Db& db) {
  return static_cast<int>(whole_of(db, "PRAGMA user_version").value_or(0));
}

void climb(Db& db, const Ladder& ladder) {
  // The pragma does nothing inside a transaction, so it comes before BEGIN.
  db.exec("PRAGMA foreign_keys = OFF");
  for (int version = version_of(db); version < ladder.newest(); ++version) {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    db.exec(std::string(ladder.steps[static_cast<std::size_t>(version)]));
    db.exec(fmt::format("PRAGMA application_id = {}", application_id));
    db.exec(fmt::format("PRAGMA user_version = {}", version + 1));
    if (const auto table = text_of(db, "PRAGMA foreign_key_check"))
      throw BadRow{{ErrorKind::damaged, {}, *table, "rows that belong together", {}, Field::book}};
    transaction.commit();
  }
  db.exec("PRAGMA foreign_keys = ON");
}

}  // namespace likeleaf::store
