#pragma once
// Quantities as whole numbers of one small unit each, as types that do not mix. A temperature is a point on a scale and
// a difference of temperatures is a step: ±2 °C is ±3.6 °F, while 2 °C is 35.6 °F.
#include <compare>
#include <cstdint>
#include <variant>

namespace likeleaf {

/// A whole number of the smallest unit that the tag stands for.
template <class Tag>
class Amount {
 public:
  constexpr Amount() = default;
  constexpr explicit Amount(std::int64_t count) : count_(count) {}
  [[nodiscard]] constexpr std::int64_t count() const { return count_; }
  friend constexpr Amount operator+(Amount a, Amount b) { return Amount(a.count_ + b.count_); }
  friend constexpr Amount operator-(Amount a, Amount b) { return Amount(a.count_ - b.count_); }
  friend constexpr Amount operator*(Amount a, std::int64_t k) { return Amount(a.count_ * k); }
  constexpr auto operator<=>(const Amount&) const = default;

 private:
  std::int64_t count_ = 0;
};

struct MilligramTag;
struct MicrolitreTag;
struct MillisecondTag;
struct MilliCelsiusStepTag;
struct PermilleTag;
struct HalfPointTag;
struct RatioTag;
using Mass = Amount<MilligramTag>;                    ///< milligrams
using Volume = Amount<MicrolitreTag>;                 ///< microlitres
using Duration = Amount<MillisecondTag>;              ///< milliseconds
using TemperatureStep = Amount<MilliCelsiusStepTag>;  ///< thousandths of a degree Celsius, a difference
using Permille = Amount<PermilleTag>;                 ///< thousandths
using HalfPoints = Amount<HalfPointTag>;              ///< halves of a point on a scale
using Ratio = Amount<RatioTag>;                       ///< thousandths of a factor: 1250 is ×1.25

/// A point on the temperature scale, in thousandths of a degree Celsius.
class Temperature {
 public:
  constexpr Temperature() = default;
  constexpr explicit Temperature(std::int64_t milli_celsius) : mc_(milli_celsius) {}
  [[nodiscard]] constexpr std::int64_t milli_celsius() const { return mc_; }
  friend constexpr TemperatureStep operator-(Temperature a, Temperature b) { return TemperatureStep(a.mc_ - b.mc_); }
  friend constexpr Temperature operator+(Temperature a, TemperatureStep s) { return Temperature(a.mc_ + s.count()); }
  constexpr auto operator<=>(const Temperature&) const = default;

 private:
  std::int64_t mc_ = 0;
};

/// A number together with what it measures.
using Quantity = std::variant<Mass, Volume, Duration, Temperature, TemperatureStep, Permille, HalfPoints, Ratio>;

constexpr Mass grams(std::int64_t g) {
  return Mass(g * 1000);
}
constexpr Duration seconds(std::int64_t s) {
  return Duration(s * 1000);
}
constexpr Duration minutes(std::int64_t m) {
  return Duration(m * 60000);
}
constexpr Volume millilitres(std::int64_t ml) {
  return Volume(ml * 1000);
}
constexpr Temperature celsius(std::int64_t c) {
  return Temperature(c * 1000);
}

}  // namespace likeleaf
