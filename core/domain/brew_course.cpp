#include "core/domain/brew_course.h"

#include <algorithm>

#include "core/domain/asked.h"

namespace likeleaf {
namespace {

constexpr std::int64_t steep_of_a_plan_without = 60'000;
constexpr std::int64_t least_steep = 1000;

/// Adds one part after another; `at` is where the last one ended.
class Course {
 public:
  Course(const Brew& brew, const Bench& bench) : brew_(brew), bench_(bench), at_(bench.hands) {}

  /// A part ends at its stamp, else where it usually ends, and not before now when it is under way.
  void add(CoursePart part, StampKind begins, StampKind ends, int infusion, std::int64_t usual) {
    const auto from = moment(begins, infusion), to = moment(ends, infusion);
    const std::int64_t start = from.value_or(at_);
    std::int64_t end = to.value_or(start + usual);
    if (!to && from) end = std::max(end, bench_.now);
    // What is under way is stamped as far as it is; the rest of it is still a plan.
    if (!to && from && bench_.now > start && end > bench_.now) {
      segments_.push_back({part, start, bench_.now, false});
      segments_.push_back({part, bench_.now, end, true});
    } else if (end > start) {
      segments_.push_back({part, start, end, !to && !(from && end <= bench_.now)});
    }
    at_ = std::max(end, start);
  }
  [[nodiscard]] std::int64_t at() const { return at_; }
  std::vector<CourseSegment> take() { return std::move(segments_); }

 private:
  [[nodiscard]] std::optional<std::int64_t> moment(StampKind kind, int infusion) const {
    const Stamp* stamp = bench_.origin ? standing(brew_, kind, infusion) : nullptr;
    return stamp ? std::optional(elapsed(*bench_.origin, stamp->at).count()) : std::nullopt;
  }

  const Brew& brew_;
  const Bench& bench_;
  std::int64_t at_;
  std::vector<CourseSegment> segments_;
};

/// Between the end of a pour and the start of its drain.
std::int64_t left_alone(const Bench& bench, const Brew& brew, int infusion) {
  const std::size_t level = bench.keyed ? brew.level : bench.plan.lever.reference();
  const auto steep = asked(bench.plan, ConstantKind::steep_time, level, infusion);
  return std::max(least_steep, (steep ? bounded(steep->value) : steep_of_a_plan_without) -
                                   bench.usual.pour.count() / 2 - bench.usual.drain.count() / 2);
}

}  // namespace

std::vector<CourseSegment> course_of(const Brew& brew, Bench& bench) {
  Course course(brew, bench);
  const int count = infusion_count(bench.plan, brew);
  for (int i = 1; i <= count; ++i) {
    course.add(CoursePart::pour, StampKind::pour_start, StampKind::pour_end, i, bench.usual.pour.count());
    course.add(CoursePart::steep, StampKind::pour_end, StampKind::drain_start, i, left_alone(bench, brew, i));
    course.add(CoursePart::drain, StampKind::drain_start, StampKind::drain_end, i, bench.usual.drain.count());
  }
  bench.hands = std::max(bench.hands, course.at() + bench.usual.between.count());
  course.add(CoursePart::chill, StampKind::chill_start, StampKind::ready, count, bench.usual.chill.count());
  return course.take();
}

std::optional<Moment> first_pour(const std::vector<const Brew*>& brews) {
  std::optional<Moment> first;
  for (const auto* brew : brews)
    if (const Stamp* s = standing(*brew, StampKind::pour_start, 1); s && (!first || s->at < *first)) first = s->at;
  return first;
}

}  // namespace likeleaf
