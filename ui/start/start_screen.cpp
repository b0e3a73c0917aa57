#include "ui/start/start_screen.h"

#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "core/base/clock.h"
#include "ui/theme/theme.h"
#include "ui/widgets/verdict_mark.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

QLabel* label(const QString& s, const QFont& font, const QColor& color, QWidget* parent) {
  auto* l = new QLabel(s, parent);
  l->setFont(font);
  l->setWordWrap(true);
  l->setTextFormat(Qt::PlainText);
  l->setTextInteractionFlags(Qt::TextSelectableByMouse);
  QPalette p = l->palette();
  p.setColor(QPalette::WindowText, color);
  l->setPalette(p);
  return l;
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

QString row_text(const store::LedgerRow& row) {
  QStringList lots;
  for (const auto& lot : row.lots) lots << text(lot);
  return QStringLiteral("Trial %1 · %2\n%3 · %4\n%5")
      .arg(row.number)
      .arg(text(row.question), text(row.changes), lots.join(QStringLiteral(", ")), stage_text(row));
}

bool matches(const store::LedgerRow& row, const QString& wanted) {
  if (wanted.isEmpty()) return true;
  QString all = row_text(row);
  for (const auto& who : row.assessors) all += QLatin1Char(' ') + text(who);
  for (const auto& word : wanted.split(QLatin1Char(' '), Qt::SkipEmptyParts))
    if (!all.contains(word, Qt::CaseInsensitive)) return false;
  return true;
}

}  // namespace

StartScreen::StartScreen(QWidget* parent) : QWidget(parent) {
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 20, 28, 20);
  across->setSpacing(28);

  auto* left = new QVBoxLayout;
  left->setSpacing(10);
  left->addWidget(label(QStringLiteral("Trials"), face(22, Weight::semi_bold), t.ink, this));
  note_ = label({}, face(14), t.caution, this);
  note_->setObjectName(QStringLiteral("note"));
  note_->hide();
  left->addWidget(note_);
  auto* filters = new QHBoxLayout;
  search_ = new QLineEdit(this);
  search_->setObjectName(QStringLiteral("search"));
  search_->setPlaceholderText(QStringLiteral("search question, leaf, taster"));
  search_->setAccessibleName(QStringLiteral("Search trials"));
  search_->setClearButtonEnabled(true);
  search_->setMaxLength(200);
  stage_ = new QComboBox(this);
  stage_->setObjectName(QStringLiteral("stage"));
  stage_->setAccessibleName(QStringLiteral("Stage"));
  stage_->addItems({QStringLiteral("all stages"), QStringLiteral("draft"), QStringLiteral("tasting"),
                    QStringLiteral("to unmask"), QStringLiteral("unmasked")});
  filters->addWidget(search_, 1);
  filters->addWidget(stage_);
  left->addLayout(filters);
  list_ = new QListWidget(this);
  list_->setObjectName(QStringLiteral("trials"));
  list_->setAccessibleName(QStringLiteral("Trials of this book"));
  list_->setWordWrap(true);
  list_->setSpacing(4);
  list_->setFrameShape(QFrame::NoFrame);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  left->addWidget(list_, 1);
  empty_ = label({}, face(15), t.soft_ink, this);
  empty_->setObjectName(QStringLiteral("empty"));
  left->addWidget(empty_);
  auto* acts = new QHBoxLayout;
  auto* buttons = new QHBoxLayout;
  const auto button = [&](const QString& name, const QString& object, auto signal) {
    auto* b = new QPushButton(name, this);
    b->setObjectName(object);
    b->setMinimumHeight(36);
    connect(b, &QPushButton::clicked, this, signal);
    buttons->addWidget(b);
    return b;
  };
  take_ = new QPushButton(QStringLiteral("&To this trial"), this);
  take_->setObjectName(QStringLiteral("take"));
  new_trial_ = new QPushButton(QStringLiteral("New t&rial"), this);
  new_trial_->setObjectName(QStringLiteral("new_trial"));
  for (auto* b : {take_, new_trial_}) {
    b->setMinimumHeight(36);
    acts->addWidget(b);
  }
  QPalette filled = take_->palette();
  filled.setColor(QPalette::Button, t.action);
  filled.setColor(QPalette::ButtonText, t.on_action);
  take_->setPalette(filled);
  left->addLayout(acts);
  const auto take_chosen = [this] {
    const int at = list_->currentRow();
    if (at >= 0 && at < static_cast<int>(shown_.size()))
      emit trial_wanted(shown_[static_cast<std::size_t>(at)]->number);
  };
  connect(take_, &QPushButton::clicked, this, take_chosen);
  connect(list_, &QListWidget::itemActivated, this, take_chosen);
  connect(new_trial_, &QPushButton::clicked, this, &StartScreen::new_trial_wanted);
  button(QStringLiteral("&New book…"), QStringLiteral("new_book"), &StartScreen::new_book_wanted);
  button(QStringLiteral("&Open…"), QStringLiteral("open"), &StartScreen::open_wanted);
  button(QStringLiteral("&Sample"), QStringLiteral("sample"), &StartScreen::sample_wanted);
  import_ = button(QStringLiteral("&Import…"), QStringLiteral("import"), &StartScreen::import_wanted);
  left->addLayout(buttons);
  across->addLayout(left, 5);

  auto* scroll = new QScrollArea(this);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setObjectName(QStringLiteral("answer"));
  answer_page_ = new QWidget;
  answer_layout_ = new QVBoxLayout(answer_page_);
  answer_layout_->setContentsMargins(20, 16, 20, 16);
  scroll->setWidget(answer_page_);
  QPalette sheet = answer_page_->palette();
  sheet.setColor(QPalette::Window, t.sheet);
  answer_page_->setAutoFillBackground(true);
  answer_page_->setPalette(sheet);
  across->addWidget(scroll, 7);

  connect(search_, &QLineEdit::textChanged, this, &StartScreen::refill);
  connect(stage_, &QComboBox::currentIndexChanged, this, &StartScreen::refill);
  connect(list_, &QListWidget::currentRowChanged, this, &StartScreen::show_chosen);
  set_trials({}, false, false);
}

void StartScreen::set_trials(std::vector<store::LedgerRow> rows, bool book_open, bool can_write) {
  rows_ = std::move(rows);
  import_->setEnabled(book_open && can_write);
  new_trial_->setEnabled(book_open && can_write);
  search_->setEnabled(book_open);
  stage_->setEnabled(book_open);
  empty_->setText(
      book_open
          ? QStringLiteral(
                "This book has no trial yet. Plan a new one, import one, or open the sample to see a finished one.")
          : QStringLiteral("No book is open. A bench book keeps a house’s lots, trials and findings in one file. "
                           "Start a new one, open yours, or look at the sample."));
  refill();
}

void StartScreen::set_note(const QString& note) {
  note_->setText(note);
  note_->setVisible(!note.isEmpty());
}

void StartScreen::refill() {
  const QString wanted = search_->text().trimmed();
  const int stage = stage_->currentIndex();
  list_->clear();
  shown_.clear();
  for (const auto& row : rows_) {
    if (!matches(row, wanted)) continue;
    if (stage > 0 && static_cast<int>(row.stage) != stage - 1) continue;
    shown_.push_back(&row);
    list_->addItem(row_text(row));
  }
  empty_->setVisible(rows_.empty());
  list_->setVisible(!rows_.empty());
  take_->setEnabled(!shown_.empty());
  if (!shown_.empty())
    list_->setCurrentRow(0);
  else
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
  const int at = list_->currentRow();
  if (at < 0 || at >= static_cast<int>(shown_.size()) || !answer_) {
    answer_layout_->addWidget(label(rows_.empty() ? QStringLiteral("What a trial found is shown here.")
                                                  : QStringLiteral("No trial fits the search."),
                                    face(15), t.soft_ink, answer_page_));
    answer_layout_->addStretch(1);
    return;
  }
  const TrialAnswer answer = answer_(*shown_[static_cast<std::size_t>(at)]);
  if (!answer.empty.isEmpty()) {
    answer_layout_->addWidget(label(answer.empty, face(15), t.soft_ink, answer_page_));
    answer_layout_->addStretch(1);
    return;
  }
  auto* headline = label(answer.headline, face(22, Weight::semi_bold), t.ink, answer_page_);
  headline->setObjectName(QStringLiteral("headline"));
  answer_layout_->addWidget(headline);
  answer_layout_->addWidget(label(answer.scope, face(14), t.soft_ink, answer_page_));
  answer_layout_->addSpacing(10);
  bool noted = false;
  for (const auto& line : answer.lines) {
    const bool also = line.word == static_cast<int>(evidence::Word::noted);
    if (also && !noted)
      answer_layout_->addWidget(label(QStringLiteral("also noted"), face(13), t.soft_ink, answer_page_));
    noted = noted || also;
    auto* row = new QHBoxLayout;
    row->setSpacing(10);
    row->addWidget(new VerdictMark(static_cast<evidence::Word>(line.word), answer_page_), 0, Qt::AlignTop);
    row->addWidget(label(line.title + QLatin1Char('\n') + line.sentence, face(also ? 13 : 15),
                         also ? t.soft_ink : t.ink, answer_page_),
                   1);
    answer_layout_->addLayout(row);
  }
  if (!answer.rule.isEmpty()) {
    answer_layout_->addSpacing(8);
    answer_layout_->addWidget(label(QStringLiteral("written before tasting"), face(13), t.soft_ink, answer_page_));
    answer_layout_->addWidget(label(answer.rule, face(15), t.ink, answer_page_));
  }
  answer_layout_->addStretch(1);
}

}  // namespace likeleaf::ui
