#include "core/base/id.h"

#include <algorithm>

#include "core/base/entropy.h"
#include "core/base/hex.h"

namespace likeleaf::detail {
namespace {

constexpr std::array<std::size_t, 4> dashes{8, 13, 18, 23};

}  // namespace

std::string id_text(const IdBytes& bytes) {
  std::string out = hex_text(bytes);
  for (const std::size_t at : dashes) out.insert(at, 1, '-');
  return out;
}

std::optional<IdBytes> id_bytes(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  std::array<char, 32> hex{};
  std::size_t at = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (std::ranges::find(dashes, i) == dashes.end())
      hex[at++] = c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c;
    else if (c != '-')
      return std::nullopt;
  }
  IdBytes out{};
  if (!read_hex({hex.data(), hex.size()}, out)) return std::nullopt;
  return out;
}

IdBytes random_id(Entropy& entropy) {
  IdBytes bytes{};
  entropy.fill(bytes);
  bytes[6] = static_cast<std::uint8_t>((bytes[6] & 0x0F) | 0x40);
  bytes[8] = static_cast<std::uint8_t>((bytes[8] & 0x3F) | 0x80);
  return bytes;
}

}  // namespace likeleaf::detail
