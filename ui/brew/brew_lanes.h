#pragma once
// Every brew's way to its serving moment, one lane a brew, both levels drawn alike: shade says the act, never the
// level.
#include <QString>
#include <QWidget>
#include <cstdint>

#include "ui/brew/lane_board.h"

namespace likeleaf::ui {

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
