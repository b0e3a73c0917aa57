#pragma once
// What a plan asks of a brew: the one place that knows of schedules, of the lever's own values and of what is held.
#include <cstdint>
#include <optional>
#include <span>

#include "core/base/quantity.h"
#include "core/domain/brew.h"
#include "core/domain/plan.h"

namespace likeleaf {

/// Drafts and imported records may hold any number; differences of bounded ones do not overflow.
std::int64_t bounded(std::int64_t value);

/// The kind has a numeric target.
bool has_number(ConstantKind kind);
/// What is taken where a plan gives a target and no tolerance (house conventions): ±2 °C, ±3 s, ±0.1 g of leaf (as
/// ISO 3103 allows its large pot), ±2 g of water; 0 for what has no number or is a limit.
std::int64_t default_tolerance(ConstantKind kind);
/// ± in the kind's unit: the plan's own, which may stand without a target beside a lever of that kind, else the usual.
std::int64_t tolerance_of(const Plan& plan, ConstantKind kind);

/// A number that the plan asks for and how far off it may be, both in the unit of its kind.
struct Asked {
  std::int64_t value = 0, tolerance = 0;
  bool operator==(const Asked&) const = default;
};
/// How far a number lies past what is allowed, with sign; 0 within.
std::int64_t past_tolerance(const Asked& asked, std::int64_t actual);

/// What is held alike for every brew; nothing where the plan gives no target.
std::optional<Asked> asked(const Plan& plan, ConstantKind kind);
/// What one infusion (1-based) of a level is asked for: its schedule, the lever's own value, else what is held. The
/// leaf is asked once for all infusions. A level past the last counts as the reference.
std::optional<Asked> asked(const Plan& plan, ConstantKind kind, std::size_t level, int infusion);

/// The infusions of a level as planned one by one; empty where what is held stands for a single one. A level past the
/// last counts as the reference.
std::span<const InfusionPlan> schedule_of(const Plan& plan, std::size_t level);
/// Sums over a schedule, kept far from overflow.
struct ScheduleTotals {
  Mass water;
  Duration contact;
  double mean_pour = 0;  ///< milli-°C, each pour weighted by its water
};
ScheduleTotals totals_of(std::span<const InfusionPlan> schedule);

/// As many infusions of a level as the plan speaks of, at least one.
int infusion_count(const Plan& plan, std::size_t level);
/// As many infusions of a brew as the plan, what was noted or stamps that stand speak of; `level` where the key knows
/// it better than the brew's own record.
int infusion_count(const Plan& plan, std::size_t level, const Brew& brew);
int infusion_count(const Plan& plan, const Brew& brew);

/// Leaf and water of one brew at a level, over all its infusions; nothing where the plan does not say it.
std::optional<Mass> planned_leaf(const Plan& plan, std::size_t level);
std::optional<Mass> planned_water(const Plan& plan, std::size_t level);
/// The leaf of every brew; nothing where the levels set it themselves.
std::optional<Mass> leaf_of_every_brew(const Plan& plan);
/// How long one brew at a level steeps, over all its infusions; 0 where the plan does not say it.
Duration planned_contact(const Plan& plan, std::size_t level);

}  // namespace likeleaf
