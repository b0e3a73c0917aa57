#pragma once
// A connection of a book that keeps its statements: to prepare an INSERT is to compile its guards too, which takes many
// times as long as to run it.
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <functional>
#include <map>
#include <string>

namespace likeleaf::store {

class Connection final : public SQLite::Database {
 public:
  using SQLite::Database::Database;
  /// The statement of a text, prepared when it is asked for the first time; it may still hold the values of its last
  /// run, so it is reset before and after each. Throws SQLite::Exception.
  SQLite::Statement& statement(const char* sql);

 private:
  std::map<std::string, SQLite::Statement, std::less<>> kept_;
};

}  // namespace likeleaf::store
