#pragma once
// Who has a book open. A file of its own beside the book ("bench.leafbook.lock") is flocked: the lock dies with the
// process. Never the book itself: SQLite's POSIX locks on it would be dropped by any other close in this process.
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "core/base/clock.h"
#include "core/base/result.h"

namespace likeleaf::store {

/// Which file a path leads to now: a file keeps it when it is renamed, another file at the same path has its own.
struct FileIdentity {
  std::uint64_t device = 0, number = 0;
  bool operator==(const FileIdentity&) const = default;
};
/// Nothing when the path leads to no file. Asks for its entry alone; the file is not opened.
std::optional<FileIdentity> file_identity(const std::filesystem::path& path);

class BookLock {
 public:
  enum class Kind {
    alone,   ///< one writer, no readers
    reading  ///< readers among themselves
  };
  /// Refused with in_use and the holder's "user on host, process 123, since 2026-03-02T13:32:10+01:00".
  static Result<BookLock> take(const std::filesystem::path& book, Kind kind, const Moment& now);
  static std::filesystem::path path_for(const std::filesystem::path& book);

  BookLock() = default;
  BookLock(BookLock&& other) noexcept;
  BookLock& operator=(BookLock&& other) noexcept;
  BookLock(const BookLock&) = delete;
  BookLock& operator=(const BookLock&) = delete;
  ~BookLock() { release(); }
  /// Gives it back; the last holder takes the file away.
  void release();
  [[nodiscard]] bool held() const { return fd_ >= 0; }

 private:
  BookLock(int fd, std::filesystem::path path) : fd_(fd), path_(std::move(path)) {}
  int fd_ = -1;
  std::filesystem::path path_;
};

}  // namespace likeleaf::store
