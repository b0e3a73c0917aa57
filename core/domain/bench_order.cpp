#include "core/domain/bench_order.h"

#include <algorithm>

#include "core/domain/asked.h"

namespace likeleaf {
namespace {

template <class Wanted>
const Stamp* newest(const Brew& brew, Wanted wanted) {
  const auto found =
      std::find_if(brew.stamps.rbegin(), brew.stamps.rend(), [&](const Stamp& s) { return !s.undone && wanted(s); });
  return found == brew.stamps.rend() ? nullptr : &*found;
}

Duration median(std::vector<std::int64_t> values, Duration otherwise) {
  if (values.empty()) return otherwise;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return Duration(*middle);
}

/// Half a pour goes before the steep is counted, half a drain after it.
Duration around_a_steep(const UsualTimes& usual) {
  return Duration((usual.pour + usual.drain).count() / 2);
}

template <class Unit>
std::optional<Unit> unit_of(const std::optional<Asked>& asked) {
  return asked ? std::optional(Unit(asked->value)) : std::nullopt;
}

}  // namespace

std::vector<BenchAct> acts_of(const Plan& plan, const Brew& brew) {
  std::vector<BenchAct> out;
  const int count = infusion_count(plan, brew);
  for (int i = 1; i <= count; ++i)
    for (const auto kind : {StampKind::pour_start, StampKind::pour_end, StampKind::drain_start, StampKind::drain_end})
      out.push_back({kind, i});
  out.push_back({StampKind::chill_start, count});
  out.push_back({StampKind::ready, count});
  return out;
}

const Stamp* standing(const Brew& brew, StampKind kind, int infusion) {
  return newest(brew, [&](const Stamp& s) { return s.kind == kind && s.infusion == infusion; });
}

const Stamp* standing(const Brew& brew, StampKind kind) {
  return newest(brew, [&](const Stamp& s) { return s.kind == kind; });
}

const Stamp* last_stamp(const Brew& brew) {
  return newest(brew, [](const Stamp&) { return true; });
}

const Stamp* in_the_way_of(const Brew& brew, const BenchAct& act) {
  const auto found = std::ranges::find_if(
      brew.stamps, [&](const Stamp& s) { return !s.undone && s.infusion == act.infusion && s.kind >= act.kind; });
  return found == brew.stamps.end() ? nullptr : &*found;
}

std::optional<BenchAct> next_act(const Plan& plan, const Brew& brew) {
  const auto all = acts_of(plan, brew);
  std::size_t next = 0;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (standing(brew, all[i].kind, all[i].infusion)) next = i + 1;
  if (next >= all.size()) return std::nullopt;
  return all[next];
}

bool is_ready(const Brew& brew) {
  const Stamp* last = last_stamp(brew);
  return last && last->kind == StampKind::ready;
}

bool in_hand(const Brew& brew) {
  const Stamp* last = last_stamp(brew);
  return last && last->kind < StampKind::chill_start;
}

bool frees_the_hands(const BenchAct& act) {
  return act.kind >= StampKind::chill_start;
}

const Brew* current_brew(const Plan& plan, const std::vector<const Brew*>& brews, IdOf<Brew> chosen) {
  const auto own = std::ranges::find_if(brews, [&](const Brew* b) { return b->id == chosen; });
  if (own != brews.end()) return *own;
  const Brew* to_pour = nullptr;
  const Brew* cooling = nullptr;
  for (const auto* brew : brews) {
    if (in_hand(*brew)) return brew;
    if (!last_stamp(*brew))
      to_pour = to_pour ? to_pour : brew;
    else if (next_act(plan, *brew))
      cooling = cooling ? cooling : brew;
  }
  return to_pour ? to_pour : cooling;
}

const Brew* following_brew(const std::vector<const Brew*>& brews, const Brew* current) {
  for (const auto* brew : brews)
    if (brew != current && !last_stamp(*brew)) return brew;
  return nullptr;
}

const Brew* last_stamped(const std::vector<const Brew*>& brews) {
  const Brew* found = nullptr;
  for (const auto* brew : brews) {
    const Stamp* last = last_stamp(*brew);
    if (last && (!found || last->at >= last_stamp(*found)->at)) found = brew;
  }
  return found;
}

std::optional<Upcoming> upcoming(const Plan& plan, const std::vector<const Brew*>& brews, const Brew* current) {
  const auto own = current ? next_act(plan, *current) : std::nullopt;
  const bool by_itself = !own || own->kind == StampKind::ready || own->kind == StampKind::drain_end;
  if (by_itself)
    if (const Brew* other = following_brew(brews, current))
      if (const auto act = next_act(plan, *other)) return Upcoming{other, *act};
  if (!own) return std::nullopt;
  return Upcoming{current, *own};
}

UsualTimes usual_times(const Trial& trial) {
  std::vector<std::int64_t> pour, drain, chill;
  const auto take = [](const Stamp* from, const Stamp* to, std::vector<std::int64_t>& into) {
    if (from && to && elapsed(from->at, to->at).count() > 0) into.push_back(elapsed(from->at, to->at).count());
  };
  for (const auto& [id, brew] : trial.brews) {
    const int count = infusion_count(trial.sealed ? trial.sealed->plan : trial.draft, *brew);
    for (int i = 1; i <= count; ++i) {
      take(standing(*brew, StampKind::pour_start, i), standing(*brew, StampKind::pour_end, i), pour);
      take(standing(*brew, StampKind::drain_start, i), standing(*brew, StampKind::drain_end, i), drain);
    }
    take(standing(*brew, StampKind::chill_start), standing(*brew, StampKind::ready), chill);
  }
  UsualTimes out;
  out.pour = median(std::move(pour), out.pour);
  out.drain = median(std::move(drain), out.drain);
  out.chill = median(std::move(chill), out.chill);
  return out;
}

Duration time_in_hand(const Plan& plan, std::size_t level, const UsualTimes& usual) {
  return planned_contact(plan, level) + around_a_steep(usual) * infusion_count(plan, level) + usual.between;
}

Moment counted_from(const Brew& brew, const Stamp& last) {
  Moment from = last.at;
  const Stamp* start = standing(brew, StampKind::pour_start, last.infusion);
  if (last.kind != StampKind::pour_end || !start) return from;
  const std::int64_t half = elapsed(start->at, last.at).count() / 2;
  from.utc_ms -= half;
  if (from.boot_ms != 0) from.boot_ms -= half;
  return from;
}

std::optional<DrainAt> drain_at(const Plan& plan, const Brew& brew, const UsualTimes& usual, const Moment& now) {
  const Stamp* last = last_stamp(brew);
  if (!last || last->kind != StampKind::pour_end) return std::nullopt;
  const auto steep = asked(plan, ConstantKind::steep_time, brew.level, last->infusion);
  if (!steep) return std::nullopt;
  const Duration at(std::max<std::int64_t>(0, bounded(steep->value) - usual.drain.count() / 2));
  return DrainAt{at, at - elapsed(counted_from(brew, *last), now)};
}

BenchTask task_of_now(const Plan& plan, const Brew& brew, const UsualTimes& usual, const Moment& now) {
  const auto next = next_act(plan, brew);
  if (next && (next->kind == StampKind::pour_start || next->kind == StampKind::pour_end))
    return PourNow{unit_of<Mass>(asked(plan, ConstantKind::water_mass, brew.level, next->infusion)),
                   unit_of<Temperature>(asked(plan, ConstantKind::water_temperature, brew.level, next->infusion))};
  if (const auto drain = drain_at(plan, brew, usual, now)) return *drain;
  return std::monostate{};
}

std::vector<CoolingBrew> cooling_brews(const Plan& plan, const std::vector<const Brew*>& brews) {
  const auto tasting = asked(plan, ConstantKind::tasting_temperature);
  std::vector<CoolingBrew> out;
  for (const auto* brew : brews) {
    const Stamp* last = last_stamp(*brew);
    if (!last || last->kind < StampKind::chill_start) continue;
    CoolingBrew one{brew, {}, last->at, last->kind == StampKind::ready, false};
    if (!brew->readings.empty()) one.reading = brew->readings.back().temperature;
    one.cool_enough = one.reading && tasting && past_tolerance(*tasting, one.reading->milli_celsius()) <= 0;
    out.push_back(one);
  }
  return out;
}

std::vector<LotPortions> portions_to_weigh(const Trial& trial) {
  const Plan& plan = trial.sealed ? trial.sealed->plan : trial.draft;
  std::vector<LotPortions> out;
  const auto add = [&](IdOf<Lot> lot) {
    const auto own = std::ranges::count_if(trial.brews, [&](const auto& b) { return b.second->lot == lot; });
    out.push_back({lot, static_cast<int>(own)});
  };
  for (const auto& lot : plan.lots) add(lot);
  if (!plan.warm_up_lot.empty() && std::ranges::find(plan.lots, plan.warm_up_lot) == plan.lots.end())
    add(plan.warm_up_lot);
  return out;
}

}  // namespace likeleaf
