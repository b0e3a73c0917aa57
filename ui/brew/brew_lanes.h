#pragma once
// Every brew's way to its serving moment, one lane a brew, both levels drawn alike: shade says the act, never the
// level.
#include <QString>
#include <QWidget>
#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/domain/trial.h"

namespace likeleaf::ui {

enum class LanePart { pour, steep, drain, chill, hold };

struct LaneSegment {
  LanePart part = LanePart::pour;
  std::int64_t from = 0, to = 0;  ///< ms from the sitting's first pour
  bool planned = false;           ///< not stamped yet: paler
};
struct Lane {
  IdOf<Brew> brew;
  int number = 0;
  QString label;
  QString said;  ///< the lane in words, for screen readers
  std::vector<LaneSegment> segments;
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

class BrewLanes final : public QWidget {
  Q_OBJECT
 public:
  explicit BrewLanes(QWidget* parent = nullptr);
  /// `current` is drawn bold; `choosable` lanes answer clicks and the up and down keys.
  void show_board(LaneBoard board, IdOf<Brew> current, bool choosable);
  [[nodiscard]] const LaneBoard& board() const { return board_; }
  /// The lane that stamps belong to, in words.
  [[nodiscard]] QString current_said() const;
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;

 signals:
  void chosen(const QString& brew);  ///< id text

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  [[nodiscard]] double x_of(std::int64_t ms) const;
  [[nodiscard]] double lane_height() const;
  void paint_axis(QPainter& p) const;
  void paint_lane(QPainter& p, int row) const;
  void choose(int row);
  LaneBoard board_;
  IdOf<Brew> current_;
  bool choosable_ = false;
  double right_room_ = 96;  ///< px at the right of the last moment, for the words of its mark
};

}  // namespace likeleaf::ui
