#pragma once
// Files that are read only up to a stated size, and files that are written whole or not at all.
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace likeleaf::exchange {

/// The bytes of a regular file of at most `limit` bytes. The size is looked at before anything is read, and the reading
/// itself stops at the limit (a file may grow meanwhile). Errors: not_found, cannot_read (also for folders and
/// devices), too_large with the size found and the size allowed; `where` is the path.
Result<std::string> read_file_limited(const std::filesystem::path& path, std::uint64_t limit);

/// Writes a file so that `path` holds either what it held before or all of `bytes`, also after a loss of power: a
/// temporary file in the same folder, fsync, rename, fsync of the folder. On an error the temporary file is removed.
/// Errors: disk_full, read_only, cannot_write; `where` is the path, `allowed` what would have to be so.
Result<void> write_file_atomically(const std::filesystem::path& path, std::string_view bytes);

/// "32 MiB", "1.5 MiB", "800 bytes": a size for an error message.
std::string size_text(std::uint64_t bytes);

}  // namespace likeleaf::exchange
