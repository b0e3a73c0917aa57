#pragma once
// What a person typed or pasted into a blank, made fit to keep: one place for every field of text.
#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/limits.h"
#include "core/base/result.h"

namespace likeleaf {

/// One line: cut of white space at both ends, line ends, tabs and other control characters as single spaces. Every
/// script and sign is taken as it is. Errors: more than `most` characters, or bytes that are not UTF-8.
Result<std::string> parse_line(std::string_view text, std::size_t most, std::string_view field);
/// The same for text of several lines, whose line ends stay.
Result<std::string> parse_lines(std::string_view text, std::size_t most, std::string_view field);

}  // namespace likeleaf
