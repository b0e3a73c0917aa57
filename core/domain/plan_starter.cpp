#include "core/domain/plan.h"

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

}  // namespace likeleaf
