#pragma once
// Ids are random version-4 UUIDs: time-ordered or counted ids would give away the order of brewing.
#include <array>
#include <compare>
#include <cstdint>
#include <cstring>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace likeleaf {

class Entropy;

namespace detail {
using IdBytes = std::array<std::uint8_t, 16>;
std::string id_text(const IdBytes& bytes);
std::optional<IdBytes> id_bytes(std::string_view text);
IdBytes random_id(Entropy& entropy);
}  // namespace detail

/// An id of one kind of record; IdOf<Lot> never passes for IdOf<Brew>.
template <class Record>
class IdOf {
 public:
  constexpr IdOf() = default;
  /// A fresh random id.
  static IdOf make(Entropy& entropy) { return IdOf(detail::random_id(entropy)); }
  /// Reads "8-4-4-4-12" hexadecimal text; nothing when it is not that.
  static std::optional<IdOf> parse(std::string_view text) {
    const auto bytes = detail::id_bytes(text);
    if (!bytes) return std::nullopt;
    return IdOf(*bytes);
  }
  [[nodiscard]] std::string text() const { return detail::id_text(bytes_); }
  [[nodiscard]] bool empty() const { return bytes_ == detail::IdBytes{}; }
  [[nodiscard]] const detail::IdBytes& bytes() const { return bytes_; }
  auto operator<=>(const IdOf&) const = default;

 private:
  explicit IdOf(const detail::IdBytes& bytes) : bytes_(bytes) {}
  detail::IdBytes bytes_{};
};

}  // namespace likeleaf

template <class Record>
struct std::hash<likeleaf::IdOf<Record>> {
  std::size_t operator()(const likeleaf::IdOf<Record>& id) const noexcept {
    std::size_t h = 0;
    std::memcpy(&h, id.bytes().data(), sizeof h);
    return h;
  }
};
