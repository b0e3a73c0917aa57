#include "core/base/terminal_text.h"

#include <fmt/format.h>

#include <cstdint>

#include "core/base/utf8.h"

namespace likeleaf {
namespace {

std::uint32_t code_point(std::string_view sequence) {
  const auto lead = static_cast<unsigned char>(sequence[0]);
  if (sequence.size() == 1) return lead;
  std::uint32_t point = lead & (0xFFU >> (sequence.size() + 1));
  for (const char c : sequence.substr(1)) point = point << 6 | (static_cast<unsigned char>(c) & 0x3FU);
  return point;
}

bool acts_on_a_terminal(std::uint32_t point) {
  if (point < 0x20) return point != '\n';
  if (point >= 0x7F && point <= 0x9F) return true;
  if (point == 0xFFFE || point == 0xFFFF) return true;  // no characters, and no XML either
  // Line and paragraph separator; embeddings, overrides and isolates of direction.
  return (point >= 0x2028 && point <= 0x202E) || (point >= 0x2066 && point <= 0x2069);
}

template <class Instead>
std::string with(std::string_view text, Instead instead) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text, i);
    if (length == 0) {
      out += instead(0xFFFD);
      ++i;
      continue;
    }
    const auto sequence = text.substr(i, length);
    if (const auto point = code_point(sequence); acts_on_a_terminal(point))
      out += instead(point);
    else
      out += sequence;
    i += length;
  }
  return out;
}

}  // namespace

std::string terminal_text(std::string_view text) {
  return with(text, [](std::uint32_t) { return "\uFFFD"; });
}

std::string terminal_line(std::string_view text) {
  std::string out;
  for (const char c : text) out += c == '\n' || c == '\r' ? ' ' : c;
  return terminal_text(out);
}

std::string terminal_json(std::string_view json) {
  return with(json, [](std::uint32_t point) { return fmt::format("\\u{:04x}", point); });
}

}  // namespace likeleaf
