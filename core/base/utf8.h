#pragma once
#include <cstddef>
#include <string_view>

namespace likeleaf {

/// UTF-8 without overlong forms, surrogates or what lies beyond U+10FFFF.
bool valid_utf8(std::string_view text);
/// Bytes of the sequence that starts at byte `at` (which must be within the text); 0 when it is none.
std::size_t utf8_length(std::string_view text, std::size_t at);

}  // namespace likeleaf
