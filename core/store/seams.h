#pragma once
// What the store asks the system, replaceable so that a network drive, read-only media, a full disk and a lossy file
// system can be tried on any machine, and a ladder with steps that no program has yet. The defaults are the real thing.
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "core/store/ladder.h"

namespace likeleaf::store {

/// Name of the network file system a folder lies on (statfs), "" when it is a local disk.
std::string network_drive(const std::filesystem::path& folder);
/// May files in this folder be made, and this file (when it exists) be changed? Also false on a read-only mount.
bool writable(const std::filesystem::path& file);
/// Bytes free for us in a folder; nothing when the system does not say.
std::optional<std::uint64_t> free_bytes(const std::filesystem::path& folder);

struct Seams {
  std::function<std::string(const std::filesystem::path& folder)> network_drive = store::network_drive;
  std::function<bool(const std::filesystem::path& file)> writable = store::writable;
  std::function<std::optional<std::uint64_t>(const std::filesystem::path& folder)> free_bytes = store::free_bytes;
  Ladder ladder = built_in_ladder();
  std::string vfs;                   ///< SQLite's file system; empty: the default one
  std::string synchronous = "FULL";  ///< lowered only by the test that shows that a lower one loses what was kept
};

}  // namespace likeleaf::store
