#pragma once
// Reads a bundle, whole or not at all.
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "core/acts/trial_import.h"
#include "core/base/result.h"

namespace likeleaf::exchange {

inline constexpr std::uint64_t bundle_size_limit = 32ull * 1024 * 1024;  ///< bytes
inline constexpr int bundle_depth_limit = 64;

/// Reads and checks a bundle. Size and depth are looked at on the bytes before anything is built from them. Refused:
/// what is not JSON or not a bundle (malformed), a newer version, unknown or missing keys and values outside their
/// range (with their JSON pointer), records that refer to records that are not there, codes and ids used twice, an
/// unmasked trial with open sheets, a key in a trial that is not unmasked, and content that does not match its digests
/// (damaged; a digest that the unmask record itself says was broken is let pass, as it is the home bench's own
/// finding). `file` is put in front of the errors' `where`; it may be empty.
Result<TrialImport> read_bundle(std::string_view text, const std::string& file = {});

/// The same from a file, which is not read when it is too large.
Result<TrialImport> read_bundle_file(const std::filesystem::path& path);

/// The rules between records, on a trial that was read or built by hand: see read_bundle(). `where` is a JSON pointer
/// into the bundle's "trial".
Result<void> check_import(const TrialImport& import);

}  // namespace likeleaf::exchange
