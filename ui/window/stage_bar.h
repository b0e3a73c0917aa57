#pragma once
#include <QWidget>
#include <vector>

class QToolButton;

namespace likeleaf::ui {

/// The way through a trial: Trials, Plan, Brew, Taste, Findings, Report, each with a line of how far it is. Not a
/// wizard: every place that has something to show can be entered at any time.
class StageBar final : public QWidget {
  Q_OBJECT
 public:
  enum class Place { trials, plan, brew, taste, findings, report };
  explicit StageBar(QWidget* parent = nullptr);
  void set_current(Place place);
  void set_state(Place place, const QString& line, bool enabled);

 signals:
  void chosen(likeleaf::ui::StageBar::Place place);

 private:
  std::vector<QToolButton*> buttons_;
};

}  // namespace likeleaf::ui
