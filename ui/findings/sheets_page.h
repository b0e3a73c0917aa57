#pragma once
#include <QWidget>

#include "core/session/session.h"
#include "ui/findings/sheet_lines.h"

class QLabel;
class QTableWidget;
class QVBoxLayout;

namespace likeleaf::ui {

/// All sheets of a trial, one by one: which are open, locked, changed, excluded. A locked one shows its marks by code,
/// what was changed, and lets a mark be amended or the sheet be left out, with who and why. No level is shown here.
class SheetsPage final : public QWidget {
  Q_OBJECT
 public:
  SheetsPage(Session& session, const Style& style, QWidget* parent = nullptr);
  /// Re-reads the trial; the sheet that is looked at stays.
  void refresh();

 signals:
  void left();

 private:
  void fill_list();
  void choose(int row);
  void show_sheet();
  /// Marks are open to see: nobody tastes any more, or they were asked for.
  [[nodiscard]] bool marks_open(const Trial& trial) const;
  void add_marks(QVBoxLayout* down, QWidget* page, const Trial& trial);
  void show_amend();
  void show_exclude();
  void put_form(QWidget* form);

  Session& session_;
  Style style_;
  std::vector<SheetLine> lines_;
  IdOf<Serving> chosen_;
  bool reveal_ = false;  ///< marks are shown while others still taste: asked for, sheet by sheet
  QLabel* count_;
  QTableWidget* list_;
  QWidget* holder_;
  QWidget* form_place_ = nullptr;
};

}  // namespace likeleaf::ui
