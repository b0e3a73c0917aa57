#pragma once
// The one place where typed numbers are read and numbers are printed for people. No locale, no floating point while
// reading: "7,5" and "7.5" are the same whole number of tenths on every machine.
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/quantity.h"
#include "core/base/result.h"
#include "core/base/style.h"

namespace likeleaf {

inline constexpr const char* no_break_space = "\u00A0";
inline constexpr const char* minus_sign = "\u2212";

/// Reads a decimal number as a whole number of 10^-decimals. Accepts both decimal marks, a leading +, − or -, and white
/// space around; refuses letters, more decimals than asked for, thousands marks and what lies outside lowest..highest
/// (both in 10^-decimals). The error names field, value and what is allowed (`allowed` when given, else the range).
Result<std::int64_t> parse_decimal(std::string_view text, int decimals, std::int64_t lowest, std::int64_t highest,
                                   std::string_view field, std::string_view allowed = {});
/// A temperature in the style's unit unless a unit follows: "88", "88 °C", "190F". Allowed: −20 to 150 °C.
Result<Temperature> parse_temperature(std::string_view text, const Style& style, std::string_view field);
/// Grams, "g" and "kg" allowed behind. Allowed: 0 to 100 000 g.
Result<Mass> parse_mass(std::string_view text, std::string_view field);
/// Seconds, "s", "min" allowed behind, or m:ss. Allowed: 0 to 86 400 s.
Result<Duration> parse_duration(std::string_view text, std::string_view field);

/// A whole number of 10^-decimals as text with `shown` decimals (rounded half away from zero), U+2212 for minus.
std::string decimal_text(std::int64_t value, int decimals, int shown, const Style& style);
/// A double for people: `shown` decimals, U+2212; "−0.0" is printed as "0.0".
std::string number_text(double value, int shown, const Style& style);
/// The same with a plus sign before positive numbers.
std::string signed_text(double value, int shown, const Style& style);
/// "88 °C" (no-break space), with one decimal only where it is not whole.
std::string temperature_text(Temperature t, const Style& style);
/// "2 °C" or "3.6 °F": a difference.
std::string step_text(TemperatureStep s, const Style& style);
std::string mass_text(Mass m, const Style& style);          ///< "4 g", "0.05 g"
std::string duration_text(Duration d, const Style& style);  ///< "45 s"; from 600 s on "10 min"
std::string volume_text(Volume v, const Style& style);      ///< "40 ml"; from 1000 ml on "6.0 litres"
/// p for people: "0.004", "under 0.001".
std::string p_text(double p, const Style& style);

/// Cuts user text for an error message to a readable length, on a code-point boundary; control characters become
/// spaces.
std::string shown_value(std::string_view text);

}  // namespace likeleaf
