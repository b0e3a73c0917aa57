#include "ui/paper/paper_screen.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <set>

#include "core/acts/paper_entry.h"
#include "core/wording/errors.h"
#include "ui/paper/compare_page.h"
#include "ui/paper/paper_grid.h"
#include "ui/paper/paper_words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

QWidget* ruled(QWidget* parent) {
  auto* line = new QWidget(parent);
  line->setFixedHeight(1);
  line->setAutoFillBackground(true);
  QPalette palette = line->palette();
  palette.setColor(QPalette::Window, tokens().line);
  line->setPalette(palette);
  return line;
}

}  // namespace

PaperScreen::PaperScreen(std::unique_ptr<TasterPort> port, const Style& style, QWidget* parent)
    : QWidget(parent), port_(std::move(port)), style_(style) {
  setAccessibleName(QStringLiteral("Paper sheets of %1").arg(text(port_->setup().alias)));
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(0);
  down->addWidget(make_head());
  down->addWidget(make_day());
  if (port_->setup().self_blinded) {
    auto* turned = plain_label(
        QStringLiteral("Self-blinded: type each cup under the code that was read beneath it. Where the codes stand the "
                       "other way round than here, turn L and R of the answers too."),
        face(15), tokens().soft_ink, this);
    turned->setObjectName(QStringLiteral("paper_self_blinded"));
    turned->setContentsMargins(28, 0, 28, 4);
    down->addWidget(turned);
  }
  down->addWidget(ruled(this));
  pages_ = new QStackedWidget(this);
  grid_ = new PaperGrid(*port_, style_, this);
  compare_ = new ComparePage(*port_, style_, this);
  pages_->addWidget(grid_);
  pages_->addWidget(compare_);
  down->addWidget(pages_, 1);
  down->addWidget(ruled(this));
  down->addWidget(make_foot());
  connect(grid_, &PaperGrid::hint_changed, this, [this](const QString& hint) {
    hint_->setText(mode_ == Mode::second ? QStringLiteral("Second entry · ") + hint : hint);
    say({});
    hand_ = grid_->pair_in_hand();
    show_undo();
  });
  connect(grid_, &PaperGrid::changed, this, &PaperScreen::show_progress);
  connect(grid_, &PaperGrid::lock_wanted, this, [this](int pair) { lock(static_cast<std::size_t>(pair)); });
  connect(grid_, &PaperGrid::undo_wanted, this, &PaperScreen::undo);
  connect(compare_, &ComparePage::settled, this, [this](int pair) {
    hand_ = static_cast<std::size_t>(pair);
    order_tabs();
    show_progress();
  });
  refresh();
}

PaperScreen::~PaperScreen() {
  grid_->commit();
}

QWidget* PaperScreen::make_head() {
  const Tokens& t = tokens();
  auto* head = new QWidget(this);
  auto* across = new QHBoxLayout(head);
  across->setContentsMargins(28, 6, 28, 4);
  across->setSpacing(12);
  auto* who = plain_label(text(port_->setup().alias), face(17, Weight::semi_bold), t.ink, head);
  who->setObjectName(QStringLiteral("paper_who"));
  who->setWordWrap(false);
  across->addWidget(who);
  sittings_ = new QComboBox(head);
  sittings_->setObjectName(QStringLiteral("sitting"));
  sittings_->setAccessibleName(QStringLiteral("Sitting"));
  sittings_->setFont(face(15));
  sittings_->setMinimumWidth(170);
  connect(sittings_, &QComboBox::currentIndexChanged, this, [this](int) {
    if (sittings_->currentData().isValid()) show_sitting(sittings_->currentData().toInt());
  });
  across->addWidget(sittings_);
  const auto mode = [&](const char* name, const QString& words, Mode which) {
    auto* button = new QuietButton(words, QuietButton::Look::outlined, head);
    button->setObjectName(QLatin1String(name));
    button->setCheckable(true);
    connect(button, &QPushButton::clicked, this, [this, which] { set_mode(which); });
    across->addWidget(button);
    modes_.push_back(button);
  };
  mode("mode_first", QStringLiteral("First entry"), Mode::first);
  mode("mode_second", QStringLiteral("Second entry"), Mode::second);
  mode("mode_compare", QStringLiteral("Compare"), Mode::compare);
  across->addStretch(1);
  progress_ = plain_label({}, face(15), t.soft_ink, head);
  progress_->setObjectName(QStringLiteral("paper_progress"));
  progress_->setWordWrap(false);
  across->addWidget(progress_);
  return head;
}

QWidget* PaperScreen::make_day() {
  auto* day = new QWidget(this);
  auto* across = new QHBoxLayout(day);
  across->setContentsMargins(28, 0, 28, 3);
  across->setSpacing(18);
  auto* name = plain_label(QStringLiteral("That day:"), face(15), tokens().soft_ink, day);
  name->setWordWrap(false);
  across->addWidget(name);
  const auto tick = [&](const char* id, const QString& words) {
    auto* box = new QCheckBox(words, day);
    box->setObjectName(QLatin1String(id));
    box->setFont(face(15));
    connect(box, &QCheckBox::clicked, this, &PaperScreen::put_day);
    across->addWidget(box);
    return box;
  };
  cold_ = tick("paper_cold", QStringLiteral("cold or blocked nose"));
  ate_ = tick("paper_ate", QStringLiteral("strong or spicy food within the hour"));
  swallows_ = tick("paper_swallows", QStringLiteral("swallows (otherwise: spits)"));
  day_note_ = underlined_edit(QStringLiteral("anything else that day"), day);
  day_note_->setObjectName(QStringLiteral("paper_day_note"));
  day_note_->setAccessibleName(QStringLiteral("Anything else that day"));
  connect(day_note_, &QLineEdit::editingFinished, this, &PaperScreen::put_day);
  across->addWidget(day_note_, 1);
  return day;
}

QWidget* PaperScreen::make_foot() {
  const Tokens& t = tokens();
  auto* foot = new QWidget(this);
  auto* down = new QVBoxLayout(foot);
  down->setContentsMargins(28, 5, 28, 6);
  down->setSpacing(6);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  // One or the other beside the buttons: what can be typed, or what was said; a long naming scrolls.
  hint_ = plain_label({}, face(15), t.soft_ink, foot);
  hint_->setObjectName(QStringLiteral("paper_hint"));
  across->addWidget(hint_, 1);
  auto* area = new QScrollArea(foot);
  area->setFrameShape(QFrame::NoFrame);
  area->setWidgetResizable(true);
  area->setFocusPolicy(Qt::NoFocus);
  message_ = plain_label({}, face(15), t.caution, area);
  message_->setObjectName(QStringLiteral("paper_message"));
  message_->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  area->setWidget(message_);
  area->hide();
  message_area_ = area;
  across->addWidget(area, 1);
  const auto button = [&](const char* name, const QString& words, QuietButton::Look look) {
    auto* made = new QuietButton(words, look, foot);
    made->setObjectName(QLatin1String(name));
    across->addWidget(made, 0, Qt::AlignBottom);  // where they were, however much is said beside them
    return made;
  };
  undo_ = button("paper_undo", QStringLiteral("Undo"), QuietButton::Look::outlined);
  connect(undo_, &QPushButton::clicked, this, &PaperScreen::undo);
  leave_ = button("paper_leave", QStringLiteral("Leave"), QuietButton::Look::outlined);
  connect(leave_, &QPushButton::clicked, this, &PaperScreen::leave_wanted);
  lock_all_ = button("lock_all", {}, QuietButton::Look::filled);
  connect(lock_all_, &QPushButton::clicked, this, [this] { lock(std::nullopt); });
  down->addLayout(across);
  return foot;
}

void PaperScreen::refresh() {
  const auto flight = port_->flight();
  std::set<int> sittings;
  for (const auto& serving : flight) sittings.insert(serving.sitting);
  // Where one stands is read from the book: the first sitting in which something is not locked.
  int now = sitting_;
  if (!sittings.contains(now)) {
    const auto open = std::ranges::find_if(flight, [&](const BlindServing& s) { return !port_->sheet(s.id).locked; });
    now = open != flight.end() ? open->sitting : sittings.empty() ? 1 : *sittings.begin();
  }
  {
    const QSignalBlocker quiet(sittings_);
    sittings_->clear();
    for (const int sitting : sittings)
      sittings_->addItem(QStringLiteral("Sitting %1 of %2").arg(sitting).arg(sittings.size()), sitting);
    sittings_->setCurrentIndex(sittings_->findData(now));
  }
  show_sitting(now);
}

void PaperScreen::show_sitting(int sitting) {
  grid_->commit();
  sitting_ = sitting;
  hand_.reset();
  pairs_.clear();
  for (const auto& serving : port_->flight())
    if (serving.sitting == sitting) pairs_.push_back(serving);
  say({});
  show_day();
  show_now();
}

void PaperScreen::set_mode(Mode mode) {
  mode_ = mode;
  say({});
  show_now();
  if (mode == Mode::compare)
    compare_->focus_first();
  else
    grid_->focus_first();
}

void PaperScreen::show_now() {
  for (std::size_t i = 0; i < modes_.size(); ++i) modes_[i]->setChecked(i == static_cast<std::size_t>(mode_));
  grid_->show_pairs(pairs_, mode_ == Mode::second ? PaperEntry::second : PaperEntry::first);
  if (mode_ == Mode::compare) {
    compare_->show_pairs(pairs_);
    hint_->setText(QStringLiteral("Enter presses what has the focus; Tab goes on."));
  } else if (open_pairs().empty()) {
    hint_->setText(QStringLiteral("What is locked can be read here; it is changed by an amendment with a reason."));
  }
  pages_->setCurrentWidget(mode_ == Mode::compare ? static_cast<QWidget*>(compare_) : grid_);
  order_tabs();
  show_progress();
}

/// The pages are built anew now and then: their controls stand between the day and the buttons below all the same.
void PaperScreen::order_tabs() {
  QWidget* before = day_note_;
  auto all = mode_ == Mode::compare ? compare_->controls() : grid_->controls();
  all.insert(all.end(), {undo_, leave_, lock_all_});
  for (auto* next : all) {
    setTabOrder(before, next);
    before = next;
  }
}

void PaperScreen::show_progress() {
  grid_->refresh();
  PaperProgress all;
  std::size_t differ = 0;
  for (const auto& serving : pairs_) {
    const PaperProgress one = paper_progress(port_->setup().attributes, port_->sheet(serving.id));
    all.fields += one.fields;
    all.first += one.first;
    all.second += one.second;
    if (!port_->sheet(serving.id).locked) differ += port_->review(serving.id).mismatches.size();
  }
  const QString names = QStringLiteral("%1 of %2 fields, second entry %3 of %2");
  progress_->setText(names.arg(all.first).arg(all.fields).arg(all.second));
  modes_[2]->setText(differ == 0 ? QStringLiteral("Compare") : QStringLiteral("Compare (%1 differ)").arg(differ));
  show_undo();
  const bool none = open_pairs().empty();
  lock_all_->setEnabled(!none);
  lock_all_->setText(none ? QStringLiteral("Every sheet is locked") : QStringLiteral("Lock all of this sitting"));
  // What was named is out of date once something else stands on the sheets.
  named_.clear();
  named_pair_.reset();
}

void PaperScreen::show_undo() {
  undo_->setEnabled(hand_ && *hand_ < pairs_.size() && port_->can_undo(pairs_[*hand_].id));
}

void PaperScreen::show_day() {
  const auto day = port_->day(sitting_);
  cold_->setChecked(day && day->cold);
  ate_->setChecked(day && day->ate_lately);
  swallows_->setChecked(day && day->swallows);
  if (!day_note_->hasFocus()) day_note_->setText(day ? text(day->note) : QString());
}

void PaperScreen::put_day() {
  const auto before = port_->day(sitting_);
  DayState day;
  day.sitting = sitting_;
  day.cold = cold_->isChecked();
  day.ate_lately = ate_->isChecked();
  day.swallows = swallows_->isChecked();
  day.note = day_note_->text().toStdString();
  const bool nothing = !day.cold && !day.ate_lately && !day.swallows && day.note.empty();
  if (!before && nothing) return;  // the line was only passed through
  const auto done = port_->day_state(day);
  if (!done) {
    say(text(wording::sentence(done.error())));
    day_note_->setText(before ? text(before->note) : QString());
    show_day();
  }
}

void PaperScreen::say(const QString& words) {
  message_->setText(words);
  hint_->setVisible(words.isEmpty());
  message_area_->setVisible(!words.isEmpty());
  if (words.isEmpty()) return;
  constexpr int lowest = 40, highest = 120;  // two lines stand beside the buttons without moving the boxes
  const int beside = undo_->width() + lock_all_->width() + 160;
  message_area_->setFixedHeight(std::clamp(message_->heightForWidth(std::max(200, width() - beside)), lowest, highest));
}

std::vector<std::size_t> PaperScreen::open_pairs() const {
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < pairs_.size(); ++i) {
    const Sheet sheet = port_->sheet(pairs_[i].id);
    if (!sheet.locked && (sheet.entered_by == EnteredBy::paper || !written_on(sheet))) open.push_back(i);
  }
  return open;
}

/// True when these words were named before and nothing has changed since: the lock was meant. `once`: some fields were
/// entered once.
bool PaperScreen::name_before_lock(std::optional<std::size_t> pair, const QString& words, bool once) {
  if (words.isEmpty() || (words == named_ && pair == named_pair_)) return true;
  const QString button = once ? QStringLiteral("Lock, entered once") : QStringLiteral("Lock as it is");
  show_progress();
  say(words + QStringLiteral("\nIt may stay like this: press “%1”, or go on typing.").arg(button));
  named_ = words;
  named_pair_ = pair;
  if (pair)
    grid_->set_lock_text(*pair, button);
  else
    lock_all_->setText(button);
  return false;
}

void PaperScreen::lock(std::optional<std::size_t> pair) {
  const QString named = named_;
  const auto named_pair = named_pair_;
  grid_->commit();
  named_ = named;
  named_pair_ = named_pair;
  const auto wanted = pair ? std::vector<std::size_t>{*pair} : open_pairs();
  QStringList words, differ;
  bool once = false;
  for (const auto i : wanted) {
    const LockReview found = port_->review(pairs_[i].id);
    once = once || !found.once.empty();
    QString name = pair_name(pairs_[i]);
    name[0] = name[0].toUpper();
    if (!found.mismatches.empty())
      differ << QStringLiteral("%1: %2").arg(name, mismatch_words(found.mismatches, style_.decimal_mark));
    const QString blank = paper_lock_words(found, pairs_[i], port_->sheet(pairs_[i].id), port_->setup().attributes);
    if (!blank.isEmpty()) words << QStringLiteral("%1: %2.").arg(name, blank);
  }
  if (!differ.isEmpty()) {
    show_progress();
    say(QStringLiteral("Not locked: the two entries differ. %1 Settle it under Compare, then lock.")
            .arg(differ.join(QLatin1Char(' '))));
    return;
  }
  if (!name_before_lock(pair, words.join(QLatin1Char('\n')), once)) return;
  for (const auto i : wanted) {
    auto done = port_->sheet(pairs_[i].id).started && port_->sheet(pairs_[i].id).entered_by == EnteredBy::paper
                    ? Result<std::uint64_t>(0)
                    : port_->start(pairs_[i].id, EnteredBy::paper);
    if (done) done = port_->lock(pairs_[i].id, !port_->review(pairs_[i].id).once.empty());
    if (!done) {
      show_progress();
      say(text(wording::sentence(done.error())));
      return;
    }
  }
  show_progress();
  if (mode_ != Mode::compare && !wanted.empty())
    grid_->focus_cell(QStringLiteral("cell_%1_pair_saw").arg(wanted.front()));
  say(QStringLiteral("Locked. Two questions more: could a difference be seen, and which cup was the house’s way?"));
}

void PaperScreen::undo() {
  if (!hand_ || *hand_ >= pairs_.size()) return;
  const auto done = port_->undo(pairs_[*hand_].id);
  say(done ? QString() : text(wording::sentence(done.error())));
  show_progress();
  if (mode_ != Mode::compare) return;
  compare_->show_pairs(pairs_);
  order_tabs();
}

void PaperScreen::keyPressEvent(QKeyEvent* event) {
  if (event->matches(QKeySequence::Undo)) return undo();
  const int step = event->key() == Qt::Key_PageDown ? 1 : event->key() == Qt::Key_PageUp ? -1 : 0;
  const int to = sittings_->currentIndex() + step;
  if (step == 0) return QWidget::keyPressEvent(event);
  if (to < 0 || to >= sittings_->count()) return;
  grid_->commit();
  sittings_->setCurrentIndex(to);
  if (mode_ != Mode::compare) grid_->focus_first();
}

void PaperScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  if (mode_ != Mode::compare) grid_->focus_first();
}

}  // namespace likeleaf::ui
