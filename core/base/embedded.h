#pragma once
// Text resources compiled into core (core/embed.cmake), found by their path from the project's root.
#include <optional>
#include <string_view>
#include <vector>

namespace likeleaf {

/// "resources/lexicon.json", "sample_sessions/trial-14.json", …; nothing when there is no such resource.
std::optional<std::string_view> embedded(std::string_view name);
/// All names that begin with a prefix, sorted.
std::vector<std::string_view> embedded_names(std::string_view prefix);

}  // namespace likeleaf
