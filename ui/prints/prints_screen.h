#pragma once
#include <QWidget>
#include <optional>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"
#include "ui/render/prints.h"
#include "ui/widgets/path_prompt.h"
#include "ui/widgets/printer_prompt.h"

class QButtonGroup;
class QComboBox;
class QLabel;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace likeleaf::ui {

/// The prints of the trial on the bench, page by page as they will be, to save or to send to a printer. For the bench:
/// labels, tray map and the preparer's sheet, whose key opens on purpose, is logged, and closes with the view. For the
/// tasters: score sheets, and nothing of the trial besides.
class PrintsScreen final : public QWidget {
  Q_OBJECT
 public:
  enum class Side { bench, tasters };
  PrintsScreen(Session& session, const Style& style, QWidget* parent = nullptr);
  ~PrintsScreen() override;
  /// Shows the prints of one side; `sitting` 0: all.
  void show_side(Side side, int sitting);
  void set_path_prompt(PathPrompt prompt) { path_prompt_ = std::move(prompt); }
  void set_printer_prompt(PrinterPrompt prompt) { printer_prompt_ = std::move(prompt); }
  [[nodiscard]] bool key_open() const { return pass_.has_value(); }

 signals:
  void leave_wanted();
  void saved(const QString& path);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  enum Kind { labels, trays, preparer, slips, sheets };
  struct Ready {
    Print print;
    QString file;  ///< suggested name without ending
  };
  void build_choices(QVBoxLayout* down);
  void build_reveal(QVBoxLayout* down);
  void choose(Kind kind);
  void fill_scopes(const Trial& trial, int sitting);
  void fill_people(const Trial& trial);
  void show_print();
  void show_pages(const Print& print);
  void show_words(const QString& words);
  void open_key();
  void close_key();
  void save();
  void send();
  void say(const QString& sentence, bool caution = false);
  [[nodiscard]] report::PrintScope scope() const;
  /// The print as it stands; why not, else.
  [[nodiscard]] Result<Ready> make() const;
  [[nodiscard]] Result<report::SheetPlan> sheet_plan(const Trial& trial, IdOf<Assessor> taster) const;

  Session& session_;
  const Style& style_;
  PathPrompt path_prompt_ = file_dialog_prompt();
  PrinterPrompt printer_prompt_ = printer_dialog_prompt();
  std::optional<PreparerPass> pass_;
  Side side_ = Side::bench;
  Kind kind_ = labels;
  Paper paper_ = chosen_paper();
  bool stale_ = true;
  QLabel* title_ = nullptr;
  QLabel* about_ = nullptr;
  QButtonGroup* kinds_ = nullptr;
  std::vector<QPushButton*> kind_buttons_;
  QButtonGroup* papers_ = nullptr;
  QComboBox* scope_ = nullptr;
  QComboBox* who_ = nullptr;
  QLabel* who_label_ = nullptr;
  QWidget* acts_ = nullptr;
  QPushButton* save_ = nullptr;
  QWidget* reveal_ = nullptr;
  QComboBox* preparer_ = nullptr;
  QLabel* said_ = nullptr;
  QScrollArea* scroll_ = nullptr;
  Subscription changes_;
};

}  // namespace likeleaf::ui
