#pragma once
// A file system for SQLite that forgets what was not synced. Writes go through to the real files at once, so SQLite
// reads what it wrote; beside that every file's last synced content is remembered, and power_cut() lays it down in
// another folder, as the disk would show it after the power went.
#include <filesystem>
#include <string>

namespace likeleaf::test {

/// Registers the file system (once) and returns its name for Seams::vfs. Everything remembered before is forgotten.
std::string lossy_file_system();

/// Writes the synced state of every file of `folder` into `target`. A file that was made but never synced is empty
/// there; one that was deleted is gone.
void power_cut(const std::filesystem::path& folder, const std::filesystem::path& target);

}  // namespace likeleaf::test
