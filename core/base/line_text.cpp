#include "core/base/line_text.h"

#include <algorithm>

#include "core/base/number_text.h"
#include "core/base/utf8.h"

namespace likeleaf {
namespace {

bool starts_a_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
}

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

Result<std::string> parsed(std::string_view text, std::size_t most, std::string_view field, bool lines) {
  if (!valid_utf8(text)) return fail(ErrorKind::bad_value, std::string(field), shown_value(text), "UTF-8 text");
  std::string out;
  for (const char c : text) {
    const bool space = c == ' ' || (is_control(c) && !(lines && c == '\n'));
    if (!space)
      out += c;
    else if (!out.empty() && out.back() != ' ' && out.back() != '\n')
      out += ' ';
  }
  const auto blank = [](char c) { return c == ' ' || c == '\n'; };
  while (!out.empty() && blank(out.back())) out.pop_back();
  out.erase(out.begin(), std::ranges::find_if_not(out, blank));
  const auto count = static_cast<std::size_t>(std::ranges::count_if(out, starts_a_character));
  if (count > most)
    return fail(ErrorKind::too_large, std::string(field), std::to_string(count) + " characters",
                "at most " + std::to_string(most) + " characters");
  return out;
}

}  // namespace

Result<std::string> parse_line(std::string_view text, std::size_t most, std::string_view field) {
  return parsed(text, most, field, false);
}

Result<std::string> parse_lines(std::string_view text, std::size_t most, std::string_view field) {
  return parsed(text, most, field, true);
}

}  // namespace likeleaf
