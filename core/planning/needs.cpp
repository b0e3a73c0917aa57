#include "core/planning/needs.h"

#include <algorithm>

#include "core/domain/asked.h"

namespace likeleaf {
namespace {

// Drafts hold whatever was typed; these bounds keep the sums below far from overflow.
constexpr int most_brew_pairs = 40;
constexpr int most_pairs_in_a_sitting = 100;
constexpr int most_sittings = 400;
constexpr std::int64_t most_cup_microlitres = 10'000'000;
constexpr std::int64_t minutes_for_a_pair = 6;
constexpr std::int64_t minutes_for_the_reference_pair = 10;
constexpr std::int64_t grams_kept_by_a_gram_of_leaf = 3;

int contrast_count(const Plan& plan) {
  return static_cast<int>(contrasts(plan.lever).size());
}

/// Brew sets that one owner of brews makes: of all lots.
int brew_sets(const Plan& plan) {
  if (contrast_count(plan) == 0) return 0;
  return static_cast<int>(plan.lots.size()) * std::clamp(plan.brew_pairs, 0, most_brew_pairs);
}

/// Sets that fit beside a sitting's controls; a sitting without controls always takes one, however large.
int room_for_sets(const Plan& plan, int controls) {
  const int pairs = std::clamp(plan.pairs_per_sitting, 1, most_pairs_in_a_sitting);
  const int size = contrast_count(plan);
  if (controls == 0) return std::max(1, pairs / size);
  return std::max(0, pairs - controls) / size;
}

int controls_of(const Plan& plan, int sitting) {
  return static_cast<int>(std::ranges::count_if(plan.controls, [&](const Control& c) { return c.sitting == sitting; }));
}

int sitting_count(const Plan& plan) {
  if (plan.sittings > 0) return std::min(plan.sittings, most_sittings);
  const int sets = brew_sets(plan);
  if (sets == 0) return plan.controls.empty() ? 0 : 1;
  int room = 0;
  int sittings = 0;
  while (room < sets && sittings < most_sittings) {
    ++sittings;
    room += room_for_sets(plan, controls_of(plan, sittings));
  }
  // A control in a later sitting asks for that sitting, as long as each still has a set to taste.
  for (const auto& control : plan.controls)
    if (control.sitting <= std::min(sets, most_sittings)) sittings = std::max(sittings, control.sitting);
  return sittings;
}

/// How many cups of one taster come from one brew of a contrast set: the reference stands in every contrast.
int cups_a_taster(const Plan& plan) {
  int most = 0;
  for (std::size_t level = 0; level < plan.lever.levels.size(); ++level) {
    const auto pairs = contrasts(plan.lever);
    most = std::max(most, static_cast<int>(std::ranges::count_if(
                              pairs, [&](const Contrast& c) { return c.a == level || c.b == level; })));
  }
  const bool repeated =
      std::ranges::any_of(plan.controls, [](const Control& c) { return c.kind == ControlKind::repeat; });
  return most + (repeated && most > 0 ? 1 : 0);
}

/// The running sums of needs(): one place that knows what a brew costs.
class Counter {
 public:
  Counter(const Plan& plan, Needs& needs) : plan_(plan), needs_(needs) {}

  LotNeed& lot(IdOf<Lot> id) {
    for (auto& need : needs_.lots)
      if (need.lot == id) return need;
    needs_.lots.push_back(LotNeed{id, 0, {}, {}, {}, true});
    return needs_.lots.back();
  }
  /// Brews of no lot yet (a control still being typed) count, though for nobody's leaf.
  void brew(IdOf<Lot> id, std::size_t level, int times) {
    if (!id.empty()) {
      LotNeed& need = lot(id);
      need.brews += times;
      need.leaf = need.leaf + planned_leaf(plan_, level).value_or(Mass{}) * times;
    }
    needs_.brews += times;
    water_mg_ += planned_water(plan_, level).value_or(Mass{}).count() * times;
  }
  /// A milligram of water is taken as a microlitre: brewing water is weighed cold.
  [[nodiscard]] Volume water() const { return Volume(water_mg_); }

 private:
  const Plan& plan_;
  Needs& needs_;
  std::int64_t water_mg_ = 0;
};

/// Brews of one sitting, for one owner of brews.
int brews_in(const Plan& plan, const SittingShape& shape, int sitting) {
  int brews = shape.warm_up ? brews_of_a_warm_up : 0;
  if (shape.contrast_pairs > 0)
    brews += shape.contrast_pairs / contrast_count(plan) * static_cast<int>(plan.lever.levels.size());
  for (const auto& control : plan.controls)
    if (control.sitting == sitting) brews += brews_of_control(control.kind);
  return brews;
}

void count_brews(const Plan& plan, int owners, int sittings, Counter& counter) {
  const std::size_t reference = plan.lever.reference();
  for (const auto& lot : plan.lots)
    if (!lot.empty()) counter.lot(lot);
  if (contrast_count(plan) > 0)
    for (const auto& lot : plan.lots)
      for (std::size_t level = 0; level < plan.lever.levels.size(); ++level)
        counter.brew(lot, level, std::clamp(plan.brew_pairs, 0, most_brew_pairs) * owners);
  for (const auto& control : plan.controls)
    if (control.sitting >= 1 && control.sitting <= sittings)
      counter.brew(control.lot, control.level, brews_of_control(control.kind) * owners);
  if (!plan.warm_up_lot.empty() && sittings > 0)
    counter.brew(plan.warm_up_lot, reference, brews_of_a_warm_up * owners * sittings);
}

void look_up_stock(const Registers& registers, std::vector<LotNeed>& lots) {
  for (auto& need : lots) {
    const Lot* lot = find_record(registers.lots, need.lot);
    if (!lot || lot->stock.count() <= 0) continue;
    need.stock = lot->stock;
    need.lasts = lot->stock >= need.leaf + need.open_reference_leaf;
  }
}

}  // namespace

int brews_of_control(ControlKind kind) {
  switch (kind) {
    case ControlKind::blank:
      return brews_of_a_blank;
    case ControlKind::yardstick:
      return brews_of_a_yardstick;
    case ControlKind::repeat:
      return 0;
  }
  return 0;
}

std::vector<SittingShape> sitting_shapes(const Plan& plan) {
  std::vector<SittingShape> shapes(static_cast<std::size_t>(sitting_count(plan)));
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    shapes[i].controls = controls_of(plan, static_cast<int>(i) + 1);
    shapes[i].warm_up = !plan.warm_up_lot.empty();
  }
  if (shapes.empty()) return shapes;
  const int size = contrast_count(plan);
  for (int set = 0; set < brew_sets(plan); ++set) {
    const auto emptiest =
        std::ranges::min_element(shapes, {}, [](const SittingShape& s) { return s.contrast_pairs + s.controls; });
    emptiest->contrast_pairs += size;
  }
  return shapes;
}

std::optional<Volume> liquor_of_a_brew(const Plan& plan, std::size_t level) {
  const auto water = planned_water(plan, level);
  if (!water) return std::nullopt;
  const std::int64_t kept = planned_leaf(plan, level).value_or(Mass{}).count() * grams_kept_by_a_gram_of_leaf;
  return Volume(std::max<std::int64_t>(0, water->count() - kept));
}

Needs needs(const Plan& plan, const Registers& registers) {
  Needs out;
  const auto shapes = sitting_shapes(plan);
  const int people = static_cast<int>(tasters(plan).size());
  // With nobody named yet one owner still brews, so that a young draft shows its grams.
  const int owners = plan.serving_way == ServingWay::own_brews ? std::max(1, people) : 1;
  const int tasters_of_a_pair = plan.serving_way == ServingWay::own_brews ? std::min(1, people) : people;
  out.sittings = static_cast<int>(shapes.size());
  out.cup = Volume(std::clamp<std::int64_t>(plan.cup.count(), 0, most_cup_microlitres));
  out.brew_pairs = brew_sets(plan) * owners;

  int most_pairs = 0;
  for (std::size_t i = 0; i < shapes.size(); ++i) {
    const int counted = shapes[i].contrast_pairs + shapes[i].controls;
    const int all = counted + (shapes[i].warm_up ? 1 : 0);
    most_pairs = std::max(most_pairs, all);
    out.pairs += all * owners;
    out.tasted_pairs += shapes[i].contrast_pairs * people;
    out.sheets += all * people;
    out.counted_sheets += counted * people;
    out.cups += all * people * 2;
    out.most_cups_in_a_sitting = std::max(out.most_cups_in_a_sitting, all * people * 2);
    out.most_brews_in_a_sitting =
        std::max(out.most_brews_in_a_sitting, brews_in(plan, shapes[i], static_cast<int>(i) + 1) * owners);
  }
  out.sitting_for_taster = minutes(most_pairs * minutes_for_a_pair);

  Counter counter(plan, out);
  count_brews(plan, owners, out.sittings, counter);
  out.water = counter.water();
  out.liquor_per_brew = out.cup * (static_cast<std::int64_t>(tasters_of_a_pair) * cups_a_taster(plan));

  if (plan.reference_pair && !plan.reference_pair->lot.empty()) {
    out.open_reference_brews = brews_of_a_reference_pair;
    out.first_sitting_extra = minutes(minutes_for_the_reference_pair);
    counter.lot(plan.reference_pair->lot).open_reference_leaf =
        planned_leaf(plan, plan.lever.reference()).value_or(Mass{}) * brews_of_a_reference_pair;
  }
  look_up_stock(registers, out.lots);
  return out;
}

}  // namespace likeleaf
