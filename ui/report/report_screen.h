#pragma once
#include <QTimer>
#include <QWidget>
#include <memory>
#include <vector>

#include "core/session/session.h"
#include "ui/findings/findings_work.h"
#include "ui/render/pdf.h"
#include "ui/widgets/path_prompt.h"

class QLabel;
class QProgressBar;
class QPushButton;
class QVBoxLayout;

namespace likeleaf::ui {

class PagePreview;

/// The staff report page by page as it will be printed, where to save it, and the reports that were made before, each
/// as it was. A report that is saved is kept in the book with the program that made it.
class ReportScreen final : public QWidget {
  Q_OBJECT
 public:
  ReportScreen(Session& session, const Style& style, std::shared_ptr<FindingsShelf> shelf = nullptr,
               QWidget* parent = nullptr);
  ~ReportScreen() override;
  /// Re-reads the trial on the bench.
  void refresh();
  void set_path_prompt(PathPrompt prompt) { prompt_ = std::move(prompt); }
  /// What is shown, of today or as it was made; nothing while there is no report to show.
  [[nodiscard]] const report::Document* document() const { return shown_.get(); }

 signals:
  /// A report was written to this path.
  void saved(const QString& path);

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  QWidget* make_acts();
  QWidget* make_progress();
  void hear(const Notice& notice);
  void say(const QString& sentence, bool caution = false);
  void show_closed(const QString& sentence);
  void show_today();
  void show_pages();
  void show_progress(const QString& what, double share);
  void hide_progress();
  void stop();
  void list_made();
  void show_made(IdOf<MadeReport> id);
  void save(const QString& ending);
  void save_step();
  void write(const QByteArray& bytes);
  void keep();

  Session& session_;
  Style style_;
  PathPrompt prompt_ = file_dialog_prompt();
  Paper paper_ = chosen_paper();
  std::shared_ptr<const Answer> answer_;
  std::shared_ptr<const report::Document> shown_;
  std::optional<MadeReport> made_;  ///< the one of before that is shown
  bool stale_ = true;               ///< pages are made when they are first looked at
  QString path_, ending_;           ///< of the file that is being made
  std::unique_ptr<PageMaker> pdf_;
  QTimer saving_;
  PagePreview* preview_ = nullptr;
  QWidget* acts_ = nullptr;
  QWidget* progress_ = nullptr;
  QLabel* progress_said_ = nullptr;
  QProgressBar* bar_ = nullptr;
  QLabel* said_ = nullptr;
  QLabel* as_made_ = nullptr;
  QPushButton* today_ = nullptr;
  QWidget* made_list_ = nullptr;
  FindingsWork work_;
  Subscription changes_;
};

}  // namespace likeleaf::ui
