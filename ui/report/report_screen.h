#pragma once
#include <QPointer>
#include <QWidget>

#include "core/session/session.h"
#include "ui/findings/findings_work.h"
#include "ui/render/pdf.h"
#include "ui/widgets/path_prompt.h"

class QLabel;
class QPushButton;
class QScrollArea;

namespace likeleaf::ui {

/// The staff report page by page as it will be printed, and where to save it.
class ReportScreen final : public QWidget {
  Q_OBJECT
 public:
  ReportScreen(Session& session, const Style& style, QWidget* parent = nullptr);
  ~ReportScreen() override;
  /// Re-reads the trial on the bench.
  void refresh();
  void set_path_prompt(PathPrompt prompt) { prompt_ = std::move(prompt); }
  /// Nothing while there is no report to show.
  [[nodiscard]] const report::Document* document() const { return answer_ ? &answer_->document : nullptr; }

 signals:
  /// A report was written to this path.
  void saved(const QString& path);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void say(const QString& sentence, bool caution = false);
  void show_closed(const QString& sentence);
  void show_pages();
  void save(const QString& ending);

  Session& session_;
  Style style_;
  PathPrompt prompt_ = file_dialog_prompt();
  Paper paper_ = chosen_paper();
  std::shared_ptr<const Answer> answer_;
  bool stale_ = true;  ///< pages are made when they are first looked at
  QScrollArea* scroll_;
  QWidget* acts_;
  QLabel* said_;
  FindingsWork work_;
  Subscription changes_;
};

}  // namespace likeleaf::ui
