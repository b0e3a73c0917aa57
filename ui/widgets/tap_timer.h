#pragma once
// The finish of one cup: tapped twice, or typed.
#include <QWidget>
#include <optional>

#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/domain/score.h"
#include "ui/widgets/keep.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QTimer;

namespace likeleaf::ui {

/// First tap: the mouth is empty. Second tap: all has gone. Once there is a time, a tap changes nothing: only the first
/// full sip is timed. "Start over", or clearing the typed field, lets it be timed again.
class TapTimer final : public QWidget {
  Q_OBJECT
 public:
  explicit TapTimer(const Clock& clock, QWidget* parent = nullptr);
  /// `name` for the screen reader: "Finish length, cup 417"; `code` before the clock where two timers stand together.
  void set_name(const QString& name, const QString& code);
  void set_mark(const std::optional<Mark>& mark, Keep keep = Keep::kept);
  /// Why what was typed was not taken, under the field.
  void set_message(const QString& message);
  /// Forgets a tap that was not finished: another pair stands on the table.
  void reset();
  void tap();
  [[nodiscard]] bool running() const { return since_.has_value(); }
  [[nodiscard]] QPushButton* button() const { return button_; }
  [[nodiscard]] QPushButton* again() const { return again_; }
  [[nodiscard]] QLineEdit* line() const { return line_; }
  [[nodiscard]] QString message() const;
  /// "0:41", "under 3 s", "over 120 s", "not tasted".
  static QString text_of(const Mark& mark);

 signals:
  void mark_wanted(std::optional<likeleaf::Mark> mark);
  void refused(const likeleaf::Error& error);
  void focused();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void show_now();
  void typed();
  void start_over();

  const Clock& clock_;
  std::optional<Mark> mark_;
  Keep keep_ = Keep::kept;
  std::optional<Moment> since_;
  QPushButton *button_, *again_;
  QLabel *code_, *time_, *message_;
  QLineEdit* line_;
  QTimer* tick_;
};

}  // namespace likeleaf::ui
