#include "core/planning/plan_starter.h"

#include <algorithm>

namespace likeleaf {
namespace {

Constant amount(ConstantKind kind, std::int64_t target, std::int64_t tolerance) {
  Constant c;
  c.kind = kind;
  c.target = target;
  c.tolerance = tolerance;
  return c;
}

Constant words(ConstantKind kind, const char* text) {
  Constant c;
  c.kind = kind;
  c.text = text;
  return c;
}

}  // namespace

Plan starter_plan(const std::vector<Attribute>& attributes) {
  Plan plan;
  plan.lever.levels.resize(2);
  plan.lever.levels.front().present_way = true;
  for (const auto& a : attributes) plan.attributes.push_back({a.id, false, a.margin, Expectation::none});
  plan.constants = {amount(ConstantKind::leaf_dose, 4'000, 50),
                    amount(ConstantKind::water_mass, 200'000, 2'000),
                    amount(ConstantKind::steep_time, 45'000, 3'000),
                    words(ConstantKind::water, "house water, boiled and cooled"),
                    words(ConstantKind::vessel, "a warmed glass"),
                    words(ConstantKind::strainer, "strained fully"),
                    words(ConstantKind::chill, "into ice with lids, then a lidded bath, both the same way"),
                    amount(ConstantKind::tasting_temperature, 42'000, 1'000),
                    words(ConstantKind::eyes, "opaque cups"),
                    words(ConstantKind::rinse, "water and a plain cracker")};
  return plan;
}

namespace {

/// Holds what the old lever's present level says; a constant that held only its tolerance gets its target back.
void hold_former(Plan& plan, ConstantKind kind, const Level& present) {
  auto held = std::ranges::find(plan.constants, kind, &Constant::kind);
  if (held == plan.constants.end()) {
    if (!present.value && present.label.empty()) return;
    plan.constants.push_back(Constant{});
    held = plan.constants.end() - 1;
    held->kind = kind;
  }
  held->target = present.value;
  held->text = present.label;
  held->record = present.record;
}

}  // namespace

Plan with_lever(Plan plan, LeverKind kind) {
  if (kind == plan.lever.kind) return plan;
  Lever& lever = plan.lever;
  if (const auto former = constant_of(lever.kind); former && !lever.levels.empty())
    hold_former(plan, *former, lever.levels[lever.reference()]);
  lever.kind = kind;
  if (kind != LeverKind::other) lever.name.clear();
  for (auto& level : lever.levels) level = Level{{}, {}, {}, level.present_way, {}};
  const auto own = constant_of(kind);
  const auto held = own ? std::ranges::find(plan.constants, *own, &Constant::kind) : plan.constants.end();
  if (held == plan.constants.end()) return plan;
  if (!lever.levels.empty()) {
    Level& present = lever.levels[lever.reference()];
    present.value = held->target;
    present.label = held->text;
    present.record = held->record;
  }
  held->target.reset();
  held->text.clear();
  held->record.clear();
  if (!held->tolerance) plan.constants.erase(held);
  return plan;
}

}  // namespace likeleaf
