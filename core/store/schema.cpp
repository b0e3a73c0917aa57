#include "core/store/schema.h"

#include <fmt/format.h>

#include "core/base/embedded.h"

namespace likeleaf::store {

namespace {
std::string step_name(int version) {
  return fmt::format("resources/schema/{:03}.sql", version);
}
}  // namespace

int newest_version() {
  int version = 0;
  while (embedded(step_name(version + 1))) ++version;
  return version;
}

int version_of(Db& db) {
  return static_cast<int>(whole_of(db, "PRAGMA user_version").value_or(0));
}

void climb(Db& db) {
  // The pragma does nothing inside a transaction, so it comes before BEGIN.
  db.exec("PRAGMA foreign_keys = OFF");
  for (int step = version_of(db) + 1; step <= newest_version(); ++step) {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    db.exec(std::string(*embedded(step_name(step))));
    db.exec(fmt::format("PRAGMA application_id = {}", application_id));
    db.exec(fmt::format("PRAGMA user_version = {}", step));
    if (const auto table = text_of(db, "PRAGMA foreign_key_check"))
      throw BadRow{{ErrorKind::damaged, "book", *table, "rows that belong together", {}}};
    transaction.commit();
  }
  db.exec("PRAGMA foreign_keys = ON");
}

}  // namespace likeleaf::store
