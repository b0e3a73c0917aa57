#include "core/wording/lever_text.h"

namespace likeleaf::wording {

std::string lever_text(const Lever& lever) {
  return lever.kind == LeverKind::other && !lever.name.empty() ? lever.name : lever_name(lever.kind);
}

std::vector<std::string> level_names(const Lever& lever, const Style& style, std::string_view now) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    std::string said = level_text(lever, i, style);
    if (said.empty()) said = "…";
    if (lever.levels[i].present_way) said += now;
    out.push_back(std::move(said));
  }
  return out;
}

std::string changes_text(const Lever& lever, const Style& style) {
  std::string out = lever_text(lever);
  const auto names = level_names(lever, style);
  for (std::size_t i = 0; i < names.size(); ++i)
    out += (i == 0 ? " " : names.size() == 2 ? " against " : ", ") + names[i];
  return out;
}

}  // namespace likeleaf::wording
