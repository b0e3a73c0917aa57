#include "core/store/lock.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <pwd.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <utility>
#include <vector>

namespace likeleaf::store {

namespace {

std::string user_name() {
  passwd found{};
  passwd* result = nullptr;
  std::vector<char> room(4096);
  if (getpwuid_r(getuid(), &found, room.data(), room.size(), &result) == 0 && result != nullptr) return result->pw_name;
  return fmt::format("user {}", getuid());
}

std::string host_name() {
  std::array<char, 256> name{};
  if (gethostname(name.data(), name.size() - 1) != 0) return "this computer";
  return name.data();
}

std::string holder_text(const Moment& now) {
  return fmt::format("{} on {}, process {}, since {}", user_name(), host_name(), getpid(), iso_text(now));
}

std::string read_holder(int fd) {
  std::array<char, 512> text{};
  const ssize_t got = pread(fd, text.data(), text.size() - 1, 0);
  std::string holder(text.data(), got > 0 ? static_cast<std::size_t>(got) : 0);
  while (!holder.empty() && holder.back() == '\n') holder.pop_back();
  return holder;
}

void write_holder(int fd, const std::string& holder) {
  // Only said to people: a disk too full for it must not keep a book shut.
  if (ftruncate(fd, 0) != 0) return;
  const std::string line = holder + "\n";
  [[maybe_unused]] const ssize_t written = pwrite(fd, line.data(), line.size(), 0);
}

/// The holder before us may have taken the file away between our open and our lock; then the lock is on nothing.
bool still_there(int fd, const std::filesystem::path& path) {
  struct stat ours {
  }, theirs{};
  return fstat(fd, &ours) == 0 && stat(path.c_str(), &theirs) == 0 && ours.st_ino == theirs.st_ino &&
         ours.st_dev == theirs.st_dev;
}

}  // namespace

std::optional<FileIdentity> file_identity(const std::filesystem::path& path) {
  struct stat found {};
  if (stat(path.c_str(), &found) != 0) return std::nullopt;
  return FileIdentity{found.st_dev, found.st_ino};
}

std::filesystem::path BookLock::path_for(const std::filesystem::path& book) {
  auto path = book;
  path += ".lock";
  return path;
}

Result<BookLock> BookLock::take(const std::filesystem::path& book, Kind kind, const Moment& now) {
  const auto path = path_for(book);
  for (;;) {
    const int fd = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
    if (fd < 0)
      return fail(errno == ENOSPC ? ErrorKind::disk_full : ErrorKind::cannot_write, "lock file", std::strerror(errno),
                  "a folder that can be written to", path.string());
    BookLock lock(fd, path);
    if (flock(fd, (kind == Kind::alone ? LOCK_EX : LOCK_SH) | LOCK_NB) != 0) {
      const int problem = errno;
      const std::string holder = read_holder(fd);
      ::close(std::exchange(lock.fd_, -1));
      if (problem == EWOULDBLOCK) return fail(ErrorKind::in_use, Field::book, holder, {}, book.string());
      return fail(ErrorKind::cannot_write, "lock file", std::strerror(problem), {}, path.string());
    }
    if (!still_there(fd, path)) {
      ::close(std::exchange(lock.fd_, -1));
      continue;
    }
    write_holder(fd, holder_text(now));
    return lock;
  }
}

BookLock::BookLock(BookLock&& other) noexcept : fd_(std::exchange(other.fd_, -1)), path_(std::move(other.path_)) {}

BookLock& BookLock::operator=(BookLock&& other) noexcept {
  if (this != &other) {
    release();
    fd_ = std::exchange(other.fd_, -1);
    path_ = std::move(other.path_);
  }
  return *this;
}

void BookLock::release() {
  if (fd_ < 0) return;
  // Only the last holder may take the file away, or two processes could lock two files of one name.
  if (flock(fd_, LOCK_EX | LOCK_NB) == 0) ::unlink(path_.c_str());
  ::close(std::exchange(fd_, -1));
}

}  // namespace likeleaf::store
