#include "core/base/number_text.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "core/base/limits.h"

namespace likeleaf {
namespace {

bool starts(std::string_view text, std::string_view prefix) {
  return text.starts_with(prefix);
}

bool is_space_at(std::string_view text, std::size_t& width) {
  if (text.empty()) return false;
  if (text[0] == ' ' || text[0] == '\t' || text[0] == '\n' || text[0] == '\r') return width = 1, true;
  if (starts(text, "\u00A0")) return width = 2, true;
  if (starts(text, "\u202F") || starts(text, "\u2009")) return width = 3, true;
  return false;
}

std::string_view trimmed(std::string_view text) {
  std::size_t width = 0;
  while (is_space_at(text, width)) text.remove_prefix(width);
  for (bool again = true; again;) {
    again = false;
    for (std::string_view space : {" ", "\t", "\n", "\r", "\u00A0", "\u202F", "\u2009"})
      if (text.ends_with(space)) {
        text.remove_suffix(space.size());
        again = true;
      }
  }
  return text;
}

std::int64_t power_of_ten(int n) {
  std::int64_t p = 1;
  while (n-- > 0) p *= 10;
  return p;
}

const Style plain{};

std::string trim_zeros(std::int64_t value, int decimals, const Style& style) {
  int shown = decimals;
  while (shown > 0 && value % 10 == 0) {
    value /= 10;
    --shown;
  }
  return decimal_text(value, shown, shown, style);
}

struct Unit {
  std::string_view name;
  int which;
};

// Splits a unit off the end; the longest name that fits wins.
int take_unit(std::string_view& text, std::initializer_list<Unit> units, int when_none) {
  for (const auto& unit : units)
    if (text.size() > unit.name.size() && text.ends_with(unit.name)) {
      text = trimmed(text.substr(0, text.size() - unit.name.size()));
      return unit.which;
    }
  return when_none;
}

std::int64_t round_div(std::int64_t a, std::int64_t b) {
  // By the remainder, so that numbers near the ends of the type do not overflow while rounding.
  const std::int64_t left = a % b;
  const std::int64_t half_up = (left >= 0 ? left : -left) >= b - (left >= 0 ? left : -left) ? 1 : 0;
  return a / b + (a >= 0 ? half_up : -half_up);
}

}  // namespace

std::string shown_value(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string out;
  std::size_t i = 0;
  while (i < text.size() && out.size() < longest) {
    const auto c = static_cast<unsigned char>(text[i]);
    std::size_t width = c < 0x80 ? 1 : c >> 5 == 6 ? 2 : c >> 4 == 14 ? 3 : c >> 3 == 30 ? 4 : 0;
    bool valid = width > 0 && i + width <= text.size();
    for (std::size_t k = 1; valid && k < width; ++k) valid = (static_cast<unsigned char>(text[i + k]) & 0xC0) == 0x80;
    if (!valid) {
      out += "\uFFFD";
      ++i;
      continue;
    }
    if (c < 0x20 || c == 0x7F)
      out += ' ';
    else
      out.append(text.substr(i, width));
    i += width;
  }
  if (i < text.size()) out += "…";
  return out;
}

Result<std::int64_t> parse_decimal(std::string_view text, int decimals, std::int64_t lowest, std::int64_t highest,
                                   std::string_view field, std::string_view allowed) {
  const auto refuse = [&]() {
    std::string range = allowed.empty() ? fmt::format("{} to {}", trim_zeros(lowest, decimals, plain),
                                                      trim_zeros(highest, decimals, plain))
                                        : std::string(allowed);
    return fail(ErrorKind::bad_value, std::string(field), shown_value(text), std::move(range));
  };
  std::string_view rest = trimmed(text);
  bool negative = false;
  if (starts(rest, minus_sign)) {
    negative = true;
    rest.remove_prefix(3);
  } else if (!rest.empty() && (rest[0] == '-' || rest[0] == '+')) {
    negative = rest[0] == '-';
    rest.remove_prefix(1);
  }
  std::int64_t value = 0;
  int after_mark = -1;
  bool any = false;
  for (const char c : rest) {
    if (c == '.' || c == ',') {
      if (after_mark >= 0) return refuse();
      after_mark = 0;
      continue;
    }
    if (c < '0' || c > '9') return refuse();
    any = true;
    if (after_mark >= decimals) {
      if (c != '0') return refuse();
      continue;
    }
    if (after_mark >= 0) ++after_mark;
    if (value > (std::numeric_limits<std::int64_t>::max() - 9) / 10) return refuse();
    value = value * 10 + (c - '0');
  }
  if (!any) return refuse();
  for (int k = after_mark < 0 ? 0 : after_mark; k < decimals; ++k) {
    if (value > std::numeric_limits<std::int64_t>::max() / 10) return refuse();
    value *= 10;
  }
  if (negative) value = -value;
  if (value < lowest || value > highest) return refuse();
  return value;
}

Result<Temperature> parse_temperature(std::string_view text, const Style& style, std::string_view field) {
  std::string_view rest = trimmed(text);
  const int unit = take_unit(rest, {{"°C", 0}, {"°F", 1}, {"C", 0}, {"F", 1}, {"c", 0}, {"f", 1}},
                             style.temperature == TemperatureUnit::fahrenheit ? 1 : 0);
  if (rest.ends_with("°")) rest = trimmed(rest.substr(0, rest.size() - 2));
  constexpr auto in_fahrenheit = [](std::int64_t milli_celsius) { return milli_celsius * 9 / 50 + 3200; };
  const auto read = unit == 1 ? parse_decimal(rest, 2, in_fahrenheit(any_temperature.low),
                                              in_fahrenheit(any_temperature.high), field, "−4 to 302 °F")
                              : parse_decimal(rest, 2, any_temperature.low / 10, any_temperature.high / 10, field,
                                              any_temperature.text);
  if (!read) {
    Error e = read.error();
    e.value = shown_value(text);
    return tl::unexpected(e);
  }
  if (unit == 1) return Temperature(round_div((*read - 3200) * 50, 9));
  return Temperature(*read * 10);
}

Result<Mass> parse_mass(std::string_view text, std::string_view field) {
  std::string_view rest = trimmed(text);
  const int unit = take_unit(rest, {{"kg", 1}, {"g", 0}}, 0);
  const auto read = unit == 1 ? parse_decimal(rest, 6, any_mass.low, any_mass.high, field, "0 to 100 kg")
                              : parse_decimal(rest, 3, any_mass.low, any_mass.high, field, any_mass.text);
  if (!read) {
    Error e = read.error();
    e.value = shown_value(text);
    return tl::unexpected(e);
  }
  return Mass(*read);
}

Result<Duration> parse_duration(std::string_view text, std::string_view field) {
  constexpr std::string_view allowed = "0 to 86400 seconds, or minutes:seconds";
  std::string_view rest = trimmed(text);
  if (const auto colon = rest.find(':'); colon != std::string_view::npos) {
    const auto m = parse_decimal(rest.substr(0, colon), 0, 0, 1440, field, allowed);
    const auto s = parse_decimal(rest.substr(colon + 1), 0, 0, 59, field, allowed);
    if (!m || !s) return fail(ErrorKind::bad_value, std::string(field), shown_value(text), std::string(allowed));
    return Duration(*m * 60000 + *s * 1000);
  }
  const int unit = take_unit(rest, {{"min", 1}, {"sec", 0}, {"s", 0}}, 0);
  const auto read = unit == 1 ? parse_decimal(rest, 3, 0, 1'440'000, field, allowed)
                              : parse_decimal(rest, 3, any_duration.low, any_duration.high, field, allowed);
  if (!read) return fail(ErrorKind::bad_value, std::string(field), shown_value(text), std::string(allowed));
  return Duration(unit == 1 ? *read * 60 : *read);
}

std::string decimal_text(std::int64_t value, int decimals, int shown, const Style& style) {
  if (shown < decimals) {
    value = round_div(value, power_of_ten(decimals - shown));
    decimals = shown;
  }
  const std::uint64_t size = value < 0 ? 0 - static_cast<std::uint64_t>(value) : static_cast<std::uint64_t>(value);
  const auto unit = static_cast<std::uint64_t>(power_of_ten(decimals));
  std::string out = value < 0 ? minus_sign : "";
  out += fmt::format("{}", size / unit);
  if (shown > 0) {
    out += style.decimal_mark;
    out += fmt::format("{:0{}}", size % unit, decimals == 0 ? 1 : decimals);
    if (decimals == 0) out.pop_back();
    out.append(static_cast<std::size_t>(shown - decimals), '0');
  }
  return out;
}

std::string number_text(double value, int shown, const Style& style) {
  if (!std::isfinite(value)) return "–";
  std::string digits = fmt::format("{:.{}f}", std::fabs(value), shown);
  bool zero = true;
  for (auto& c : digits) {
    if (c == '.')
      c = style.decimal_mark;
    else if (c != '0')
      zero = false;
  }
  return (value < 0 && !zero ? minus_sign : "") + digits;
}

std::string signed_text(double value, int shown, const Style& style) {
  std::string text = number_text(value, shown, style);
  bool zero = true;
  for (const char c : text)
    if (c >= '1' && c <= '9') zero = false;
  return value > 0 && !zero ? "+" + text : text;
}

std::string temperature_text(Temperature t, const Style& style) {
  const bool f = style.temperature == TemperatureUnit::fahrenheit;
  const std::int64_t tenths = f ? round_div(t.milli_celsius() * 9 + 160'000, 500) : round_div(t.milli_celsius(), 100);
  return trim_zeros(tenths, 1, style) + no_break_space + (f ? "°F" : "°C");
}

std::string step_text(TemperatureStep s, const Style& style) {
  const bool f = style.temperature == TemperatureUnit::fahrenheit;
  const std::int64_t tenths = f ? round_div(s.count() * 9, 500) : round_div(s.count(), 100);
  return trim_zeros(tenths, 1, style) + no_break_space + (f ? "°F" : "°C");
}

std::string mass_text(Mass m, const Style& style) {
  return trim_zeros(m.count(), 3, style) + no_break_space + "g";
}

std::string duration_text(Duration d, const Style& style) {
  if (d.count() >= 600'000 && d.count() % 60'000 == 0)
    return trim_zeros(d.count() / 60'000, 0, style) + no_break_space + "min";
  return trim_zeros(round_div(d.count(), 100), 1, style) + no_break_space + "s";
}

std::string volume_text(Volume v, const Style& style) {
  if (v.count() >= 1'000'000) return decimal_text(v.count(), 6, 1, style) + no_break_space + "litres";
  return trim_zeros(round_div(v.count(), 100), 1, style) + no_break_space + "ml";
}

std::string p_text(double p, const Style& style) {
  if (!(p >= 0)) return "–";
  if (p < 0.001) return "under " + number_text(0.001, 3, style);
  return number_text(p, p < 0.1 ? 3 : 2, style);
}

}  // namespace likeleaf
