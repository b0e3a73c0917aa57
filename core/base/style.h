#pragma once
// How numbers are shown to one reader. Machine files never use it.

namespace likeleaf {

enum class TemperatureUnit { celsius, fahrenheit };

struct Style {
  TemperatureUnit temperature = TemperatureUnit::celsius;
  char decimal_mark = '.';  ///< '.' or ','
  bool operator==(const Style&) const = default;
};

}  // namespace likeleaf
