#pragma once
// What an assessor can answer about one attribute of one cup.
#include <compare>
#include <cstdint>
#include <optional>
#include <variant>

namespace likeleaf {

/// Intensity 0 to 10 by half steps, kept as 0 to 20; it cannot be 7.3.
class Score {
 public:
  static constexpr std::optional<Score> from_halves(int halves) {
    if (halves < 0 || halves > 20) return std::nullopt;
    return Score(static_cast<std::uint8_t>(halves));
  }
  [[nodiscard]] constexpr int halves() const { return halves_; }
  auto operator<=>(const Score&) const = default;

 private:
  constexpr explicit Score(std::uint8_t halves) : halves_(halves) {}
  std::uint8_t halves_;
};

/// Time from spit or swallow of the first full sip until taste and feel have gone: whole seconds 3 to 120, or cut off.
class FinishTime {
 public:
  /// Below 3 becomes "under 3", above 120 "over 120".
  static constexpr FinishTime from_seconds(int s) { return FinishTime(s < 3 ? 0 : s > 120 ? 121 : s); }
  [[nodiscard]] constexpr bool under() const { return value_ == 0; }
  [[nodiscard]] constexpr bool over() const { return value_ == 121; }
  [[nodiscard]] constexpr bool cut_off() const { return under() || over(); }
  /// Whole seconds; 2 for "under 3" and 121 for "over 120".
  [[nodiscard]] constexpr int seconds() const { return under() ? 2 : value_; }
  auto operator<=>(const FinishTime&) const = default;

 private:
  constexpr explicit FinishTime(int value) : value_(value) {}
  int value_;
};

/// Answers that are not a score, and never a zero.
enum class NoScore { could_not_judge, not_tasted, spoilt };

using Mark = std::variant<Score, FinishTime, NoScore>;

/// The direct answer of the comparing sip.
enum class Direct { left_more, right_more, cannot_tell };

enum class Side { left, right };
constexpr Side other(Side s) {
  return s == Side::left ? Side::right : Side::left;
}

}  // namespace likeleaf
