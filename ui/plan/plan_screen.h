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
  /// Puts the focus where the page begins.
  void focus_top();
  /// Reads the trial on the bench again; without one a button begins one.
  void refresh();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  bool focusNextPrevChild(bool next) override;

 private:
  void make_sections(QWidget* page);
  [[nodiscard]] std::vector<QWidget*> stops() const;
  [[nodiscard]] QWidget* beyond(bool next) const;
  void stop_at(QWidget* stop, Qt::FocusReason reason);
  void begin();
  void show_place(const QString& object);
  void keep_in_view(QWidget* now);
  void undo(bool again);

  Session& session_;
  PlanEditor editor_;
  QWidget* empty_;
  QLabel* note_;
  QScrollArea* scroll_;
  VerdictPanel* panel_;
  std::vector<PlanSection*> sections_;
  bool walking_ = false;  ///< Tab is moving from stop to stop inside
  Subscription changes_;
};

}  // namespace likeleaf::ui
