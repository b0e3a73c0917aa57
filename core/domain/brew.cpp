#include "core/domain/brew.h"

#include "core/domain/bench_order.h"

namespace likeleaf {
namespace {

std::optional<Duration> stamped_contact(const Brew& brew, int infusion) {
  const Stamp* pour_start = standing(brew, StampKind::pour_start, infusion);
  const Stamp* pour_end = standing(brew, StampKind::pour_end, infusion);
  const Stamp* drain_start = standing(brew, StampKind::drain_start, infusion);
  const Stamp* drain_end = standing(brew, StampKind::drain_end, infusion);
  if (!pour_start || !pour_end || !drain_start || !drain_end) return std::nullopt;
  // Mid-drain − mid-pour is the mean of the two starts' and the two ends' distances.
  const Duration sum = elapsed(pour_start->at, drain_start->at) + elapsed(pour_end->at, drain_end->at);
  // Stamps in an impossible order say nothing about the steep.
  if (sum.count() < 0) return std::nullopt;
  return Duration(sum.count() / 2);
}

}  // namespace

std::optional<Duration> contact_time(const Brew& brew, int infusion) {
  if (infusion < 1) return std::nullopt;
  if (const auto stamped = stamped_contact(brew, infusion)) return stamped;
  const auto index = static_cast<std::size_t>(infusion - 1);
  if (index >= brew.infusions.size()) return std::nullopt;
  return brew.infusions[index].steep;
}

std::optional<std::int64_t> as_brewed(const Brew& brew, ConstantKind kind, int infusion) {
  if (kind == ConstantKind::leaf_dose) return brew.leaf ? std::optional(brew.leaf->count()) : std::nullopt;
  if (kind == ConstantKind::steep_time) {
    const auto steep = contact_time(brew, infusion);
    return steep ? std::optional(steep->count()) : std::nullopt;
  }
  if (infusion < 1 || static_cast<std::size_t>(infusion) > brew.infusions.size()) return std::nullopt;
  const Infusion& made = brew.infusions[static_cast<std::size_t>(infusion - 1)];
  if (kind == ConstantKind::water_mass) return made.water ? std::optional(made.water->count()) : std::nullopt;
  if (kind != ConstantKind::water_temperature) return std::nullopt;
  return made.pour ? std::optional(made.pour->milli_celsius()) : std::nullopt;
}

}  // namespace likeleaf
