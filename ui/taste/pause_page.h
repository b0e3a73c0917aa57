#pragma once
// Between pairs: the rest with its clock, the break between sittings, the end, and a pair that was taken off the table.
#include <QStringList>
#include <QWidget>
#include <cstdint>
#include <optional>

class QHBoxLayout;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class ClockFace;

class PausePage final : public QWidget {
  Q_OBJECT
 public:
  struct Words {
    QString title, text;
    QString onward;      ///< the filled button; empty: leaving is the only way, and is that button
    QStringList locked;  ///< sheets that can be looked at, oldest first
  };
  explicit PausePage(QWidget* parent);
  void show_words(const Words& words);
  /// Another rest begins: it asks for the focus anew.
  void begin_rest() { over_.reset(); }
  /// The rest: while time is left the way on asks for a deliberate act, another button that has not the focus.
  void show_rest(std::int64_t left_ms, const QStringList& locked);
  [[nodiscard]] bool rests() const { return rests_; }

 signals:
  void onward();
  void leave_wanted();
  void look_wanted(int index);
  void asked();  ///< Enter while the clock of the rest was last seen running

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void show_locked(const QStringList& locked);
  void take_focus();

  bool rests_ = false;
  std::optional<bool> over_;  ///< of the rest that is shown
  QStringList locked_;
  ClockFace* clock_;
  QLabel *title_, *words_, *look_label_;
  QWidget* look_row_;
  QHBoxLayout* looks_;
  QPushButton *onward_, *early_, *leave_;
};

}  // namespace likeleaf::ui
