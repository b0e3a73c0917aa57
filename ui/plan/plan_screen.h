#pragma once
// The plan of the trial on the bench, as a sheet of paper with underlined blanks; read-only once it is sealed.
#include <QWidget>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"
#include "ui/plan/plan_section.h"

class QPushButton;
class QScrollArea;

namespace likeleaf::ui {

class VerdictPanel;

class PlanScreen final : public QWidget {
  Q_OBJECT
 public:
  PlanScreen(Session& session, const Style& style, QWidget* parent = nullptr);
  ~PlanScreen() override;
  /// Reads the trial on the bench again; without one a button begins one.
  void refresh();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void order_tabs();
  void begin();
  void undo(bool again);

  Session& session_;
  PlanEditor editor_;
  QWidget* empty_;
  QLabel* note_;
  QScrollArea* scroll_;
  VerdictPanel* panel_;
  std::vector<PlanSection*> sections_;
  Subscription changes_;
};

}  // namespace likeleaf::ui
