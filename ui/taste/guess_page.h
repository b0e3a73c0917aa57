#pragma once
// After the lock: could you see a difference, and did you think you knew which was which?
#include <QWidget>
#include <optional>

#include "core/session/taster_port.h"

class QLabel;
class QPushButton;

namespace likeleaf::ui {

/// Y and N answer the first question, ← ↓ → the second; Enter keeps both.
class GuessPage final : public QWidget {
  Q_OBJECT
 public:
  GuessPage(TasterPort& port, QWidget* parent);
  void show_pair(const BlindServing& serving);

 signals:
  void kept();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void show_now();
  void keep();

  TasterPort& port_;
  IdOf<Serving> serving_;
  std::optional<bool> saw_;
  std::optional<std::optional<Side>> which_;
  QPushButton *yes_ = nullptr, *no_ = nullptr, *left_ = nullptr, *none_ = nullptr, *right_ = nullptr, *keep_ = nullptr;
  QLabel* message_ = nullptr;
};

}  // namespace likeleaf::ui
