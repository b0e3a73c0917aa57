#pragma once
#include <QWidget>
#include <functional>
#include <string>
#include <vector>

#include "core/session/session.h"
#include "ui/start/trial_answer.h"

class QLabel;
class QLineEdit;
class QListWidget;
class QComboBox;
class QLayout;
class QVBoxLayout;
class QPushButton;

namespace likeleaf::ui {

/// The book's trials with search, and what the chosen one found.
class StartScreen final : public QWidget {
  Q_OBJECT
 public:
  /// `style` has to outlive the screen.
  explicit StartScreen(const Style& style, QWidget* parent = nullptr);
  void set_trials(std::vector<store::LedgerRow> rows, bool book_open, bool can_write);
  /// A message in words above the list; amber; empty hides it.
  void set_note(const QString& note);
  /// The keyboard goes to the list.
  void begin();
  /// Puts the list on a trial, when it is shown.
  void choose(int number);
  /// The source has more to say of the chosen trial now.
  void refresh_answer() { show_chosen(); }
  void set_answer_source(std::function<TrialAnswer(const store::LedgerRow&)> source) { answer_ = std::move(source); }

 signals:
  void new_book_wanted();
  void open_wanted();
  void sample_wanted();
  void import_wanted();
  void new_trial_wanted();
  void trial_wanted(int number);   ///< put this trial on the bench
  void report_wanted(int number);  ///< and show its report

 private:
  QLayout* build_filters();
  QLayout* build_acts();
  void build_answer();
  void fill_filters();
  [[nodiscard]] bool fits(const store::LedgerRow& row) const;
  [[nodiscard]] const store::LedgerRow* chosen() const;
  void take_chosen();
  [[nodiscard]] QString row_text(const store::LedgerRow& row) const;
  [[nodiscard]] bool matches(const store::LedgerRow& row, const QString& wanted) const;
  void search();
  /// Makes the list again and stands on trial `stay`, else on the first.
  void refill(int stay);
  void show_chosen();

  const Style& style_;
  std::vector<store::LedgerRow> rows_;
  std::vector<const store::LedgerRow*> shown_;
  std::function<TrialAnswer(const store::LedgerRow&)> answer_;
  QLabel* note_ = nullptr;
  QLabel* empty_ = nullptr;
  QLineEdit* search_ = nullptr;
  QComboBox *stage_ = nullptr, *changes_ = nullptr, *leaf_ = nullptr;
  QLabel* count_ = nullptr;
  QListWidget* list_ = nullptr;
  QPushButton *import_ = nullptr, *new_trial_ = nullptr, *take_ = nullptr;
  QWidget* answer_page_ = nullptr;
  QVBoxLayout* answer_layout_ = nullptr;
};

}  // namespace likeleaf::ui
