#include "ui/findings/sheets_page.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QScrollArea>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/findings/sheet_forms.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

QTableWidget* plain_table(const QString& name, const QString& object, const QStringList& heads, QWidget* parent) {
  auto* table = new QTableWidget(0, static_cast<int>(heads.size()), parent);
  table->setObjectName(object);
  table->setAccessibleName(name);
  table->setHorizontalHeaderLabels(heads);
  table->setEditTriggers(QAbstractItemView::NoEditTriggers);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setFrameShape(QFrame::NoFrame);
  table->setTabKeyNavigation(false);
  table->setShowGrid(false);
  table->verticalHeader()->hide();
  table->setFont(face(15));
  table->horizontalHeader()->setFont(face(13, Weight::medium));
  table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  table->horizontalHeader()->setStretchLastSection(true);
  table->horizontalHeader()->setHighlightSections(false);
  return table;
}

void with_room(QTableWidget* table) {
  table->resizeColumnsToContents();
  for (int c = 0; c + 1 < table->columnCount(); ++c) table->setColumnWidth(c, table->columnWidth(c) + 16);
}

}  // namespace

SheetsPage::SheetsPage(Session& session, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), style_(style) {
  setObjectName(QStringLiteral("sheets_page"));
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(28, 18, 28, 18);
  down->setSpacing(10);
  auto* head = new QHBoxLayout;
  auto* title = label(QStringLiteral("The sheets, one by one"), face(22, Weight::semi_bold), t.ink, this);
  head->addWidget(title, 1);
  auto* back = outlined_button(QStringLiteral("Back to Findings"), QStringLiteral("sheets_back"), this);
  head->addWidget(back);
  down->addLayout(head);
  count_ = label({}, face(15), t.soft_ink, this);
  count_->setObjectName(QStringLiteral("sheets_count"));
  down->addWidget(count_);
  auto* across = new QHBoxLayout;
  across->setSpacing(28);
  list_ = plain_table(
      QStringLiteral("Sheets"), QStringLiteral("sheets_list"),
      {QStringLiteral("Taster"), QStringLiteral("Place"), QStringLiteral("Cups"), QStringLiteral("State")}, this);
  across->addWidget(list_, 5);
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  holder_ = new QWidget(scroll);
  new QVBoxLayout(holder_);
  holder_->layout()->setContentsMargins(0, 0, 8, 0);
  scroll->setWidget(holder_);
  across->addWidget(scroll, 6);
  down->addLayout(across, 1);
  connect(back, &QPushButton::clicked, this, &SheetsPage::left);
  connect(list_, &QTableWidget::currentCellChanged, this, [this](int row) { choose(row); });
  refresh();
}

void SheetsPage::refresh() {
  fill_list();
  show_sheet();
}

void SheetsPage::fill_list() {
  const auto trial = session_.trial();
  lines_ = trial ? sheet_lines(*trial) : std::vector<SheetLine>{};
  const QSignalBlocker quiet(list_);
  list_->setRowCount(static_cast<int>(lines_.size()));
  int row = 0, chosen_row = 0, locked = 0, excluded = 0;
  for (const auto& line : lines_) {
    int column = 0;
    for (const QString& cell : {line.taster, line.place, line.cups, line.state}) {
      auto* item = new QTableWidgetItem(cell);
      if (line.excluded) {
        QFont struck = face(15);
        struck.setStrikeOut(column < 3);
        item->setFont(struck);
      }
      if (line.excluded || !line.locked) item->setForeground(tokens().soft_ink);
      list_->setItem(row, column++, item);
    }
    if (line.serving == chosen_) chosen_row = row;
    locked += line.locked ? 1 : 0;
    excluded += line.excluded ? 1 : 0;
    ++row;
  }
  with_room(list_);
  count_->setText(
      QStringLiteral("%1 sheets, %2 locked, %3 excluded. A change is a record of its own: the old value stays.")
          .arg(lines_.size())
          .arg(locked)
          .arg(excluded));
  if (lines_.empty()) return;
  chosen_ = lines_[static_cast<std::size_t>(chosen_row)].serving;
  list_->setCurrentCell(chosen_row, 0);
}

void SheetsPage::choose(int row) {
  if (row < 0 || row >= static_cast<int>(lines_.size())) return;
  chosen_ = lines_[static_cast<std::size_t>(row)].serving;
  reveal_ = false;
  show_sheet();
}

void SheetsPage::show_sheet() {
  auto* layout = static_cast<QVBoxLayout*>(holder_->layout());
  while (auto* item = layout->takeAt(0)) {
    // The button pressed just now may be the sender of what is being heard.
    if (auto* w = item->widget()) w->hide(), w->deleteLater();
    delete item;
  }
  form_place_ = nullptr;
  const auto trial = session_.trial();
  const auto line = std::ranges::find(lines_, chosen_, &SheetLine::serving);
  if (!trial || line == lines_.end()) return;
  const Tokens& t = tokens();
  auto* page = new QWidget(holder_);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(8);
  auto* title = label(QStringLiteral("%1 %2: cups %3").arg(line->taster, line->place, line->cups),
                      face(16, Weight::semi_bold), t.ink, page);
  title->setObjectName(QStringLiteral("sheet_title"));
  down->addWidget(title);
  if (const auto excluded = exclusion_line(*trial, chosen_)) {
    auto* said = label(*excluded, face(15), t.caution, page);
    said->setObjectName(QStringLiteral("sheet_excluded"));
    down->addWidget(said);
  }
  for (const auto& change : change_lines(*trial, chosen_, style_)) {
    auto* said = label(change, face(15), t.ink, page);
    said->setObjectName(QStringLiteral("sheet_change"));
    down->addWidget(said);
  }
  if (!line->locked)
    down->addWidget(label(QStringLiteral("This sheet is still open: its taster writes on it as it is."), face(15),
                          t.soft_ink, page));
  if (!session_.read_only()) {
    auto* acts = new QHBoxLayout;
    acts->setSpacing(12);
    if (line->locked && marks_open(*trial)) {
      auto* amend = outlined_button(QStringLiteral("Change a mark"), QStringLiteral("amend"), page);
      connect(amend, &QPushButton::clicked, this, &SheetsPage::show_amend);
      acts->addWidget(amend);
    }
    if (!line->excluded) {
      auto* exclude = outlined_button(QStringLiteral("Exclude this sheet"), QStringLiteral("exclude"), page);
      connect(exclude, &QPushButton::clicked, this, &SheetsPage::show_exclude);
      acts->addWidget(exclude);
    }
    acts->addStretch(1);
    down->addLayout(acts);
  }
  form_place_ = new QWidget(page);
  new QVBoxLayout(form_place_);
  form_place_->layout()->setContentsMargins(0, 0, 0, 0);
  down->addWidget(form_place_);
  if (line->locked) add_marks(down, page, *trial);
  down->addStretch(1);
  layout->addWidget(page);
  page->show();
}

bool SheetsPage::marks_open(const Trial& trial) const {
  return reveal_ || trial.unmasked || open_sheets(trial).empty();
}

void SheetsPage::add_marks(QVBoxLayout* down, QWidget* page, const Trial& trial) {
  if (!marks_open(trial)) {
    down->addWidget(label(QStringLiteral("Somebody still tastes. Whoever does should not read what others wrote."),
                          face(15), tokens().soft_ink, page));
    auto* show = quiet_button(QStringLiteral("Show the marks"), QStringLiteral("show_marks"), page);
    connect(show, &QPushButton::clicked, this, [this] {
      reveal_ = true;
      show_sheet();
    });
    down->addWidget(show, 0, Qt::AlignLeft);
    return;
  }
  auto* marks = plain_table(QStringLiteral("Marks on this sheet"), QStringLiteral("sheet_marks"),
                            {QStringLiteral("Mark"), QStringLiteral("Now"), QStringLiteral("At first")}, page);
  marks->setFont(face(13));
  const auto lines = mark_lines(trial, chosen_, style_);
  marks->setRowCount(static_cast<int>(lines.size()));
  int row = 0, height = marks->horizontalHeader()->sizeHint().height() + 6;
  for (const auto& mark : lines) {
    marks->setItem(row, 0, new QTableWidgetItem(mark.name));
    marks->setItem(row, 1, new QTableWidgetItem(mark.now));
    marks->setItem(row, 2, new QTableWidgetItem(mark.was));  // empty where nothing was changed
    marks->setRowHeight(row, 26);
    height += 26;
    ++row;
  }
  with_room(marks);
  marks->setFixedHeight(height);
  down->addWidget(marks);
}

void SheetsPage::put_form(QWidget* form) {
  auto* layout = form_place_->layout();
  while (auto* item = layout->takeAt(0)) {
    item->widget()->hide();
    item->widget()->deleteLater();
    delete item;
  }
  layout->addWidget(form);
  form->show();
}

void SheetsPage::show_amend() {
  const auto trial = session_.trial();
  if (!trial || !form_place_) return;
  const auto* marks = holder_->findChild<QTableWidget*>(QStringLiteral("sheet_marks"));
  auto* form = new AmendForm(*trial, chosen_, style_, marks ? marks->currentRow() : 0, form_place_);
  put_form(form);
  connect(form, &AmendForm::left, this, &SheetsPage::show_sheet);
  connect(form, &AmendForm::wanted, this, [this, form] {
    if (!form->complete()) return;
    const auto done = session_.run(Amend{form->amendment()});
    if (!done)
      form->refuse(done.error());
    else if (*done == 0)
      form->say_same();
    else
      refresh();
  });
  form->findChild<QComboBox*>(QStringLiteral("amend_which"))->setFocus();
}

void SheetsPage::show_exclude() {
  const auto trial = session_.trial();
  if (!trial || !form_place_) return;
  auto* form = new ExcludeForm(trial->unmasked.has_value(), form_place_);
  put_form(form);
  connect(form, &ExcludeForm::left, this, &SheetsPage::show_sheet);
  connect(form, &ExcludeForm::wanted, this, [this, form] {
    if (!form->complete()) return;
    const auto done = session_.run(Exclude{chosen_, form->who(), form->why()});
    if (!done)
      form->refuse(done.error());
    else
      refresh();
  });
  form->findChild<QLineEdit*>(QStringLiteral("exclude_why"))->setFocus();
}

}  // namespace likeleaf::ui
