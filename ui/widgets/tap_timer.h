#pragma once
// The finish of one cup: tapped twice, or typed.
#include <QWidget>
#include <optional>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/domain/score.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QTimer;

namespace likeleaf::ui {

/// First tap: the mouth is empty. Second tap: all has gone. Once there is a time, a tap changes nothing: only the first
/// full sip is timed. Clearing the typed field lets it be timed again.
class TapTimer final : public QWidget {
  Q_OBJECT
 public:
  /// `name` for the screen reader: "Finish length, cup 417".
  TapTimer(const Clock& clock, QWidget* parent = nullptr);
  void set_name(const QString& name);
  void set_mark(const std::optional<Mark>& mark);
  /// Forgets a tap that was not finished: another pair stands on the table.
  void reset();
  void tap();
  [[nodiscard]] bool running() const { return since_.has_value(); }
  [[nodiscard]] QPushButton* button() const { return button_; }
  [[nodiscard]] QLineEdit* line() const { return line_; }
  /// "0:41", "under 3 s", "over 120 s", "not tasted".
  static QString text_of(const Mark& mark);

 signals:
  void mark_wanted(std::optional<likeleaf::Mark> mark);
  void refused(const likeleaf::Error& error);

 private:
  void show_now();
  void typed();

  const Clock& clock_;
  std::optional<Mark> mark_;
  std::optional<Moment> since_;
  QPushButton* button_;
  QLabel* time_;
  QLineEdit* line_;
  QTimer* tick_;
};

}  // namespace likeleaf::ui
