#include "core/wording/plan_text.h"

#include "core/base/number_text.h"

namespace likeleaf::wording {

std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " against " + level_text(lever, contrast.a, style);
}

std::string difference_title(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " minus " + level_text(lever, contrast.a, style);
}

std::string changes_text(const Lever& lever, const Style& style) {
  std::string out = lever.kind == LeverKind::other && !lever.name.empty() ? lever.name : lever_name(lever.kind);
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    out += i == 0 ? " " : lever.levels.size() == 2 ? " against " : ", ";
    out += level_text(lever, i, style);
    if (lever.levels[i].present_way) out += " (now)";
  }
  return out;
}

std::string in_unit(std::string_view kept, const Style& style) {
  constexpr std::string_view unit = "°C";
  std::string out;
  for (auto at = kept.find(unit); at != std::string_view::npos; at = kept.find(unit)) {
    const auto before = kept.substr(0, at);
    const auto last = before.find_last_of("0123456789");
    const auto from = last == std::string_view::npos ? last : before.find_last_not_of("0123456789.", last);
    const auto begin = last == std::string_view::npos ? at : from == std::string_view::npos ? 0 : from + 1;
    const auto degrees = kept.substr(begin, at + unit.size() - begin);
    const auto read = parse_temperature(degrees, Style{}, {});
    out += kept.substr(0, begin);
    out += read ? temperature_text(*read, style) : std::string(degrees);
    kept.remove_prefix(at + unit.size());
  }
  return out += kept;
}

}  // namespace likeleaf::wording
