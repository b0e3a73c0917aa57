#pragma once
// One book: a SQLite file that is ours alone while it is open (one writing connection, readers beside it), and one
// plain file again after a clean close.
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/base/clock.h"
#include "core/base/entropy.h"
#include "core/base/result.h"
#include "core/domain/opening_note.h"
#include "core/store/lock.h"
#include "core/store/seams.h"

namespace SQLite {
class Database;
}

namespace likeleaf::store {

class Connection;

class Book {
 public:
  enum class Way { write, read_only };

  /// Makes a new book; refused with duplicate when the file is there already.
  static Result<std::unique_ptr<Book>> create(const std::filesystem::path& path, const Moment& now, Entropy& entropy,
                                              const Seams& seams = {});
  /// Opens one. Refused with not_found, foreign_file (text, another program's database), damaged, newer_version,
  /// in_use (value: who has it), read_only (asked to write what cannot be written). A left-over journal is recovered. A
  /// book of an older schema is copied and then climbs; one that is only read climbs in memory and stays as it is on
  /// disk. notes() says each.
  static Result<std::unique_ptr<Book>> open(const std::filesystem::path& path, Way way, const Moment& now,
                                            const Seams& seams = {});
  ~Book();
  Book(const Book&) = delete;
  Book& operator=(const Book&) = delete;

  /// Moves everything into the one file, leaves no journal beside it and gives the lock back. Errors: what SQLite said.
  Result<void> close();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// An error when the path no longer leads to the file that is open: its folder was renamed, moved or taken away. What
  /// would be written then lies where nobody looks, or nowhere.
  [[nodiscard]] Result<void> in_place() const;
  [[nodiscard]] bool read_only() const { return way_ == Way::read_only; }
  [[nodiscard]] const std::vector<OpeningNote>& notes() const { return notes_; }

  /// For the writer's thread only (and for the session before the writer starts).
  [[nodiscard]] Connection& writing();
  /// For the session's thread only.
  [[nodiscard]] SQLite::Database& reading();
  /// For the session's thread only: a connection on which SQLite itself refuses every table of the keyed side.
  Result<SQLite::Database*> blind();

  /// A copy through SQLite's backup, checked and synced before it gets its name. Refused when the name is taken
  /// (duplicate) or the disk has not the room (disk_full, with both sizes).
  Result<void> backup_to(const std::filesystem::path& copy);

 private:
  Book(std::filesystem::path path, Way way, Seams seams);
  Result<void> look(bool left_over);
  Result<void> recover(const Moment& now);
  Result<void> prepare_writing();
  Result<void> climb_with_copy();
  Result<void> climb_in_memory();
  std::unique_ptr<Connection> connect_reading() const;
  Result<void> copy_from(SQLite::Database& source, const std::filesystem::path& copy);

  std::filesystem::path path_;
  Way way_;
  Seams seams_;
  BookLock lock_;
  std::optional<FileIdentity> identity_;  ///< of the file that is open for writing
  std::unique_ptr<Connection> writing_, reading_, blind_;
  bool in_memory_ = false;  ///< what is read is a copy that climbed
  std::vector<OpeningNote> notes_;
};

}  // namespace likeleaf::store
