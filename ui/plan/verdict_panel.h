#pragma once
// Beside the plan: what it can decide, what it needs, whether one variable changes, what stands in the way, the seal.
#include <QWidget>
#include <functional>

#include "ui/plan/plan_section.h"

class QScrollArea;

namespace likeleaf::ui {

class VerdictPanel final : public QWidget {
 public:
  VerdictPanel(PlanEditor& editor, QWidget* parent);
  void refresh(const Trial& trial);

 private:
  void fill(const Trial& trial, QVBoxLayout* down, bool& blocked);

  PlanEditor& editor_;
  QScrollArea* scroll_;
  QPushButton* seal_;
  QLabel* beside_;
  QLabel* refusal_;
};

}  // namespace likeleaf::ui
