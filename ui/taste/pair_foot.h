#pragma once
// The foot of a pair: keys, what is left to do, undo, the answers that are not a score, and the way on.
#include <QFrame>
#include <array>

#include "core/domain/score.h"
#include "ui/widgets/key_hints.h"

class QLabel;
class QPushButton;

namespace likeleaf::ui {

class PairFoot final : public QFrame {
  Q_OBJECT
 public:
  explicit PairFoot(QWidget* parent);
  void set_keys(const KeyHints::Hints& hints) { keys_->set_hints(hints); }
  void set_todo(const QString& words);
  void set_onward(const QString& words);
  void set_undo(bool possible);
  /// The three answers that are not a score, while a field can take them.
  void set_unscored(bool possible);
  [[nodiscard]] QPushButton* undo() const { return undo_; }
  [[nodiscard]] QPushButton* onward() const { return onward_; }
  [[nodiscard]] const std::array<QPushButton*, 3>& unscored() const { return unscored_; }

 signals:
  void undo_wanted();
  void unscored_wanted(likeleaf::NoScore answer);
  void onward_wanted();

 private:
  QWidget* make_unscored();

  KeyHints* keys_;
  QLabel* todo_;
  QPushButton *undo_, *onward_;
  QWidget* group_;
  std::array<QPushButton*, 3> unscored_{};
};

}  // namespace likeleaf::ui
