#pragma once
#include <QPointer>
#include <QTimer>
#include <QWidget>

#include "core/session/session.h"
#include "ui/findings/findings_work.h"
#include "ui/widgets/path_prompt.h"

class QLabel;
class QLayout;
class QProgressBar;
class QScrollArea;
class QStackedLayout;
class QVBoxLayout;

namespace likeleaf::ui {

class BlankLine;
class RuleBlock;
class SheetsPage;

/// What a trial found, top-down: while sheets are open their names; then the deliberate opening of the key; then the
/// answer, the rule, the charts, why to believe it, and what to do next.
class FindingsScreen final : public QWidget {
  Q_OBJECT
 public:
  FindingsScreen(Session& session, const Style& style, std::shared_ptr<FindingsShelf> shelf = nullptr,
                 QWidget* parent = nullptr);
  ~FindingsScreen() override;
  /// Re-reads the trial on the bench.
  void refresh();
  /// Replaces the system's save dialog.
  void set_path_prompt(PathPrompt prompt) { prompt_ = std::move(prompt); }
  void set_finder(Finder finder) { work_.set_finder(std::move(finder)); }

 signals:
  void report_wanted();
  /// A draft that follows this trial; the owner puts it on the bench and shows Plan.
  void follow_up_wanted(const likeleaf::Plan& plan);

 protected:
  void hideEvent(QHideEvent* event) override;

 private:
  void hear(const Notice& notice);
  QVBoxLayout* new_page();
  void show_draft();
  void show_open_sheets();
  QLayout* initials_for(const SealedPlan& plan, BlankLine* blank, QWidget* page);
  void show_key();
  void compute();
  void show_working();
  void show_trouble(const QString& sentence);
  void show_answer();
  QWidget* answer_column();
  QWidget* also_noted();
  QWidget* actions();
  void show_sheets();
  void hide_sheets();

  Session& session_;
  Style style_;
  PathPrompt prompt_ = file_dialog_prompt();
  std::shared_ptr<const Answer> answer_;
  IdOf<Trial> answered_;
  int view_ = 0;
  QStackedLayout* pages_;
  QScrollArea* scroll_;
  QPointer<SheetsPage> sheets_;
  QPointer<RuleBlock> rule_block_;
  QPointer<QProgressBar> progress_;
  QTimer slow_;
  FindingsWork work_;
  Subscription changes_;  // last: it ends before what it would refresh
};

}  // namespace likeleaf::ui
