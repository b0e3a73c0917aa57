#pragma once
// A brew's way through time, act by act: as stamped, and as it usually goes where nothing is stamped yet.
#include <cstdint>
#include <optional>
#include <vector>

#include "core/domain/bench_order.h"

namespace likeleaf {

enum class CoursePart { pour, steep, drain, chill, hold };

struct CourseSegment {
  CoursePart part = CoursePart::pour;
  std::int64_t from = 0, to = 0;  ///< ms from the sitting's first pour
  bool planned = false;           ///< not stamped yet
  bool operator==(const CourseSegment&) const = default;
};

/// What the courses of one sitting's brews are worked out from, in the order of brewing.
struct Bench {
  const Plan& plan;
  UsualTimes usual;
  std::optional<Moment> origin;  ///< the first pour; nothing before it
  std::int64_t now = 0;          ///< ms from the origin
  std::int64_t hands = 0;        ///< ms from the origin: when the next pour can begin
  /// Without the key a planned steep must not tell the level: the reference's is taken for every brew.
  bool keyed = false;
};
/// From the pour to the end of the chill. Moves `hands` on to the end of this brew's last drain and a pause.
std::vector<CourseSegment> course_of(const Brew& brew, Bench& bench);
/// The first pour that stands among brews; nothing before it.
std::optional<Moment> first_pour(const std::vector<const Brew*>& brews);

}  // namespace likeleaf
