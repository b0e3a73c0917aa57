#pragma once
// One cup's scale for one field, growing outward from the middle of the table. A slider to a screen reader.
#include <QString>
#include <QWidget>
#include <optional>

#include "core/domain/score.h"
#include "ui/widgets/keep.h"

class QPainter;

namespace likeleaf::ui {

/// Shows a mark and asks for another; it never keeps one of its own. 0 to 10 by half steps.
/// Keys: 0–9 (1 then 0 is 10), '.' or ',' for a half, Backspace clears, Up and Down half a step, C N S for could not
/// judge, not tasted, spoilt. Wheel and mouse do the same.
class ScoreScale final : public QWidget {
  Q_OBJECT
 public:
  enum class Size { small, large, band };
  /// `side`: where the cup stands, so that the bar grows away from the middle. `name`: "Bitterness, cup 417".
  explicit ScoreScale(Side side, QWidget* parent = nullptr);
  void set_name(const QString& name);
  void set_decimal_mark(char mark) { decimal_mark_ = mark; }
  void set_mark(const std::optional<Mark>& mark);
  void set_size(Size size);
  /// Whether this cup is judged now: only then keys, wheel and mouse do anything.
  void set_open(bool open, bool by_tab);
  /// The mark is kept but not shown, to eyes and screen reader alike.
  void set_veiled(bool veiled);
  /// Soft ink until the mark is on disk; marked when it could not be written.
  void set_keep(Keep keep);
  /// What the two ends of the scale mean, written under it while it is large.
  void set_ends(const QString& low, const QString& high);

  [[nodiscard]] const std::optional<Mark>& mark() const { return mark_; }
  [[nodiscard]] bool open() const { return open_; }
  /// What is shown: "6.5", "not tasted", "–" when blank or veiled.
  [[nodiscard]] QString shown() const;
  /// Half points as shown; nothing when blank, veiled or not a score.
  [[nodiscard]] std::optional<int> halves() const;
  void ask_halves(int halves);
  /// Middle of the place on the scale for a number of half points, for the mouse.
  [[nodiscard]] QPoint place_of(int halves) const;

 signals:
  void mark_wanted(std::optional<likeleaf::Mark> mark);
  void refused(const QString& typed);  ///< "7.3": not on this scale
  void focused();

 protected:
  void paintEvent(QPaintEvent*) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;

 private:
  [[nodiscard]] QRectF track() const;
  void paint_track(QPainter& p, const QRectF& line) const;
  void paint_number(QPainter& p, const QRectF& line) const;
  void type_digit(int digit);
  void type_half();
  void ask_at(double x);

  Side side_;
  Size size_ = Size::small;
  std::optional<Mark> mark_;
  bool open_ = false, veiled_ = false;
  Keep keep_ = Keep::kept;
  QString low_, high_;
  char decimal_mark_ = '.';
  QString typed_;  ///< since focus came or Backspace: "1" waits for a 0
  int wheel_ = 0;
};

}  // namespace likeleaf::ui
