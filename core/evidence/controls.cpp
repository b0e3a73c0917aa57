// Blank pairs, yardstick pairs and repeat servings: methods.md section 6.
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "core/evidence/cup_values.h"
#include "core/evidence/find_parts.h"
#include "core/stats/binomial.h"
#include "core/stats/describe.h"
#include "core/stats/distributions.h"

namespace likeleaf::evidence {
namespace {

constexpr double control_alpha = 0.05;
constexpr int fewest_blanks = 10;

/// D in points or ln ratio; cut-off finish times at their low end.
std::optional<double> plain_difference(const Pairing& pairing, const Attribute& attribute) {
  const auto d = cup_difference(cup_a(pairing), cup_b(pairing), attribute, CutOff::low_end);
  if (!d) return std::nullopt;
  return static_cast<double>(d->d) / static_cast<double>(grid_units(attribute.scale));
}

const PlanAttribute* planned(const SealedPlan& sealed, const Attribute& attribute) {
  for (const auto& p : sealed.plan.attributes)
    if (p.attribute == attribute.id) return &p;
  return nullptr;
}

template <class Take>
void each_control(const Unmasked& unmasked, PairKind kind, Take take) {
  for (const auto& pairing : unmasked.pairings())
    if (pairing.kind == kind && pairing.sheet && !pairing.excluded_before) take(pairing);
}

}  // namespace

std::vector<BlankControl> blank_controls(const Unmasked& unmasked) {
  std::vector<BlankControl> result;
  for (const auto& attribute : unmasked.plan().attributes) {
    const auto* plan = planned(unmasked.plan(), attribute);
    if (!plan) continue;
    const std::int64_t margin = grid_margin(attribute.scale, plan->margin);
    BlankControl blank;
    blank.attribute = attribute.id;
    double sum = 0;
    each_control(unmasked, PairKind::blank, [&](const Pairing& pairing) {
      const auto d = cup_difference(cup_a(pairing), cup_b(pairing), attribute, CutOff::low_end);
      if (!d) return;
      const double size = static_cast<double>(std::abs(d->d)) / static_cast<double>(grid_units(attribute.scale));
      ++blank.sheets;
      sum += size;
      blank.largest = std::max(blank.largest, size);
      // Whole numbers: a blank that differs by just the margin is at the margin.
      if (std::abs(d->d) >= margin) ++blank.at_least_margin;
    });
    if (blank.sheets == 0) continue;
    blank.mean_abs = sum / blank.sheets;
    const auto share = stats::clopper_pearson(blank.at_least_margin, blank.sheets, control_alpha);
    if (share) blank.share = {share->lower, share->upper, 1 - control_alpha};
    blank.too_few = blank.sheets < fewest_blanks;
    result.push_back(blank);
  }
  return result;
}

std::vector<YardstickControl> yardstick_controls(const Unmasked& unmasked) {
  std::vector<YardstickControl> result;
  for (const auto& attribute : unmasked.plan().attributes) {
    // One pot a pair: pots of different lots or dilutions are different yardsticks.
    std::map<std::tuple<std::string, std::int64_t, IdOf<Pair>>, std::vector<double>> pots;
    each_control(unmasked, PairKind::yardstick, [&](const Pairing& pairing) {
      if (const auto d = plain_difference(pairing, attribute))
        pots[{lot_code(unmasked.plan(), pairing.lot), pairing.dilution_b.count(), pairing.pair}].push_back(*d);
    });
    for (const auto& [pot, values] : pots) {
      YardstickControl control;
      control.attribute = attribute.id;
      control.lot = std::get<0>(pot);
      control.dilution_percent = static_cast<double>(std::get<1>(pot)) / 10;
      control.sheets = static_cast<int>(values.size());
      const auto d = stats::describe(values);
      if (!d) continue;
      control.mean = d->mean;
      if (d->sd && *d->sd > 0) {
        const auto n = static_cast<double>(values.size());
        const double reach = stats::student_t_upper_quantile(control_alpha / 2, n - 1) * *d->sd / std::sqrt(n);
        control.interval = Interval{d->mean - reach, d->mean + reach, 1 - control_alpha};
        control.noticed = control.interval->low > 0 || control.interval->high < 0;
      }
      result.push_back(control);
    }
  }
  return result;
}

std::vector<RepeatControl> repeat_controls(const Unmasked& unmasked) {
  std::map<std::pair<IdOf<Pair>, IdOf<Assessor>>, const Pairing*> first;
  each_control(unmasked, PairKind::contrast, [&](const Pairing& pairing) {
    first[{pairing.pair, pairing.assessor}] = &pairing;
  });
  std::vector<RepeatControl> result;
  for (const auto& attribute : unmasked.plan().attributes) {
    RepeatControl repeat;
    repeat.attribute = attribute.id;
    double sum = 0;
    each_control(unmasked, PairKind::repeat, [&](const Pairing& pairing) {
      if (!pairing.repeat_of) return;
      const auto twin = first.find({*pairing.repeat_of, pairing.assessor});
      if (twin == first.end()) return;
      const auto d = plain_difference(pairing, attribute), earlier = plain_difference(*twin->second, attribute);
      if (!d || !earlier) return;
      const double size = std::abs(*d - *earlier);
      ++repeat.pairs;
      sum += size;
      repeat.largest = std::max(repeat.largest, size);
    });
    if (repeat.pairs == 0) continue;
    repeat.mean_abs = sum / repeat.pairs;
    result.push_back(repeat);
  }
  return result;
}

}  // namespace likeleaf::evidence
