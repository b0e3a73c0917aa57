// Commands of the preparer: portions, stamps, readings, what was weighed, how warm it was served, the key.
#include <algorithm>

#include "core/acts/command_parts.h"
#include "core/acts/key_vault.h"
#include "core/acts/unmask.h"
#include "core/base/limits.h"
#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/domain/bench_order.h"

namespace likeleaf::commands {
namespace {

struct OpenBrew {
  std::shared_ptr<const Brew> brew;
  std::string record;
};

/// A brew whose record may still be written.
Result<OpenBrew> open_brew(const Trial& trial, IdOf<Brew> id, const char* act) {
  if (auto mask = needs_mask(trial, act, "an amendment with a reason"); !mask)
    return tl::unexpected<Error>(mask.error());
  const auto found = trial.brews.find(id);
  if (found == trial.brews.end()) return fail(ErrorKind::not_found, "brew", id.text(), "a brew of this trial");
  return OpenBrew{found->second, id.text()};
}

Change with_brew(const TrialPtr& trial, Brew brew) {
  const std::string record = brew.id.text();
  auto next = copy_of(trial);
  const auto id = brew.id;
  next->brews[id] = std::make_shared<const Brew>(std::move(brew));
  return change(std::move(next), Part::brew, record);
}

std::string stamp_name(StampKind kind) {
  switch (kind) {
    case StampKind::pour_start:
      return "pour start";
    case StampKind::pour_end:
      return "pour end";
    case StampKind::drain_start:
      return "drain start";
    case StampKind::drain_end:
      return "drain end";
    case StampKind::chill_start:
      return "chill start";
    case StampKind::ready:
      return "ready";
  }
  return "stamp";
}

Result<void> check_temperature(Temperature temperature, const char* field) {
  if (any_temperature.holds(temperature.milli_celsius())) return {};
  return fail(ErrorKind::bad_value, field, temperature_text(temperature, Style{}), std::string(any_temperature.text));
}

/// A whole number that may be absent, within lowest..highest.
Result<void> check_range(const std::optional<std::int64_t>& value, std::int64_t lowest, std::int64_t highest,
                         const char* field, const char* allowed, int decimals) {
  if (!value || (*value >= lowest && *value <= highest)) return {};
  return fail(ErrorKind::bad_value, field, decimal_text(*value, decimals, decimals, Style{}), allowed);
}
template <class Tag>
std::optional<std::int64_t> count_of(const std::optional<Amount<Tag>>& amount) {
  return amount ? std::optional(amount->count()) : std::nullopt;
}

Result<void> check_facts(const PutBrewFacts& facts) {
  if (auto leaf = check_range(count_of(facts.leaf), 1, 1'000'000, "leaf", "more than 0 and up to 1000 g", 3); !leaf)
    return leaf;
  if (facts.infusions.size() > most_infusions)
    return fail(ErrorKind::too_large, "infusions", std::to_string(facts.infusions.size()),
                "at most " + std::to_string(most_infusions));
  for (const auto& infusion : facts.infusions) {
    if (infusion.pour)
      if (auto pour = check_temperature(*infusion.pour, "pour temperature"); !pour) return pour;
    if (auto water = check_range(count_of(infusion.water), 0, 100'000'000, "water", "0 to 100 000 g", 3); !water)
      return water;
    if (auto steep = check_range(count_of(infusion.steep), 0, 86'400'000, "steep", "0 to 86 400 s", 3); !steep)
      return steep;
  }
  if (auto tds = check_range(facts.tds_permyriad, 0, 10'000, "strength", "0 to 100 per cent", 2); !tds) return tds;
  if (auto ph = check_range(facts.ph_hundredths, 0, 1'400, "pH", "0 to 14", 2); !ph) return ph;
  if (auto chill = check_text(facts.chill, "chilling"); !chill) return chill;
  return check_text(facts.note, "note");
}

bool in_plan(const Plan& plan, IdOf<Lot> lot) {
  return std::ranges::find(plan.lots, lot) != plan.lots.end() || plan.warm_up_lot == lot ||
         (plan.reference_pair && plan.reference_pair->lot == lot);
}

}  // namespace

Result<Change> run(const TrialPtr& trial, const TickWeighed& command, const Moment&) {
  if (auto mask = needs_mask(*trial, "weighed portions", "ticks until the unmasking"); !mask)
    return tl::unexpected<Error>(mask.error());
  if (command.lot.empty() || !in_plan(trial->sealed->plan, command.lot))
    return fail(ErrorKind::not_found, "lot", command.lot.text(), "a lot of this trial");
  const bool ticked = std::ranges::find(trial->weighed, command.lot) != trial->weighed.end();
  if (ticked == command.weighed) return no_change(trial, Part::weighed, command.lot.text());
  auto next = copy_of(trial);
  if (command.weighed)
    next->weighed.push_back(command.lot);
  else
    std::erase(next->weighed, command.lot);
  return change(std::move(next), Part::weighed, command.lot.text());
}

Result<Change> run(const TrialPtr& trial, const PutStamp& command, const Moment& now) {
  const auto open = open_brew(*trial, command.brew, "stamp");
  if (!open) return tl::unexpected<Error>(open.error());
  const int infusions = infusion_count(trial->sealed->plan, *open->brew);
  if (command.infusion < 1 || command.infusion > infusions)
    return fail(ErrorKind::bad_value, "infusion", std::to_string(command.infusion),
                "1 to " + std::to_string(infusions));
  // A second stamp of a kind, or one that belongs before another, would make a contact time out of a slip of the hand.
  if (const Stamp* other = in_the_way_of(*open->brew, {command.kind, command.infusion}))
    return fail(ErrorKind::not_allowed, stamp_name(command.kind),
                "after " + stamp_name(other->kind) + " at " + clock_text(other->at), "undoing that stamp first");
  Brew brew = *open->brew;
  brew.stamps.push_back({command.kind, command.infusion, now, std::nullopt});
  Change out = with_brew(trial, std::move(brew));
  out.inverse = UndoStamp{command.brew};
  out.scope = Scope{Scope::Kind::brew, open->record};
  return out;
}

Result<Change> run(const TrialPtr& trial, const UndoStamp& command, const Moment& now) {
  const auto open = open_brew(*trial, command.brew, "stamp");
  if (!open) return tl::unexpected<Error>(open.error());
  Brew brew = *open->brew;
  const Stamp* newest = last_stamp(brew);
  if (!newest) return fail(ErrorKind::not_found, "stamp", "none to undo", "a brew with a stamp that stands");
  brew.stamps[static_cast<std::size_t>(newest - brew.stamps.data())].undone = now;
  // No way back: the moment that was stamped cannot be stamped again.
  return with_brew(trial, std::move(brew));
}

Result<Change> run(const TrialPtr& trial, const PutReading& command, const Moment& now) {
  const auto open = open_brew(*trial, command.brew, "reading");
  if (!open) return tl::unexpected<Error>(open.error());
  if (auto range = check_temperature(command.temperature, "temperature"); !range)
    return tl::unexpected<Error>(range.error());
  if (auto place = check_text(command.place, "place", true); !place) return tl::unexpected<Error>(place.error());
  Brew brew = *open->brew;
  brew.readings.push_back({now, command.temperature, command.place});
  return with_brew(trial, std::move(brew));
}

Result<Change> run(const TrialPtr& trial, const PutBrewFacts& command, const Moment&) {
  const auto open = open_brew(*trial, command.brew, "brew");
  if (!open) return tl::unexpected<Error>(open.error());
  if (auto facts = check_facts(command); !facts) return tl::unexpected<Error>(facts.error());
  const Brew& old = *open->brew;
  Brew brew = old;
  brew.leaf = command.leaf;
  brew.infusions = command.infusions;
  brew.tds_permyriad = command.tds_permyriad;
  brew.ph_hundredths = command.ph_hundredths;
  brew.chill = command.chill;
  brew.note = command.note;
  if (brew == old) return no_change(trial, Part::brew, open->record);
  Change out = with_brew(trial, std::move(brew));
  out.inverse =
      PutBrewFacts{old.id, old.leaf, old.infusions, old.tds_permyriad, old.ph_hundredths, old.chill, old.note};
  out.scope = Scope{Scope::Kind::brew, open->record};
  return out;
}

Result<Change> run(const TrialPtr& trial, const PutServed& command, const Moment&) {
  if (auto mask = needs_mask(*trial, "serving temperatures", "temperatures until the unmasking"); !mask)
    return tl::unexpected<Error>(mask.error());
  const ServedPair& served = command.served;
  if (!resolve_pair(*trial, served.pair))
    return fail(ErrorKind::not_found, "pair", served.pair.text(), "a pair of this trial");
  if (served.left)
    if (auto left = check_temperature(*served.left, "left cup"); !left) return tl::unexpected<Error>(left.error());
  if (served.right)
    if (auto right = check_temperature(*served.right, "right cup"); !right) return tl::unexpected<Error>(right.error());
  const auto old = trial->served.find(served.pair);
  if (old != trial->served.end() && old->second == served) return no_change(trial, Part::served, served.pair.text());
  auto next = copy_of(trial);
  next->served[served.pair] = served;
  return change(std::move(next), Part::served, served.pair.text());
}

Result<Change> run(const TrialPtr& trial, const OpenKey& command, const Moment& now) {
  if (auto pass = KeyVault::reveal(*trial, command.preparer); !pass) return tl::unexpected<Error>(pass.error());
  const auto is_open = [&](const KeyOpening& opening) {
    return opening.preparer == command.preparer && !opening.closed;
  };
  const std::string record = command.preparer.text();
  if (std::ranges::any_of(trial->openings, is_open)) return no_change(trial, Part::key_log, record);
  auto next = copy_of(trial);
  next->openings.push_back({command.preparer, now, std::nullopt});
  return change(std::move(next), Part::key_log, record);
}

Result<Change> run(const TrialPtr& trial, const CloseKey& command, const Moment& now) {
  const std::string record = command.preparer.text();
  auto next = copy_of(trial);
  bool closed = false;
  for (auto& opening : next->openings) {
    if (opening.preparer != command.preparer || opening.closed) continue;
    opening.closed = now;
    closed = true;
  }
  if (!closed) return no_change(trial, Part::key_log, record);
  return change(std::move(next), Part::key_log, record);
}

}  // namespace likeleaf::commands
