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
  /// A locked sheet is looked at: the answer is shown, nothing is asked.
  void set_read_only(bool read_only);
  void set_answer(const std::optional<Direct>& answer, Keep keep = Keep::kept);
  [[nodiscard]] const std::optional<Direct>& answer() const { return answer_; }
  /// Why something was not taken, in place of the definition; goes when the row is left or an answer is taken.
  void set_message(const QString& message);
  [[nodiscard]] QString message() const;
  /// What a screen reader hears as this row's value.
  [[nodiscard]] QString answer_words() const;

 signals:
  void answer_wanted(std::optional<likeleaf::Direct> answer);
  void focused();

 protected:
  void paintEvent(QPaintEvent*) override;
  void keyPressEvent(QKeyEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;

 private:
  QWidget* make_middle();
  void lay_out();

  Attribute attribute_;
  bool current_ = false, comparing_ = false, read_only_ = false;
  std::optional<Direct> answer_;
  Keep keep_ = Keep::kept;
  ScoreScale* left_ = nullptr;
  ScoreScale* right_ = nullptr;
  QLabel* name_ = nullptr;
  QLabel* definition_ = nullptr;
  QLabel* message_ = nullptr;
  QString told_;
  QLabel* said_ = nullptr;
  QWidget* answers_ = nullptr;
  QPushButton* choices_[3] = {};
};

}  // namespace likeleaf::ui
