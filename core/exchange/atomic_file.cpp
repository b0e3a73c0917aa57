#include "core/exchange/atomic_file.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <system_error>

namespace likeleaf::exchange {
namespace {

/// Closes on every way out; close errors after fsync carry no news.
class Descriptor {
 public:
  explicit Descriptor(int fd) : fd_(fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { close_now(); }
  [[nodiscard]] int get() const { return fd_; }
  [[nodiscard]] bool good() const { return fd_ >= 0; }
  int close_now() {
    const int result = fd_ >= 0 ? ::close(fd_) : 0;
    fd_ = -1;
    return result;
  }

 private:
  int fd_;
};

std::string reason(int error) {
  return std::generic_category().message(error);
}

tl::unexpected<Error> write_error(int error, const std::filesystem::path& path) {
  const std::string where = path.string();
  switch (error) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG:
      return fail(ErrorKind::disk_full, "file", path.filename().string(), "room on the disk for the whole file", where);
    case EROFS:
      return fail(ErrorKind::read_only, "file", path.filename().string(), "a place that can be written to", where);
    case ENOENT:
    case ENOTDIR:
      return fail(ErrorKind::cannot_write, "file", path.filename().string(), "a folder that exists", where);
    case EACCES:
    case EPERM:
      return fail(ErrorKind::cannot_write, "file", path.filename().string(), "a folder you may write to", where);
    case EISDIR:
      return fail(ErrorKind::cannot_write, "file", path.filename().string(), "a file, not a folder", where);
    default:
      return fail(ErrorKind::cannot_write, "file", path.filename().string(),
                  fmt::format("a file that can be written (the system says: {})", reason(error)), where);
  }
}

int write_all(int fd, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(fd, bytes.data(), bytes.size());
    if (n < 0) {
      if (errno == EINTR) continue;
      return errno;
    }
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return 0;
}

int sync_folder(const std::filesystem::path& folder) {
  const Descriptor fd(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // A folder that may be written but not listed cannot be synced; the file itself is on disk, so that is no error.
  if (!fd.good()) return errno == EACCES ? 0 : errno;
  if (::fsync(fd.get()) != 0 && errno != EINVAL) return errno;
  return 0;
}

/// A new file beside the one to be written. Made with the process's own mask, as any new file is (mkstemp would make it
/// private, and asking for the mask means setting it, which other threads would notice).
int open_beside(const std::filesystem::path& path, std::string& name) {
  static std::atomic<unsigned> counter{0};
  const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  for (int attempt = 0; attempt < 100; ++attempt) {
    name = (folder / fmt::format(".likeleaf-{}-{}.part", ::getpid(), counter++)).string();
    const int fd = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd >= 0 || errno != EEXIST) return fd;
  }
  return -1;
}

int fill(const std::string& name, int opened, std::string_view bytes, const std::filesystem::path& path) {
  Descriptor fd(opened);
  if (const int error = write_all(fd.get(), bytes)) return error;
  struct stat old {};
  if (::stat(path.c_str(), &old) == 0 && ::fchmod(fd.get(), old.st_mode & 0777) != 0) return errno;
  if (::fsync(fd.get()) != 0) return errno;
  if (fd.close_now() != 0) return errno;
  if (::rename(name.c_str(), path.c_str()) != 0) return errno;
  return 0;
}

}  // namespace

std::string size_text(std::uint64_t bytes) {
  constexpr std::uint64_t mebibyte = 1024 * 1024;
  if (bytes < mebibyte) return fmt::format("{} bytes", bytes);
  if (bytes % mebibyte == 0) return fmt::format("{} MiB", bytes / mebibyte);
  return fmt::format("{}.{} MiB", bytes / mebibyte, bytes % mebibyte * 10 / mebibyte);
}

Result<std::string> read_file_limited(const std::filesystem::path& path, std::uint64_t limit) {
  const std::string where = path.string();
  const std::string name = path.filename().string();
  // O_NONBLOCK: opening a pipe that nobody writes to must not hang.
  const Descriptor fd(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (!fd.good()) {
    if (errno == ENOENT || errno == ENOTDIR)
      return fail(ErrorKind::not_found, "file", name, "a file that exists", where);
    return fail(ErrorKind::cannot_read, "file", name,
                errno == EACCES ? "a file you may read"
                                : fmt::format("a file that can be read (the system says: {})", reason(errno)),
                where);
  }
  struct stat status {};
  if (::fstat(fd.get(), &status) != 0 || !S_ISREG(status.st_mode))
    return fail(ErrorKind::cannot_read, "file", name, "a file, not a folder or device", where);
  const auto size = static_cast<std::uint64_t>(status.st_size);
  if (size > limit) return fail(ErrorKind::too_large, "size", size_text(size), "at most " + size_text(limit), where);
  std::string bytes;
  bytes.reserve(size);
  std::array<char, 65536> part{};
  for (;;) {
    const ssize_t n = ::read(fd.get(), part.data(), part.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return fail(ErrorKind::cannot_read, "file", name, "a file that can be read to its end", where);
    if (n == 0) return bytes;
    if (bytes.size() + static_cast<std::size_t>(n) > limit)
      return fail(ErrorKind::too_large, "size", "over " + size_text(limit), "at most " + size_text(limit), where);
    bytes.append(part.data(), static_cast<std::size_t>(n));
  }
}

Result<void> write_file_atomically(const std::filesystem::path& wanted, std::string_view bytes) {
  std::error_code ignored;
  if (wanted.filename().empty() || std::filesystem::is_directory(wanted, ignored)) return write_error(EISDIR, wanted);
  // Through a symbolic link the file it points to is replaced, not the link.
  auto path =
      std::filesystem::is_symlink(wanted, ignored) ? std::filesystem::weakly_canonical(wanted, ignored) : wanted;
  if (path.empty()) path = wanted;
  std::string name;
  const int fd = open_beside(path, name);
  if (fd < 0) return write_error(errno, wanted);
  if (const int error = fill(name, fd, bytes, path)) {
    ::unlink(name.c_str());
    return write_error(error, wanted);
  }
  const auto folder = path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
  if (const int error = sync_folder(folder)) return write_error(error, wanted);
  return {};
}

}  // namespace likeleaf::exchange
