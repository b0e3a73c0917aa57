#pragma once
#include <QLabel>

#include "core/base/style.h"
#include "core/domain/trial.h"

namespace likeleaf::ui {

/// What drifted in a sitting: the newest with their number; all of them as its tip and its accessible name.
class DriftLine final : public QLabel {
  Q_OBJECT
 public:
  explicit DriftLine(const Style& style, QWidget* parent = nullptr);
  void show_drifts(const Trial& trial, int sitting);

 private:
  const Style& style_;
};

}  // namespace likeleaf::ui
