#include "core/store/sql.h"

#include <sqlite3.h>

#include <cerrno>

namespace likeleaf::store {

Error error_of_code(int extended, int system_errno, const std::string& message, const std::string& where) {
  const int code = extended & 0xFF;
  const bool no_room = system_errno == ENOSPC || system_errno == EDQUOT || system_errno == EFBIG;
  ErrorKind kind = ErrorKind::internal;
  switch (code) {
    case SQLITE_FULL:
      kind = ErrorKind::disk_full;
      break;
    case SQLITE_IOERR:
      // A write that is refused without a fault of the device met a limit of size or quota; the number that the system
      // gave for it is often lost on SQLite's way back.
      if (no_room || (extended == SQLITE_IOERR_WRITE && system_errno != EIO))
        kind = ErrorKind::disk_full;
      else
        kind = extended == SQLITE_IOERR_READ || extended == SQLITE_IOERR_SHORT_READ ? ErrorKind::cannot_read
                                                                                    : ErrorKind::cannot_write;
      break;
    case SQLITE_READONLY:
      kind = ErrorKind::read_only;
      break;
    case SQLITE_CORRUPT:
      kind = ErrorKind::damaged;
      break;
    case SQLITE_NOTADB:
      kind = ErrorKind::foreign_file;
      break;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      kind = ErrorKind::in_use;
      break;
    case SQLITE_CANTOPEN:
      kind = no_room ? ErrorKind::disk_full : ErrorKind::cannot_read;
      break;
    case SQLITE_PERM:
    case SQLITE_AUTH:
      kind = ErrorKind::not_allowed;
      break;
    default:
      break;
  }
  return Error{kind, {}, kind == ErrorKind::internal ? message : std::string(), {}, where, Field::book};
}

Error error_of(const SQLite::Exception& problem, Db* db, const std::string& where) {
  const int system_errno = db != nullptr ? sqlite3_system_errno(db->getHandle()) : 0;
  int extended = problem.getExtendedErrorCode();
  if (extended <= 0) extended = problem.getErrorCode();
  return error_of_code(extended, system_errno, problem.what(), where);
}

}  // namespace likeleaf::store
