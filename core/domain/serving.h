#pragma once
// The open side: what a taster may know. No lot, level, brew or kind of pair; key.h and brew.h are not included here.
#include <compare>
#include <cstdint>
#include <optional>
#include <string>

#include "core/base/id.h"
#include "core/domain/register.h"
#include "core/domain/score.h"

namespace likeleaf {

/// Three digits, no leading zero.
class BlindCode {
 public:
  static constexpr std::optional<BlindCode> from(int n) {
    if (n < 100 || n > 999) return std::nullopt;
    return BlindCode(static_cast<std::uint16_t>(n));
  }
  [[nodiscard]] constexpr int number() const { return n_; }
  [[nodiscard]] std::string text() const { return std::to_string(static_cast<int>(n_)); }
  auto operator<=>(const BlindCode&) const = default;

 private:
  constexpr explicit BlindCode(std::uint16_t n) : n_(n) {}
  std::uint16_t n_ = 0;
};

struct Pair;     // tag of ids
struct Serving;  // tag of ids

/// One pair in front of one assessor.
struct BlindServing {
  IdOf<Serving> id;
  IdOf<Assessor> assessor;
  IdOf<Pair> pair;
  int sitting = 1;  ///< 1-based
  int place = 1;    ///< in the sitting, 1-based over the counted and control pairs; 0 is the warm-up
  int of = 1;       ///< pairs in that sitting, the warm-up not counted
  BlindCode left, right;
  Side first = Side::left;               ///< which cup the plan asks to be sipped first
  std::optional<IdOf<Pair>> instead_of;  ///< set on the pair that replaces a voided one
  bool operator==(const BlindServing&) const = default;
};

}  // namespace likeleaf
