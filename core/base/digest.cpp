#include "core/base/digest.h"

#include <openssl/evp.h>

#include <stdexcept>

namespace likeleaf {

Digest Digest::of(std::string_view bytes) {
  Digest out;
  unsigned int size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), out.bytes_.data(), &size, EVP_sha256(), nullptr) != 1 || size != 32)
    throw std::runtime_error("SHA-256 is not available in the system's OpenSSL");
  return out;
}

std::optional<Digest> Digest::parse(std::string_view hex) {
  if (hex.size() != 64) return std::nullopt;
  Digest out;
  for (std::size_t i = 0; i < 64; ++i) {
    const char c = hex[i];
    int v = 0;
    if (c >= '0' && c <= '9')
      v = c - '0';
    else if (c >= 'a' && c <= 'f')
      v = c - 'a' + 10;
    else
      return std::nullopt;
    out.bytes_[i / 2] = static_cast<std::uint8_t>(out.bytes_[i / 2] << 4 | v);
  }
  return out;
}

std::string Digest::hex() const {
  static constexpr char digits[] = "0123456789abcdef";
  std::string out;
  for (const auto b : bytes_) {
    out += digits[b >> 4];
    out += digits[b & 15];
  }
  return out;
}

}  // namespace likeleaf
