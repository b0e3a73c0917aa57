#include "core/design/deal.h"

#include <algorithm>
#include <set>
#include <string>

#include "core/design/draw.h"
#include "core/design/keyed_side.h"
#include "core/design/open_side.h"
#include "core/design/sides.h"
#include "core/planning/needs.h"

namespace likeleaf::design {

namespace {

constexpr int most_brew_pairs = 40;
constexpr std::int64_t whole_permille = 1000;

bool any_twice(const std::vector<IdOf<Lot>>& lots) {
  return std::set<IdOf<Lot>>(lots.begin(), lots.end()).size() != lots.size();
}

Result<void> check_control(const Plan& plan, const Control& control, std::size_t sittings) {
  if (control.lot.empty()) return fail(ErrorKind::missing, "leaf of a control");
  if (control.kind == ControlKind::repeat &&
      std::find(plan.lots.begin(), plan.lots.end(), control.lot) == plan.lots.end())
    return fail(ErrorKind::bad_value, "leaf of a repeat serving", {}, "one of the trial's leaves");
  if (control.level >= plan.lever.levels.size())
    return fail(ErrorKind::bad_value, "level of a control", std::to_string(control.level + 1),
                "1 to " + std::to_string(plan.lever.levels.size()));
  if (control.sitting < 1 || static_cast<std::size_t>(control.sitting) > sittings)
    return fail(ErrorKind::bad_value, "sitting of a control", std::to_string(control.sitting),
                "1 to " + std::to_string(sittings));
  const auto dilution = control.dilution.count();
  if (control.kind == ControlKind::yardstick && (dilution <= 0 || dilution >= whole_permille))
    return fail(ErrorKind::bad_value, "dilution of a yardstick", std::to_string(dilution) + " permille",
                "1 to 999 permille of water added");
  return {};
}

/// What the draw itself needs of a plan; check() asks for more, and says it earlier.
Result<void> check_plan(const Plan& plan, std::size_t sittings) {
  if (plan.lever.levels.size() < 2)
    return fail(ErrorKind::bad_value, "levels", std::to_string(plan.lever.levels.size()), "two or more");
  if (plan.lots.empty()) return fail(ErrorKind::missing, "lots");
  if (any_twice(plan.lots)) return fail(ErrorKind::duplicate, "lots", {}, "each lot once");
  if (plan.brew_pairs < 1 || plan.brew_pairs > most_brew_pairs)
    return fail(ErrorKind::bad_value, "brew pairs of each lot", std::to_string(plan.brew_pairs), "1 to 40");
  if (tasters(plan).empty()) return fail(ErrorKind::missing, "assessors", {}, "at least one taster");
  for (const auto& control : plan.controls)
    if (auto ok = check_control(plan, control, sittings); !ok) return ok;
  return {};
}

OpenShape open_shape(const Plan& plan, const std::vector<SittingShape>& shapes) {
  OpenShape open;
  for (const auto& shape : shapes)
    open.sittings.push_back({static_cast<std::size_t>(shape.contrast_pairs + shape.controls), shape.warm_up});
  const auto people = tasters(plan);
  if (plan.serving_way == ServingWay::own_brews)
    for (const auto& taster : people) open.tables.push_back({taster});
  else
    open.tables.push_back(people);
  return open;
}

}  // namespace

Result<Deal> deal(const Plan& plan, const std::array<std::uint8_t, 32>& seed, const std::array<std::uint8_t, 32>& salt,
                  Entropy& ids) {
  const auto shapes = sitting_shapes(plan);
  if (auto ok = check_plan(plan, shapes.size()); !ok) return tl::unexpected(ok.error());

  // Two streams, so that nothing the key needs can shift what the tasters see; the open ids come before the keyed ones.
  const OpenShape shape = open_shape(plan, shapes);
  Draw open_draw = Draw::stream(seed, "open");
  auto open = deal_open_side(shape, open_draw, ids);
  if (!open) return tl::unexpected(open.error());
  Draw keyed_draw = Draw::stream(seed, "keyed");
  auto key = deal_keyed_side(plan, shapes, *open, shape.tables.size(), keyed_draw, ids);
  if (!key) return tl::unexpected(key.error());
  key->seed = seed;
  key->salt = salt;
  key->generator = generator_name;
  const Balance balance = measure_balance(*key, open->servings);
  return Deal{std::move(*key), std::move(open->servings), balance};
}

}  // namespace likeleaf::design
