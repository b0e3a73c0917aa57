#include "core/wording/cautions.h"

#include <fmt/format.h>

#include "core/base/number_text.h"

namespace likeleaf::wording {
namespace {

std::optional<Temperature> hottest(const Plan& plan) {
  std::optional<Temperature> out;
  const auto take = [&](std::int64_t mc) {
    if (!out || mc > out->milli_celsius()) out = Temperature(mc);
  };
  if (plan.lever.kind == LeverKind::water_temperature)
    for (const auto& level : plan.lever.levels)
      if (level.value) take(*level.value);
  for (const auto& level : plan.lever.levels)
    for (const auto& infusion : level.schedule) take(infusion.pour.milli_celsius());
  if (const auto* c = find_constant(plan, ConstantKind::water_temperature); c && c->target) take(*c->target);
  return out;
}

bool mentions(const Constant* c, std::string_view word) {
  return c && c->text.find(word) != std::string::npos;
}

}  // namespace

std::vector<std::string> cautions(Step step, const Plan& plan, const std::vector<Lot>& lots, const Style& style) {
  std::vector<std::string> out;
  const auto hot = hottest(plan);
  const bool ice = mentions(find_constant(plan, ConstantKind::chill), "ice");
  const bool glass = mentions(find_constant(plan, ConstantKind::vessel), "glass");
  const auto scald = [&] {
    // Times to a burn fall to seconds above 60 °C (scald time tables; tests/reference/checks.csv D01).
    if (hot && hot->milli_celsius() >= 50'000)
      out.push_back(fmt::format("{} water scalds in seconds. Other hand clear, lid on the kettle.",
                                temperature_text(*hot, style)));
  };
  switch (step) {
    case Step::pour:
      scald();
      break;
    case Step::chill:
      if (ice && glass)
        out.emplace_back(
            "Hot glass can break in ice. Use glass made for it, within its maker’s limits, and lower it slowly.");
      else if (ice)
        out.emplace_back("Hot vessels can break in ice. Keep to the maker’s limits and lower them slowly.");
      break;
    case Step::serve:
      out.emplace_back("Clean cups and a clean spoon for each taster; nobody drinks from another’s cup.");
      break;
    case Step::taste:
      out.emplace_back("Your own cup and spoon only. Spit where you can: caffeine adds up over a sitting.");
      break;
    case Step::hold:
      out.emplace_back(
          "Liquor left standing warm does not keep. Pour away what is past its longest hold; local food rules come "
          "first.");
      break;
    case Step::staff:
      scald();
      if (glass)
        out.emplace_back(ice ? "Use a glass made for hot water before it meets ice; the maker’s limits come first."
                             : "Use a glass made for hot water; the maker’s limits come first.");
      out.emplace_back("Clean cups and spoons for each person. Local food and safety rules come first.");
      break;
  }
  if (step == Step::taste || step == Step::staff)
    for (const auto& lot : lots)
      if (!lot.allergens.empty())
        out.push_back(fmt::format("{} carries {}: ask before anyone tastes.", lot.code, lot.allergens));
  return out;
}

}  // namespace likeleaf::wording
