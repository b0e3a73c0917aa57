#include "core/domain/brew.h"

namespace likeleaf {
namespace {

/// The newest stamp of a kind that was not undone.
const Stamp* standing_stamp(const Brew& brew, StampKind kind, int infusion) {
  const Stamp* found = nullptr;
  for (const auto& stamp : brew.stamps)
    if (stamp.kind == kind && stamp.infusion == infusion && !stamp.undone) found = &stamp;
  return found;
}

std::optional<Duration> stamped_contact(const Brew& brew, int infusion) {
  const Stamp* pour_start = standing_stamp(brew, StampKind::pour_start, infusion);
  const Stamp* pour_end = standing_stamp(brew, StampKind::pour_end, infusion);
  const Stamp* drain_start = standing_stamp(brew, StampKind::drain_start, infusion);
  const Stamp* drain_end = standing_stamp(brew, StampKind::drain_end, infusion);
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

}  // namespace likeleaf
