#pragma once
// One attribute of both cups: two scales that grow outward, and in the middle its name.
#include <QWidget>
#include <optional>

#include "core/domain/attribute.h"
#include "ui/widgets/score_scale.h"

class QLabel;
class QPushButton;

namespace likeleaf::ui {

/// Large, with its definition, while it is judged; small otherwise. While comparing it takes the direct answer: ← or [
/// left more, ↓ can't tell, → or ] right more, Backspace clears; or the three buttons.
class AttributeRow final : public QWidget {
  Q_OBJECT
 public:
  AttributeRow(const Attribute& attribute, char decimal_mark, QWidget* parent);
  [[nodiscard]] ScoreScale* scale(Side side) const { return side == Side::left ? left_ : right_; }
  [[nodiscard]] const Attribute& attribute() const { return attribute_; }
  void set_current(bool current);
  /// Asked for now by the comparing sip.
  void set_comparing(bool comparing);
  void set_answer(const std::optional<Direct>& answer);
  [[nodiscard]] const std::optional<Direct>& answer() const { return answer_; }

 signals:
  void answer_wanted(std::optional<likeleaf::Direct> answer);
  void focused();

 protected:
  void paintEvent(QPaintEvent*) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;

 private:
  void lay_out();

  Attribute attribute_;
  bool current_ = false, comparing_ = false;
  std::optional<Direct> answer_;
  ScoreScale* left_;
  ScoreScale* right_;
  QLabel* name_;
  QLabel* definition_;
  QLabel* said_;
  QWidget* answers_;
};

}  // namespace likeleaf::ui
