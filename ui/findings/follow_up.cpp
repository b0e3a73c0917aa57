#include "ui/findings/follow_up.h"

#include <algorithm>

namespace likeleaf::ui {

Plan follow_up(const SealedPlan& sealed) {
  Plan next = sealed.plan;
  next.follows = sealed.plan.id;
  next.id = IdOf<Trial>();
  next.number = 1;  // the book gives the next one
  next.notes.clear();
  next.reference_pair.reset();  // words are agreed anew before the first sitting
  return next;
}

std::optional<Between> between(const SealedPlan& sealed, Contrast contrast, const Style& style) {
  const Lever& lever = sealed.plan.lever;
  if (!is_numeric(lever.kind) || contrast.a >= lever.levels.size() || contrast.b >= lever.levels.size())
    return std::nullopt;
  const auto low = lever.levels[contrast.a].value, high = lever.levels[contrast.b].value;
  if (!low || !high) return std::nullopt;
  Level middle;
  middle.value = (*low + *high) / 2;
  if (std::ranges::any_of(lever.levels, [&](const Level& l) { return l.value == middle.value; })) return std::nullopt;
  Between out;
  out.plan = follow_up(sealed);
  out.plan.lever.levels = {lever.levels[lever.reference()], middle};
  out.level = level_text(out.plan.lever, 1, style);
  const std::string a = level_text(lever, contrast.a, style), b = level_text(lever, contrast.b, style);
  out.plan.question = "What does " + out.level + " do, between " + a + " and " + b + "?";
  out.plan.rule.reset();  // it was written for another step
  for (auto& control : out.plan.controls) control.level = std::min<std::size_t>(control.level, 1);
  for (auto& attribute : out.plan.attributes) attribute.expected = Expectation::none;
  return out;
}

}  // namespace likeleaf::ui
