#pragma once
// SHA-256 (OpenSSL EVP) over canonical text.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace likeleaf {

class Digest {
 public:
  constexpr Digest() = default;
  static Digest of(std::string_view bytes);
  static std::optional<Digest> parse(std::string_view hex);
  [[nodiscard]] std::string hex() const;  ///< 64 lower-case hexadecimal digits
  [[nodiscard]] const std::array<std::uint8_t, 32>& bytes() const { return bytes_; }
  [[nodiscard]] bool empty() const { return bytes_ == std::array<std::uint8_t, 32>{}; }
  auto operator<=>(const Digest&) const = default;

 private:
  std::array<std::uint8_t, 32> bytes_{};
};

}  // namespace likeleaf
