#pragma once
// Thin helpers over SQLiteCpp for .cpp files of the store.
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/base/result.h"
#include "core/store/connection.h"

namespace likeleaf::store {

using Db = SQLite::Database;

/// A row that does not read: our own books are checked on opening, so this is damage.
struct BadRow {
  Error error;
};

template <std::integral T>
void bind_one(SQLite::Statement& s, int i, T v) {
  s.bind(i, static_cast<std::int64_t>(v));
}
inline void bind_one(SQLite::Statement& s, int i, const std::string& v) {
  s.bind(i, v);
}
inline void bind_one(SQLite::Statement& s, int i, std::string_view v) {
  s.bind(i, std::string(v));
}
inline void bind_one(SQLite::Statement& s, int i, const char* v) {
  s.bind(i, v);
}
inline void bind_one(SQLite::Statement& s, int i, const Moment& v) {
  s.bind(i, iso_text(v));
}
template <class R>
void bind_one(SQLite::Statement& s, int i, const IdOf<R>& v) {
  s.bind(i, v.text());
}
template <class T>
void bind_one(SQLite::Statement& s, int i, const std::optional<T>& v) {
  if (v)
    bind_one(s, i, *v);
  else
    s.bind(i);
}

template <class... Values>
void bind_all(SQLite::Statement& s, const Values&... values) {
  [[maybe_unused]] int i = 0;
  (bind_one(s, ++i, values), ...);
}
template <class... Values>
SQLite::Statement bound(Db& db, const char* sql, const Values&... values) {
  SQLite::Statement s(db, sql);
  bind_all(s, values...);
  return s;
}
/// Runs one of the connection's statements; the number of rows changed. Throws SQLite::Exception.
template <class... Values>
int run(Connection& db, const char* sql, const Values&... values) {
  SQLite::Statement& s = db.statement(sql);
  // A statement that is left standing keeps its transaction open, so it is reset on every way out.
  struct Reset {
    SQLite::Statement& statement;
    ~Reset() { statement.tryReset(); }
  };
  s.tryReset();
  const Reset after{s};
  bind_all(s, values...);
  return s.exec();
}
/// First column of the first row; nothing when there is no row.
template <class... Values>
std::optional<std::int64_t> whole_of(Db& db, const char* sql, const Values&... values) {
  auto s = bound(db, sql, values...);
  if (!s.executeStep() || s.getColumn(0).isNull()) return std::nullopt;
  return s.getColumn(0).getInt64();
}
template <class... Values>
std::optional<std::string> text_of(Db& db, const char* sql, const Values&... values) {
  auto s = bound(db, sql, values...);
  if (!s.executeStep() || s.getColumn(0).isNull()) return std::nullopt;
  return s.getColumn(0).getString();
}

inline std::string text_at(SQLite::Statement& s, int column) {
  return s.getColumn(column).getString();
}
inline std::optional<std::string> text_or_null(SQLite::Statement& s, int column) {
  if (s.getColumn(column).isNull()) return std::nullopt;
  return s.getColumn(column).getString();
}

/// What SQLite said, as an Error: disk_full (also a size limit or a quota), cannot_write, read_only, damaged,
/// foreign_file, in_use, cannot_read or internal. `where` is the book's path.
Error error_of(const SQLite::Exception& problem, Db* db, const std::string& where);
/// Error of a raw SQLite code with the system's errno.
Error error_of_code(int extended, int system_errno, const std::string& message, const std::string& where);

}  // namespace likeleaf::store
