#include "ui/start/start_screen.h"

#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>
#include <map>

#include "core/base/clock.h"
#include "core/domain/plan.h"
#include "core/wording/lever_text.h"
#include "ui/start/trial_delegate.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/verdict_mark.h"

namespace likeleaf::ui {
namespace {

QComboBox* filter(const QString& name, const char* object, QWidget* parent) {
  auto* c = new QComboBox(parent);
  c->setObjectName(QString::fromLatin1(object));
  c->setAccessibleName(name);
  c->setMinimumHeight(36);
  return c;
}

/// Fills a filter with "all …" and what there is, each with its datum; keeps the choice where it is still there.
void fill_filter(QComboBox* filter, const QString& all, const std::map<QString, QVariant>& entries) {
  const QVariant chosen = filter->currentData();
  const QSignalBlocker quiet(filter);
  filter->clear();
  filter->addItem(all);
  for (const auto& [name, datum] : entries) filter->addItem(name, datum);
  filter->setCurrentIndex(chosen.isValid() ? std::max(0, filter->findData(chosen)) : 0);
}

QString stage_text(const store::LedgerRow& row) {
  switch (row.stage) {
    case Stage::plan:
      return QStringLiteral("draft");
    case Stage::brew_and_taste:
      return QStringLiteral("tasting, %1 of %2 sheets locked").arg(row.sheets_locked).arg(row.sheets);
    case Stage::all_locked:
      return QStringLiteral("all %1 sheets locked, to unmask").arg(row.sheets);
    case Stage::unmasked:
      break;
  }
  return row.unmasked ? QStringLiteral("unmasked %1").arg(text(date_text(*row.unmasked))) : QStringLiteral("unmasked");
}

}  // namespace

StartScreen::StartScreen(const Style& style, QWidget* parent) : QWidget(parent), style_(style) {
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 20, 28, 20);
  across->setSpacing(28);
  auto* left = new QVBoxLayout;
  left->setSpacing(10);
  auto* top = new QHBoxLayout;
  top->addWidget(label(QStringLiteral("Trials"), face(22, Weight::semi_bold), t.ink, this));
  count_ = label({}, face(15), t.soft_ink, this);
  count_->setObjectName(QStringLiteral("count"));
  count_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  top->addWidget(count_);
  left->addLayout(top);
  note_ = label({}, face(15), t.caution, this);
  note_->setObjectName(QStringLiteral("note"));
  note_->hide();
  left->addWidget(note_);
  left->addLayout(build_filters());
  list_ = new QListWidget(this);
  list_->setObjectName(QStringLiteral("trials"));
  list_->setAccessibleName(QStringLiteral("Trials of this book"));
  list_->setFrameShape(QFrame::NoFrame);
  list_->setResizeMode(QListView::Adjust);
  list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setItemDelegate(new TrialDelegate(list_));
  left->addWidget(list_, 1);
  empty_ = label({}, face(18), t.soft_ink, this);
  empty_->setObjectName(QStringLiteral("empty"));
  left->addWidget(empty_, 1);
  left->addLayout(build_acts());
  across->addLayout(left, 5);
  build_answer();
  set_trials({}, false, false);
}

QLayout* StartScreen::build_filters() {
  auto* down = new QVBoxLayout;
  down->setSpacing(8);
  search_ = new QLineEdit(this);
  search_->setObjectName(QStringLiteral("search"));
  search_->setPlaceholderText(QStringLiteral("search question, leaf, taster"));
  search_->setAccessibleName(QStringLiteral("Search trials"));
  search_->setClearButtonEnabled(true);
  search_->setMinimumHeight(36);
  search_->setMaxLength(200);
  down->addWidget(search_);
  auto* filters = new QHBoxLayout;
  filters->setSpacing(8);
  stage_ = filter(QStringLiteral("Stage"), "stage", this);
  stage_->addItems({QStringLiteral("all stages"), QStringLiteral("draft"), QStringLiteral("tasting"),
                    QStringLiteral("to unmask"), QStringLiteral("unmasked")});
  changes_ = filter(QStringLiteral("What changes"), "changes_filter", this);
  leaf_ = filter(QStringLiteral("Leaf"), "leaf_filter", this);
  for (auto* one : {stage_, changes_, leaf_}) {
    filters->addWidget(one, 1);
    connect(one, &QComboBox::currentIndexChanged, this, &StartScreen::search);
  }
  down->addLayout(filters);
  connect(search_, &QLineEdit::textChanged, this, &StartScreen::search);
  // Down from the search goes into what it found.
  connect(search_, &QLineEdit::returnPressed, this, [this] { list_->setFocus(); });
  return down;
}

QLayout* StartScreen::build_acts() {
  auto* down = new QVBoxLayout;
  down->setSpacing(10);
  auto* acts = new QHBoxLayout;
  auto* books = new QHBoxLayout;
  take_ = filled_button(QStringLiteral("&To this trial"), QStringLiteral("take"), this);
  new_trial_ = outlined_button(QStringLiteral("New t&rial"), QStringLiteral("new_trial"), this);
  for (auto* b : {take_, new_trial_}) acts->addWidget(b, 1);
  const auto button = [&](const QString& name, const QString& object, auto signal) {
    auto* b = outlined_button(name, object, this);
    connect(b, &QPushButton::clicked, this, signal);
    books->addWidget(b, 1);
    return b;
  };
  button(QStringLiteral("&New book…"), QStringLiteral("new_book"), &StartScreen::new_book_wanted);
  button(QStringLiteral("&Open…"), QStringLiteral("open"), &StartScreen::open_wanted);
  button(QStringLiteral("&Sample"), QStringLiteral("sample"), &StartScreen::sample_wanted);
  import_ = button(QStringLiteral("&Import…"), QStringLiteral("import"), &StartScreen::import_wanted);
  down->addLayout(acts);
  down->addLayout(books);
  for (auto* b : findChildren<QPushButton*>()) b->setAutoDefault(true);
  connect(take_, &QPushButton::clicked, this, &StartScreen::take_chosen);
  connect(list_, &QListWidget::itemActivated, this, &StartScreen::take_chosen);
  connect(list_, &QListWidget::currentRowChanged, this, &StartScreen::show_chosen);
  connect(new_trial_, &QPushButton::clicked, this, &StartScreen::new_trial_wanted);
  return down;
}

void StartScreen::build_answer() {
  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setObjectName(QStringLiteral("answer"));
  scroll->setAccessibleName(QStringLiteral("What the trial found"));
  answer_page_ = new QWidget;
  answer_layout_ = new QVBoxLayout(answer_page_);
  answer_layout_->setContentsMargins(24, 20, 24, 20);
  scroll->setWidget(answer_page_);
  QPalette sheet = answer_page_->palette();
  sheet.setColor(QPalette::Window, tokens().sheet);
  answer_page_->setAutoFillBackground(true);
  answer_page_->setPalette(sheet);
  static_cast<QHBoxLayout*>(layout())->addWidget(scroll, 7);
}

const store::LedgerRow* StartScreen::chosen() const {
  const int at = list_->currentRow();
  return at >= 0 && at < static_cast<int>(shown_.size()) ? shown_[static_cast<std::size_t>(at)] : nullptr;
}

void StartScreen::take_chosen() {
  if (const auto* row = chosen()) emit trial_wanted(row->number);
}

void StartScreen::begin() {
  if (!rows_.empty()) list_->setFocus();
}

void StartScreen::choose(int number) {
  for (std::size_t i = 0; i < shown_.size(); ++i)
    if (shown_[i]->number == number) list_->setCurrentRow(static_cast<int>(i));
}

void StartScreen::set_trials(std::vector<store::LedgerRow> rows, bool book_open, bool can_write) {
  const auto* at = chosen();
  const int was = at ? at->number : 0;
  shown_.clear();
  rows_ = std::move(rows);
  fill_filters();
  import_->setEnabled(book_open && can_write);
  new_trial_->setEnabled(book_open && can_write);
  search_->setEnabled(book_open);
  for (auto* one : {stage_, changes_, leaf_}) one->setEnabled(book_open);
  empty_->setText(
      book_open
          ? QStringLiteral(
                "This book has no trial yet. Plan a new one, import one, or open the sample to see a finished one.")
          : QStringLiteral("No book is open. A bench book keeps a house’s lots, trials and findings in one file. "
                           "Start a new one, open yours, or look at the sample."));
  refill(was);
}

void StartScreen::fill_filters() {
  std::map<QString, QVariant> changes, leaves;
  for (const auto& row : rows_) {
    changes.emplace(text(lever_name(row.lever.kind)), static_cast<int>(row.lever.kind));
    for (const auto& lot : row.lots) leaves.emplace(text(lot), text(lot));
  }
  fill_filter(changes_, QStringLiteral("all changes"), changes);
  fill_filter(leaf_, QStringLiteral("all leaves"), leaves);
}

QString StartScreen::row_text(const store::LedgerRow& row) const {
  QStringList lots;
  for (const auto& lot : row.lots) lots << text(lot);
  return QStringLiteral("%2\ntrial %1 · %3 · %4\n%5")
      .arg(row.number)
      .arg(row.question.empty() ? QStringLiteral("A new trial") : text(row.question),
           text(wording::changes_text(row.lever, style_)), lots.join(QStringLiteral(", ")), stage_text(row));
}

bool StartScreen::matches(const store::LedgerRow& row, const QString& wanted) const {
  if (wanted.isEmpty()) return true;
  QString all = row_text(row);
  for (const auto& who : row.assessors) all += QLatin1Char(' ') + text(who);
  for (const auto& word : wanted.split(QLatin1Char(' '), Qt::SkipEmptyParts))
    if (!all.contains(word, Qt::CaseInsensitive)) return false;
  return true;
}

bool StartScreen::fits(const store::LedgerRow& row) const {
  if (!matches(row, search_->text().trimmed())) return false;
  if (const int stage = stage_->currentIndex(); stage > 0 && static_cast<int>(row.stage) != stage - 1) return false;
  if (changes_->currentIndex() > 0 && changes_->currentData().toInt() != static_cast<int>(row.lever.kind)) return false;
  return leaf_->currentIndex() <= 0 ||
         std::ranges::find(row.lots, leaf_->currentData().toString().toStdString()) != row.lots.end();
}

void StartScreen::set_note(const QString& note) {
  note_->setText(note);
  note_->setVisible(!note.isEmpty());
}

void StartScreen::search() {
  const auto* at = chosen();
  refill(at ? at->number : 0);
}

void StartScreen::refill(int stay) {
  // What a trial found may take a while: it is worked out once, for the row where the list comes to stand.
  QSignalBlocker quiet(list_);
  list_->clear();
  shown_.clear();
  QStringList lines;
  for (const auto& row : rows_) {
    if (!fits(row)) continue;
    shown_.push_back(&row);
    lines << row_text(row);
  }
  list_->addItems(lines);
  empty_->setVisible(rows_.empty());
  list_->setVisible(!rows_.empty());
  take_->setEnabled(!shown_.empty());
  count_->setText(rows_.empty()                   ? QString()
                  : shown_.size() == rows_.size() ? QStringLiteral("%1 in this book").arg(rows_.size())
                                                  : QStringLiteral("%1 of %2").arg(shown_.size()).arg(rows_.size()));
  if (!shown_.empty()) list_->setCurrentRow(0);
  choose(stay);
  quiet.unblock();
  show_chosen();
}

void StartScreen::show_chosen() {
  const Tokens& t = tokens();
  while (auto* item = answer_layout_->takeAt(0)) {
    delete item->widget();
    if (auto* inner = item->layout()) {
      while (auto* deep = inner->takeAt(0)) {
        delete deep->widget();
        delete deep;
      }
    }
    delete item;
  }
  const auto* row = chosen();
  if (!row || !answer_) {
    answer_layout_->addWidget(label(rows_.empty() ? QStringLiteral("What a trial found is shown here.")
                                                  : QStringLiteral("No trial fits the search."),
                                    face(15), t.soft_ink, answer_page_));
    answer_layout_->addStretch(1);
    return;
  }
  const TrialAnswer answer = answer_(*row);
  if (answer.waiting || !answer.empty.isEmpty()) {
    answer_layout_->addWidget(label(answer.empty, face(15), t.soft_ink, answer_page_));
    answer_layout_->addStretch(1);
    return;
  }
  auto* headline = label(answer.headline, face(22, Weight::semi_bold), t.ink, answer_page_);
  headline->setObjectName(QStringLiteral("headline"));
  answer_layout_->addWidget(headline);
  answer_layout_->addWidget(label(answer.scope, face(15), t.soft_ink, answer_page_));
  answer_layout_->addSpacing(10);
  bool noted = false;
  for (const auto& line : answer.lines) {
    const bool also = line.word == evidence::Word::noted;
    if (also && !noted)
      answer_layout_->addWidget(label(QStringLiteral("also noted"), face(15), t.soft_ink, answer_page_));
    noted = noted || also;
    auto* beside = new QHBoxLayout;
    beside->setSpacing(10);
    beside->addWidget(new VerdictMark(line.word, answer_page_), 0, Qt::AlignTop);
    beside->addWidget(
        label(line.title + QLatin1Char('\n') + line.sentence, face(15), also ? t.soft_ink : t.ink, answer_page_), 1);
    answer_layout_->addLayout(beside);
  }
  if (!answer.rule.isEmpty()) {
    answer_layout_->addSpacing(8);
    answer_layout_->addWidget(label(QStringLiteral("written before tasting"), face(15), t.soft_ink, answer_page_));
    answer_layout_->addWidget(label(answer.rule, face(15), t.ink, answer_page_));
  }
  answer_layout_->addSpacing(12);
  auto* report = outlined_button(QStringLiteral("Read the re&port"), QStringLiteral("to_report"), answer_page_);
  connect(report, &QPushButton::clicked, this, [this, number = row->number] { emit report_wanted(number); });
  answer_layout_->addWidget(report, 0, Qt::AlignLeft);
  answer_layout_->addStretch(1);
}

}  // namespace likeleaf::ui
