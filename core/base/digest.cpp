#include "core/base/digest.h"

#include <openssl/evp.h>

#include <stdexcept>

#include "core/base/hex.h"

namespace likeleaf {

Digest Digest::of(std::string_view bytes) {
  Digest out;
  unsigned int size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), out.bytes_.data(), &size, EVP_sha256(), nullptr) != 1 || size != 32)
    throw std::runtime_error("SHA-256 is not available in the system's OpenSSL");
  return out;
}

std::optional<Digest> Digest::parse(std::string_view hex) {
  Digest out;
  if (!read_hex(hex, out.bytes_)) return std::nullopt;
  return out;
}

std::string Digest::hex() const {
  return hex_text(bytes_);
}

}  // namespace likeleaf
