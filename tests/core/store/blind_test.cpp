// SQLite itself refuses the keyed side on a taster's connection.
#include "core/store/blind.h"

#include <SQLiteCpp/Database.h>
#include <sqlite3.h>

#include "tests/core/store/bench_book.h"

namespace likeleaf::test {
namespace {

TEST(BlindConnection, EveryTableThatIsNotOpenIsRefusedAndTheOpenOnesAreReadable) {
  Folder folder;
  World world;
  {
    auto session = new_bench(folder / "a.leafbook", world);
    sealed_trial(*session);
  }
  SQLite::Database db((folder / "a.leafbook").string(), SQLite::OPEN_READWRITE);
  std::vector<std::string> tables;
  sqlite3_exec(
      db.getHandle(), "SELECT name FROM sqlite_master WHERE type = 'table'",
      [](void* list, int, char** values, char**) {
        static_cast<std::vector<std::string>*>(list)->emplace_back(values[0]);
        return 0;
      },
      &tables, nullptr);
  store::make_blind(db);
  const std::set<std::string> open{"serving", "sheet", "mark", "direct", "word", "day_state", "void"};
  const auto answer = [&](const std::string& sql) {
    return sqlite3_exec(db.getHandle(), sql.c_str(), nullptr, nullptr, nullptr);
  };
  ASSERT_GT(tables.size(), 20U);
  for (const auto& table : tables)
    EXPECT_EQ(answer("SELECT * FROM " + table), open.contains(table) ? SQLITE_OK : SQLITE_AUTH) << table;
  for (const char* sql :
       {"SELECT * FROM serving WHERE pair IN (SELECT document FROM trial_key)", "SELECT name FROM sqlite_master",
        "UPDATE sheet SET note = 'x'", "DELETE FROM void", "PRAGMA table_info(brew)", "ATTACH 'x' AS x",
        "CREATE TABLE y (z)", "WITH k AS (SELECT * FROM brew) SELECT count(*) FROM k"})
    EXPECT_EQ(answer(sql), SQLITE_AUTH) << sql;
}

}  // namespace
}  // namespace likeleaf::test
