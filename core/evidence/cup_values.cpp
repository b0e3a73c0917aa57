#include "core/evidence/cup_values.h"

#include <cmath>
#include <map>
#include <numeric>
#include <utility>

namespace likeleaf::evidence {
namespace {

constexpr int faint_halves = 1;    // 0.5
constexpr int strong_halves = 19;  // 9.5

template <class T>
const T* mark_as(const CupMarks& cup, const std::string& field) {
  const auto found = cup.marks.find(field);
  return found == cup.marks.end() ? nullptr : std::get_if<T>(&found->second);
}

std::optional<int> halves(const CupMarks& cup, const std::string& field) {
  const auto* score = mark_as<Score>(cup, field);
  if (!score) return std::nullopt;
  return score->halves();
}

struct Ends {
  int low = 0, high = 0;  // the bands, in half points, that a cup's change is made of
};

/// Intensity: the score twice. Register: base and top.
std::optional<Ends> ends(const CupMarks& cup, const Attribute& attribute) {
  if (attribute.scale == Scale::intensity) {
    const auto h = halves(cup, attribute.id);
    if (!h) return std::nullopt;
    return Ends{*h, *h};
  }
  const auto base = halves(cup, attribute.id + ".base"), top = halves(cup, attribute.id + ".top");
  if (!base || !top) return std::nullopt;
  return Ends{*base, *top};
}

std::int64_t whole_seconds(FinishTime time, CutOff cut_off) {
  if (time.under()) return cut_off == CutOff::low_end ? 1 : 3;
  if (time.over()) return cut_off == CutOff::low_end ? 120 : 240;
  return time.seconds();
}

/// round(1e9 ln(b/a)) of the reduced ratio. The larger over the smaller first, so that swapping the cups gives exactly
/// the opposite number.
std::int64_t log_ratio(std::int64_t a, std::int64_t b) {
  const std::int64_t common = std::gcd(a, b);
  const std::int64_t larger = std::max(a, b) / common;
  const std::int64_t smaller = std::min(a, b) / common;
  const std::int64_t size = std::llround(1e9 * std::log(static_cast<double>(larger) / static_cast<double>(smaller)));
  return b >= a ? size : -size;
}

std::optional<CupDifference> time_difference(const CupMarks& a, const CupMarks& b, const Attribute& attribute,
                                             CutOff cut_off) {
  const auto* time_a = mark_as<FinishTime>(a, attribute.id);
  const auto* time_b = mark_as<FinishTime>(b, attribute.id);
  if (!time_a || !time_b) return std::nullopt;
  if ((time_a->under() && time_b->under()) || (time_a->over() && time_b->over())) return std::nullopt;
  CupDifference result;
  result.cut_off = time_a->cut_off() || time_b->cut_off();
  result.d = log_ratio(whole_seconds(*time_a, cut_off), whole_seconds(*time_b, cut_off));
  return result;
}

}  // namespace

std::int64_t grid_units(Scale scale) {
  return scale == Scale::seconds ? 1'000'000'000 : 2;
}

std::optional<double> cup_value(const CupMarks& cup, const Attribute& attribute) {
  if (attribute.scale == Scale::seconds) {
    const auto* time = mark_as<FinishTime>(cup, attribute.id);
    if (!time) return std::nullopt;
    return time->seconds();
  }
  const auto e = ends(cup, attribute);
  if (!e) return std::nullopt;
  return (attribute.scale == Scale::intensity ? e->low : e->high - e->low) / 2.0;
}

std::optional<CupDifference> cup_difference(const CupMarks& a, const CupMarks& b, const Attribute& attribute,
                                            CutOff cut_off) {
  if (attribute.scale == Scale::seconds) return time_difference(a, b, attribute, cut_off);
  const auto ends_a = ends(a, attribute), ends_b = ends(b, attribute);
  if (!ends_a || !ends_b) return std::nullopt;
  CupDifference result;
  result.d = attribute.scale == Scale::intensity ? ends_b->low - ends_a->low
                                                 : (ends_b->high - ends_b->low) - (ends_a->high - ends_a->low);
  // For the register, whose change is made of two bands, the scale is out of range when both bands of both cups are.
  const auto all = [&](auto holds) {
    return holds(ends_a->low) && holds(ends_a->high) && holds(ends_b->low) && holds(ends_b->high);
  };
  result.faint = all([](int h) { return h <= faint_halves; });
  result.strong = all([](int h) { return h >= strong_halves; });
  return result;
}

bool any_cut_off(const CupMarks& a, const CupMarks& b, const Attribute& attribute) {
  if (attribute.scale != Scale::seconds) return false;
  for (const auto* cup : {&a, &b}) {
    const auto* time = mark_as<FinishTime>(*cup, attribute.id);
    if (time && time->cut_off()) return true;
  }
  return false;
}

bool could_not_judge(const CupMarks& a, const CupMarks& b, const Attribute& attribute) {
  for (const auto* cup : {&a, &b})
    for (const auto& field : mark_fields(attribute)) {
      const auto* answer = mark_as<NoScore>(*cup, field);
      if (answer && *answer == NoScore::could_not_judge) return true;
    }
  return false;
}

namespace {

bool counts(const Pairing& pairing, bool drop_late) {
  return pairing.sheet && !pairing.excluded_before && !(drop_late && pairing.excluded_after);
}

}  // namespace

std::vector<ContrastPairing> contrast_pairings(const Unmasked& unmasked, Contrast contrast, bool drop_late) {
  std::vector<ContrastPairing> result;
  // A repeated pair may itself be left out for one assessor; its lot and brew pair are still known.
  std::map<IdOf<Pair>, const Pairing*> of_pair;
  std::map<std::pair<IdOf<Pair>, IdOf<Assessor>>, std::size_t> place;
  for (const auto& pairing : unmasked.pairings()) {
    if (pairing.kind != PairKind::contrast || pairing.levels != contrast) continue;
    of_pair.emplace(pairing.pair, &pairing);
    if (!counts(pairing, drop_late)) continue;
    place[{pairing.pair, pairing.assessor}] = result.size();
    result.push_back({&pairing, pairing.lot, pairing.set, nullptr});
  }
  for (const auto& pairing : unmasked.pairings()) {
    if (pairing.kind != PairKind::repeat || !pairing.repeat_of || pairing.levels != contrast) continue;
    const auto original = of_pair.find(*pairing.repeat_of);
    if (original == of_pair.end() || !counts(pairing, drop_late)) continue;
    const auto twin = place.find({*pairing.repeat_of, pairing.assessor});
    ContrastPairing repeat{&pairing, original->second->lot, original->second->set, nullptr};
    if (twin != place.end()) {
      auto& first = result[twin->second];
      if (first.twin) continue;  // a third serving of one liquor to one assessor has no weight left to share
      first.twin = &pairing;
      repeat.twin = first.pairing;
    }
    result.push_back(repeat);
  }
  return result;
}

}  // namespace likeleaf::evidence
