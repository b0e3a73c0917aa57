#include "core/store/seams.h"

#include <sys/statfs.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <array>
#include <utility>

namespace likeleaf::store {

namespace {
std::filesystem::path or_here(const std::filesystem::path& folder) {
  return folder.empty() ? "." : folder;
}
}  // namespace

std::string network_drive(const std::filesystem::path& folder) {
  // Magic numbers as in statfs(2). FUSE may be a local disk too, but its locks and shared memory cannot be relied on.
  static constexpr std::array<std::pair<std::uint32_t, const char*>, 10> kinds{{{0x6969, "NFS"},
                                                                                {0x517B, "SMB"},
                                                                                {0xFF534D42, "CIFS"},
                                                                                {0xFE534D42, "SMB2"},
                                                                                {0x65735546, "FUSE"},
                                                                                {0x01021997, "9P"},
                                                                                {0x5346414F, "AFS"},
                                                                                {0x00C36400, "Ceph"},
                                                                                {0x73757245, "Coda"},
                                                                                {0x786f4256, "VirtualBox share"}}};
  struct statfs found {};
  if (statfs(or_here(folder).c_str(), &found) != 0) return {};
  const auto type = static_cast<std::uint32_t>(found.f_type);
  for (const auto& [magic, name] : kinds)
    if (type == magic) return name;
  return {};
}

bool writable(const std::filesystem::path& file) {
  const auto folder = or_here(file.parent_path());
  if (access(folder.c_str(), W_OK | X_OK) != 0) return false;
  return access(file.c_str(), F_OK) != 0 || access(file.c_str(), W_OK) == 0;
}

std::optional<std::uint64_t> free_bytes(const std::filesystem::path& folder) {
  struct statvfs found {};
  if (statvfs(or_here(folder).c_str(), &found) != 0) return std::nullopt;
  return static_cast<std::uint64_t>(found.f_bavail) * found.f_frsize;
}

}  // namespace likeleaf::store
