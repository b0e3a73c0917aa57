#pragma once
// Beside the plan: what it can decide, what it needs, whether one variable changes, what stands in the way, the seal.
#include <QPushButton>
#include <functional>

#include "core/planning/plan_check.h"
#include "ui/plan/plan_section.h"

class QScrollArea;

namespace likeleaf::ui {

/// A sentence of what stands in the way; pressing it goes to the field.
class NoteLink final : public QPushButton {
  Q_OBJECT
 public:
  NoteLink(const QString& sentence, const QColor& color, QWidget* parent);
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override { return {80, 24}; }
  [[nodiscard]] bool hasHeightForWidth() const override { return true; }
  [[nodiscard]] int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QColor color_;
};

class VerdictPanel final : public QWidget {
  Q_OBJECT
 public:
  VerdictPanel(PlanEditor& editor, QWidget* parent);
  /// `notes` are what check() found on the draft.
  void refresh(const Trial& trial, const std::vector<PlanNote>& notes);

 signals:
  /// A sentence was pressed: show the control of this name.
  void wanted(const QString& object);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void fill(const Trial& trial, const std::vector<PlanNote>& notes, QVBoxLayout* down);
  void fill_notes(const Trial& trial, const std::vector<PlanNote>& notes, QVBoxLayout* down);
  void show_seal(const Trial& trial, const std::vector<PlanNote>& notes);

  PlanEditor& editor_;
  QScrollArea* scroll_;
  QPushButton* seal_;
  QLabel* beside_;
  QLabel* refusal_;
  QString shown_;
};

}  // namespace likeleaf::ui
