#pragma once
// Every brew of a sitting on its way to the table, as facts: what was stamped, what is still a plan, when a pair meets.
#include <cstdint>
#include <optional>
#include <vector>

#include "core/acts/bench_sitting.h"
#include "core/domain/brew_course.h"

namespace likeleaf {

struct BenchLane {
  const Brew* brew = nullptr;  ///< of the trial that the board was made from
  std::vector<CourseSegment> segments;
};
/// The moment when a pair is, or could be, on the table.
struct BenchMark {
  std::int64_t at = 0;             ///< ms from the first pour
  int lane_from = 0, lane_to = 0;  ///< lanes of its two brews, the upper one first
  TablePair pair;
  bool served = false;
};
struct BenchBoard {
  std::vector<BenchLane> lanes;     ///< by number of the brew
  std::vector<BenchMark> marks;     ///< only with the key: which brews meet at a table says what a pair is made of
  std::optional<std::int64_t> now;  ///< ms from the first pour; nothing before it, and on a board of hours ago
  std::int64_t end = 0;             ///< ms; the last moment on the board, two minutes at least
};
BenchBoard bench_board(const Trial& trial, int sitting, const Moment& now, bool keyed);

}  // namespace likeleaf
