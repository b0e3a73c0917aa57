#pragma once
#include <string_view>

namespace likeleaf {

/// UTF-8 without overlong forms, surrogates or what lies beyond U+10FFFF.
bool valid_utf8(std::string_view text);

}  // namespace likeleaf
