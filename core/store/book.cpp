#include "core/store/book.h"

#include <SQLiteCpp/Backup.h>
#include <fmt/format.h>

#include <system_error>

#include "core/store/blind.h"
#include "core/store/schema.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace fs = std::filesystem;

namespace {

constexpr int busy_ms = 10000;

fs::path beside(const fs::path& book, const char* ending) {
  auto path = book;
  path += ending;
  return path;
}

bool has_bytes(const fs::path& file) {
  std::error_code problem;
  const auto size = fs::file_size(file, problem);
  return !problem && size > 0;
}

bool journal_left(const fs::path& book) {
  return has_bytes(beside(book, "-wal")) || has_bytes(beside(book, "-journal"));
}

/// A path as the path part of a file: URI.
std::string uri_of(const fs::path& path, const char* query) {
  std::string uri = "file:";
  for (const char c : path.string()) {
    if (c == '%' || c == '?' || c == '#')
      uri += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    else
      uri += c;
  }
  return uri + query;
}

std::unique_ptr<Connection> connect(const std::string& name, int flags, const Seams& seams) {
  auto db = std::make_unique<Connection>(name, flags, busy_ms, seams.vfs);
  db->exec("PRAGMA trusted_schema = OFF");
  db->exec("PRAGMA cell_size_check = ON");
  return db;
}

/// Sets a pragma and makes sure that SQLite did it: it answers with what holds, not with an error.
Result<void> set_pragma(Db& db, const char* name, const std::string& value, const std::string& expected) {
  db.exec(fmt::format("PRAGMA {} = {}", name, value));
  const auto now = text_of(db, fmt::format("PRAGMA {}", name).c_str());
  if (now == expected) return {};
  return fail(ErrorKind::internal, name, now.value_or("nothing"), expected);
}

/// Errors: damaged, with what SQLite's check of the whole file said first.
Result<void> whole(Db& db, const char* what, const fs::path& path) {
  const auto verdict = text_of(db, "PRAGMA integrity_check(1)").value_or("no answer");
  if (verdict == "ok") return {};
  return fail(ErrorKind::damaged, what, verdict, {}, path.string());
}

std::unique_ptr<Connection> copy_in_memory(Db& source) {
  auto copy = std::make_unique<Connection>(":memory:", SQLite::OPEN_READWRITE);
  copy->exec("PRAGMA trusted_schema = OFF");
  SQLite::Backup(*copy, source).executeStep();
  return copy;
}

std::string synchronous_number(const std::string& word) {
  return word == "OFF" ? "0" : word == "NORMAL" ? "1" : "2";
}

/// Runs work and turns SQLite's exceptions into errors.
template <class Work>
Result<void> guarded(Db* db, const fs::path& path, Work work) {
  try {
    return work();
  } catch (const SQLite::Exception& problem) {
    return tl::unexpected<Error>(error_of(problem, db, path.string()));
  } catch (BadRow& bad) {
    bad.error.where = path.string();
    return tl::unexpected<Error>(std::move(bad.error));
  }
}

}  // namespace

Book::Book(fs::path path, Way way, Seams seams) : path_(std::move(path)), way_(way), seams_(std::move(seams)) {}

Book::~Book() {
  [[maybe_unused]] const auto closed = close();
}

Result<std::unique_ptr<Book>> Book::create(const fs::path& path, const Moment& now, Entropy& entropy,
                                           const Seams& seams) {
  std::error_code problem;
  const auto folder = path.has_parent_path() ? path.parent_path() : fs::path(".");
  if (!fs::is_directory(folder, problem))
    return fail(ErrorKind::not_found, "folder", folder.string(), "a folder that exists", path.string());
  if (!seams.writable(path))
    return fail(ErrorKind::read_only, Field::book, {}, "a folder that can be written to", path.string());
  std::unique_ptr<Book> book(new Book(path, Way::write, seams));
  auto lock = BookLock::take(path, BookLock::Kind::alone, now);
  if (!lock) return tl::unexpected<Error>(lock.error());
  book->lock_ = std::move(*lock);
  if (fs::exists(path, problem))
    return fail(ErrorKind::duplicate, Field::book, path.filename().string(), "a name that is not taken", path.string());
  const auto made = guarded(nullptr, path, [&]() -> Result<void> {
    book->writing_ = connect(path.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, seams);
    climb(*book->writing_, seams.ladder);
    run(*book->writing_, "INSERT INTO book (one, id, created, made_by) VALUES (1, ?, ?, 'Likeleaf')",
        IdOf<Book>::make(entropy), now);
    if (auto ready = book->prepare_writing(); !ready) return ready;
    book->reading_ = book->connect_reading();
    return {};
  });
  if (!made) {
    // Half a book helps nobody, and it is ours: it was not there before.
    book->writing_.reset();
    for (const char* ending : {"", "-wal", "-shm", "-journal"}) fs::remove(beside(path, ending), problem);
    return tl::unexpected<Error>(made.error());
  }
  return book;
}

Result<std::unique_ptr<Book>> Book::open(const fs::path& path, Way way, const Moment& now, const Seams& seams) {
  std::error_code problem;
  if (!fs::exists(path, problem))
    return fail(ErrorKind::not_found, Field::book, path.filename().string(), {}, path.string());
  if (!fs::is_regular_file(path, problem))
    return fail(ErrorKind::foreign_file, Field::book, path.filename().string(), "a Likeleaf book", path.string());
  const bool can_write = seams.writable(path);
  if (way == Way::write && !can_write) return fail(ErrorKind::read_only, Field::book, {}, {}, path.string());
  std::unique_ptr<Book> book(new Book(path, way, seams));
  // The lock comes before the first look: nobody in this process may have the file open while we touch it.
  if (can_write) {
    auto lock = BookLock::take(path, way == Way::write ? BookLock::Kind::alone : BookLock::Kind::reading, now);
    if (!lock) return tl::unexpected<Error>(lock.error());
    book->lock_ = std::move(*lock);
  }
  const bool left_over = journal_left(path);
  if (left_over && !can_write)
    return fail(ErrorKind::read_only, Field::book, "not closed cleanly", "a copy in a folder that can be written to",
                path.string());
  if (left_over && way == Way::read_only)
    if (auto recovered = book->recover(now); !recovered) return tl::unexpected<Error>(recovered.error());
  const auto ready = guarded(nullptr, path, [&]() -> Result<void> {
    if (way == Way::read_only) {
      book->reading_ = book->connect_reading();
      if (auto looked = book->look(left_over); !looked) return looked;
      return book->climb_in_memory();
    }
    book->writing_ = connect(path.string(), SQLite::OPEN_READWRITE, seams);
    if (auto looked = book->look(left_over); !looked) return looked;
    if (auto climbed = book->climb_with_copy(); !climbed) return climbed;
    if (auto prepared = book->prepare_writing(); !prepared) return prepared;
    book->reading_ = book->connect_reading();
    return {};
  });
  if (!ready) {
    Error error = ready.error();
    if (error.where.empty()) error.where = path.string();
    // A refused file stays as it was found: no change of journal mode on the way out.
    book->writing_.reset();
    book->reading_.reset();
    return tl::unexpected<Error>(std::move(error));
  }
  if (!can_write) book->notes_.push_back({OpeningNote::Kind::write_protected, path});
  return book;
}

/// Is it a book, of a version we know, and whole?
Result<void> Book::look(bool left_over) {
  Db& db = way_ == Way::write ? *writing_ : *reading_;
  const auto id = whole_of(db, "PRAGMA application_id").value_or(0);
  const int version = version_of(db);
  if (id != application_id || version < 1)
    return fail(ErrorKind::foreign_file, Field::book, path_.filename().string(), "a Likeleaf book", path_.string());
  const int newest = seams_.ladder.newest();
  if (version > newest)
    return fail(ErrorKind::newer_version, Field::book, fmt::format("version {}", version),
                fmt::format("up to version {}", newest), path_.string());
  if (!whole_of(db, "SELECT one FROM book"))
    return fail(ErrorKind::damaged, Field::book, "its first page says nothing", {}, path_.string());
  if (!left_over) return {};
  // After an unclean end the whole file is checked once.
  if (auto sound = whole(db, "book", path_); !sound) return sound;
  notes_.push_back({OpeningNote::Kind::recovered, path_});
  return {};
}

/// A reader may not replay a journal: someone who may write does it first, alone, and changes nothing else.
Result<void> Book::recover(const Moment& now) {
  lock_.release();
  Book alone(path_, Way::write, seams_);
  auto taken = BookLock::take(path_, BookLock::Kind::alone, now);
  if (!taken) return tl::unexpected<Error>(taken.error());
  alone.lock_ = std::move(*taken);
  const auto replayed = guarded(nullptr, path_, [&]() -> Result<void> {
    alone.writing_ = connect(path_.string(), SQLite::OPEN_READWRITE, seams_);
    return alone.look(true);
  });
  if (!replayed) {
    // A refused file stays as it was found.
    alone.writing_.reset();
    return replayed;
  }
  if (auto closed = alone.close(); !closed) return closed;
  auto lock = BookLock::take(path_, BookLock::Kind::reading, now);
  if (!lock) return tl::unexpected<Error>(lock.error());
  lock_ = std::move(*lock);
  return {};
}

Result<void> Book::prepare_writing() {
  identity_ = file_identity(path_);
  Connection& db = *writing_;
  const std::string drive = seams_.network_drive(path_.parent_path());
  if (!drive.empty()) notes_.push_back({OpeningNote::Kind::network_drive, path_, drive});
  const std::string wanted = drive.empty() ? "wal" : "delete";
  const auto got = text_of(db, fmt::format("PRAGMA journal_mode = {}", wanted).c_str()).value_or("");
  if (got != wanted) return fail(ErrorKind::cannot_write, "journal", got, wanted, path_.string());
  // The journal is opened by the first read; a checkpoint before it is refused as locked, and the close with it.
  whole_of(db, "SELECT one FROM book");
  for (const auto& [name, value, expected] :
       {std::tuple{"synchronous", seams_.synchronous, synchronous_number(seams_.synchronous)},
        std::tuple{"foreign_keys", std::string("ON"), std::string("1")},
        // Without it REPLACE takes rows away behind the delete triggers' back.
        std::tuple{"recursive_triggers", std::string("ON"), std::string("1")},
        std::tuple{"wal_autocheckpoint", std::string("0"), std::string("0")}})
    if (auto set = set_pragma(db, name, value, expected); !set) return set;
  return {};
}

Connection& Book::writing() {
  return *writing_;
}
SQLite::Database& Book::reading() {
  return *reading_;
}

/// Without the lock the file cannot be written by anybody, and SQLite may look for no journal beside it.
std::unique_ptr<Connection> Book::connect_reading() const {
  if (lock_.held()) return connect(path_.string(), SQLite::OPEN_READONLY, seams_);
  return connect(uri_of(fs::absolute(path_), "?immutable=1"), SQLite::OPEN_READONLY | SQLite::OPEN_URI, seams_);
}

Result<SQLite::Database*> Book::blind() {
  if (blind_) return blind_.get();
  const auto opened = guarded(nullptr, path_, [&]() -> Result<void> {
    blind_ = in_memory_ ? copy_in_memory(*reading_) : connect_reading();
    make_blind(*blind_);
    return {};
  });
  if (!opened) return tl::unexpected<Error>(opened.error());
  return blind_.get();
}

Result<void> Book::climb_with_copy() {
  const int version = version_of(*writing_);
  if (version == seams_.ladder.newest()) return {};
  if (auto sound = whole(*writing_, "book", path_); !sound) return sound;
  const auto copy = beside(path_, fmt::format(".version-{}", version).c_str());
  std::error_code problem;
  if (!fs::exists(copy, problem))
    if (auto copied = copy_from(*writing_, copy); !copied) return copied;
  climb(*writing_, seams_.ladder);
  notes_.push_back({OpeningNote::Kind::climbed, copy, {}, version});
  return {};
}

Result<void> Book::climb_in_memory() {
  const int version = version_of(*reading_);
  if (version == seams_.ladder.newest()) return {};
  if (auto sound = whole(*reading_, "book", path_); !sound) return sound;
  auto copy = copy_in_memory(*reading_);
  climb(*copy, seams_.ladder);
  copy->exec("PRAGMA query_only = ON");
  reading_ = std::move(copy);
  in_memory_ = true;
  notes_.push_back({OpeningNote::Kind::climbed_in_memory, path_, {}, version});
  return {};
}

Result<void> Book::in_place() const {
  if (!identity_ || file_identity(path_) == identity_) return {};
  return fail(ErrorKind::gone, Field::book, {}, {}, path_.string());
}

Result<void> Book::close() {
  blind_.reset();
  reading_.reset();
  Result<void> result;
  if (writing_) {
    result = guarded(writing_.get(), path_, [&]() -> Result<void> {
      writing_->exec("PRAGMA wal_checkpoint(TRUNCATE)");
      const auto mode = text_of(*writing_, "PRAGMA journal_mode = DELETE").value_or("");
      if (mode != "delete") return fail(ErrorKind::cannot_write, "journal", mode, "delete", path_.string());
      return {};
    });
    writing_.reset();
  }
  lock_.release();
  return result;
}

Result<void> Book::backup_to(const fs::path& copy) {
  return copy_from(*reading_, copy);
}

Result<void> Book::copy_from(Db& source, const fs::path& copy) {
  std::error_code problem;
  if (fs::exists(copy, problem))
    return fail(ErrorKind::duplicate, "copy", copy.filename().string(), "a name that is not taken", copy.string());
  const auto size = static_cast<std::uint64_t>(whole_of(source, "PRAGMA page_count").value_or(0) *
                                               whole_of(source, "PRAGMA page_size").value_or(0));
  const auto room = seams_.free_bytes(copy.parent_path());
  if (room && *room < size + (1u << 20))
    return fail(ErrorKind::disk_full, "copy", fmt::format("{} bytes free", *room),
                fmt::format("{} bytes", size + (1u << 20)), copy.string());
  const auto part = beside(copy, ".part");
  fs::remove(part, problem);
  const auto copied = guarded(nullptr, copy, [&]() -> Result<void> {
    auto target = connect(part.string(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, seams_);
    SQLite::Backup(*target, source).executeStep();
    // A copy of an open book says WAL in its head; a copy is one plain file.
    text_of(*target, "PRAGMA journal_mode = DELETE");
    return whole(*target, "copy", copy);
  });
  if (copied) fs::rename(part, copy, problem);
  if (copied && !problem) return {};
  std::error_code ignored;
  fs::remove(part, ignored);
  if (!copied) return copied;
  return fail(ErrorKind::cannot_write, "copy", problem.message(), {}, copy.string());
}

}  // namespace likeleaf::store
