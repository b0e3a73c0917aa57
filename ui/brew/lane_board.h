#pragma once
// The board of a sitting with its words, as the lanes paint it.
#include <QString>
#include <vector>

#include "core/acts/bench_board.h"
#include "core/base/style.h"

namespace likeleaf::ui {

struct Lane {
  IdOf<Brew> brew;
  int number = 0;
  QString label;
  QString said;  ///< the lane in words, for screen readers
  std::vector<CourseSegment> segments;
};
struct LaneMark {
  std::int64_t at = 0;
  int lane_from = 0, lane_to = 0;
  QString text;  ///< "served pair 2", "serve pair 2"
};
struct LaneBoard {
  std::vector<Lane> lanes;
  std::vector<LaneMark> marks;
  std::optional<std::int64_t> now;
  std::int64_t end = 600'000;             ///< ms
  QString hold = QStringLiteral("hold");  ///< how a brew waits for its pair
};

/// `with_lot`: the key is open, lots stand beside the numbers.
LaneBoard lane_board(const Trial& trial, int sitting, const Moment& now, bool with_lot, const Style& style);

}  // namespace likeleaf::ui
