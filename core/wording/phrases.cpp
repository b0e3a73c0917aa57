#include "core/wording/phrases.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/number_text.h"
#include "core/wording/attribute_text.h"

namespace likeleaf::wording {

using evidence::AttributeFinding;
using evidence::Engine;

std::string counted(int n, std::string_view one, std::string_view many) {
  return fmt::format("{}{}{}", n, no_break_space, n == 1 ? one : many);
}

std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i)
    out += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return out;
}

std::string points(double value, const Style& style) {
  const double size = std::fabs(value);
  return number_text(size, size > 0 && size < 0.05 ? 2 : 1, style);
}

bool is_one_shown(double log_value) {
  return std::fabs(std::exp(log_value) - 1) < 0.005;
}

std::string ratio(double log_value, const Style& style) {
  return number_text(std::exp(log_value), 2, style);
}

std::string name_of(const SealedPlan& plan, const std::string& attribute) {
  const auto* found = find_attribute(plan.attributes, attribute);
  return found ? found->name : attribute;
}

bool is_ratio(const AttributeFinding& f) {
  return f.attribute.scale == Scale::seconds;
}

std::string at_b(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  std::string out = "at " + level_text(plan.plan.lever, f.contrast.b, style);
  if (several) out += " than at " + level_text(plan.plan.lever, f.contrast.a, style);
  return out;
}

std::string direction(const AttributeFinding& f, double value) {
  return value >= 0 ? f.attribute.more : f.attribute.less;
}

std::string range_text(const AttributeFinding& f, const Style& style) {
  std::string out = interval_text(f, *f.interval, style);
  if (f.engine != Engine::describe && std::fabs(f.interval->level - 0.95) > 0.0005)
    out += fmt::format("; {}{}%", number_text(f.interval->level * 100, 1, style), no_break_space);
  return out;
}

std::string size_clause(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  std::string out;
  if (is_ratio(f))
    out = fmt::format("{} {}: {} times the time",
                      is_one_shown(f.estimate) ? "as long a finish" : direction(f, f.estimate),
                      at_b(f, plan, style, several), ratio(f.estimate, style));
  else if (f.estimate == 0)
    out = "no difference seen " + at_b(f, plan, style, several);
  else
    out =
        fmt::format("{} {} by {}", direction(f, f.estimate), at_b(f, plan, style, several), points(f.estimate, style));
  if (f.interval) out += fmt::format(" ({})", range_text(f, style));
  return out;
}

}  // namespace likeleaf::wording
