#pragma once
// Bytes as hexadecimal text.
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace likeleaf {

/// Two lower-case digits a byte.
std::string hex_text(std::span<const std::uint8_t> bytes);
/// Fills `bytes` from exactly as many lower-case digits as they take; false when the text is anything else, and then
/// `bytes` is left half filled.
bool read_hex(std::string_view text, std::span<std::uint8_t> bytes);

}  // namespace likeleaf
