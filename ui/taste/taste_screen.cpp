#include "ui/taste/taste_screen.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/taste/guess_page.h"
#include "ui/taste/pair_page.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

TasteScreen::TasteScreen(std::unique_ptr<TasterPort> port, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), port_(std::move(port)), clock_(clock) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  pages_ = new QStackedWidget(this);
  down->addWidget(pages_);
  day_ = make_day();
  pair_ = new PairPage(*port_, clock_, style, this);
  guess_ = new GuessPage(*port_, this);
  pause_ = make_pause();
  for (auto* page : {day_, static_cast<QWidget*>(pair_), static_cast<QWidget*>(guess_), pause_})
    pages_->addWidget(page);
  tick_ = new QTimer(this);
  tick_->setInterval(500);
  connect(tick_, &QTimer::timeout, this, &TasteScreen::show_rest);
  connect(pair_, &PairPage::locked, this, &TasteScreen::refresh);
  connect(guess_, &GuessPage::kept, this, &TasteScreen::refresh);
  refresh();
}

TasteScreen::~TasteScreen() = default;

QWidget* TasteScreen::make_day() {
  const Tokens& t = tokens();
  auto* page = new QWidget(this);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(200, 60, 200, 40);
  down->setSpacing(16);
  day_title_ = plain_label({}, face(22, Weight::semi_bold), t.ink, page);
  day_title_->setObjectName(QStringLiteral("day_title"));
  down->addWidget(day_title_);
  down->addWidget(plain_label(QStringLiteral("How are you today? Asked once a sitting; it keeps nobody from tasting."),
                              face(15), t.soft_ink, page));
  const auto tick = [&](const QString& words, const char* name) {
    auto* box = new QCheckBox(words, page);
    box->setObjectName(QLatin1String(name));
    box->setFont(face(17));
    box->setMinimumHeight(36);
    down->addWidget(box);
    return box;
  };
  cold_ = tick(QStringLiteral("I have a cold or a blocked nose"), "cold");
  ate_ = tick(QStringLiteral("I ate strong or spicy food within the hour"), "ate");
  swallows_ = tick(QStringLiteral("I swallow (otherwise: I spit)"), "swallows");
  day_note_ = underlined_edit(QStringLiteral("anything else today"), page);
  day_note_->setObjectName(QStringLiteral("day_note"));
  day_note_->setAccessibleName(QStringLiteral("Anything else today"));
  down->addWidget(day_note_);
  if (!port_->setup().allergens.empty()) {
    QStringList all;
    for (const auto& one : port_->setup().allergens) all << QString::fromStdString(one);
    down->addWidget(plain_label(QStringLiteral("On this table there is: %1.").arg(all.join(QStringLiteral(", "))),
                                face(15), t.caution, page));
  }
  day_message_ = plain_label({}, face(15), t.caution, page);
  down->addWidget(day_message_);
  down->addStretch(1);
  auto* begin = new QuietButton(QStringLiteral("Begin with the first pair"), QuietButton::Look::filled, page);
  begin->setObjectName(QStringLiteral("begin"));
  connect(begin, &QPushButton::clicked, this, &TasteScreen::keep_day);
  down->addWidget(begin, 0, Qt::AlignRight);
  return page;
}

QWidget* TasteScreen::make_pause() {
  const Tokens& t = tokens();
  auto* page = new QWidget(this);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(200, 80, 200, 40);
  down->setSpacing(16);
  pause_title_ = plain_label({}, face(22, Weight::semi_bold), t.ink, page);
  pause_title_->setObjectName(QStringLiteral("pause_title"));
  pause_clock_ = plain_label({}, face(84, Weight::semi_bold), t.ink, page);
  pause_clock_->setObjectName(QStringLiteral("pause_clock"));
  pause_words_ = plain_label({}, face(17), t.soft_ink, page);
  down->addWidget(pause_title_);
  down->addWidget(pause_clock_);
  down->addWidget(pause_words_);
  down->addStretch(1);
  auto* across = new QHBoxLayout;
  auto* leave = new QuietButton(QStringLiteral("Leave the table"), QuietButton::Look::outlined, page);
  leave->setObjectName(QStringLiteral("leave"));
  connect(leave, &QPushButton::clicked, this, &TasteScreen::leave_wanted);
  pause_button_ = new QuietButton({}, QuietButton::Look::filled, page);
  pause_button_->setObjectName(QStringLiteral("next"));
  connect(pause_button_, &QPushButton::clicked, this, &TasteScreen::onward);
  across->addStretch(1);
  across->addWidget(leave);
  across->addWidget(pause_button_);
  down->addLayout(across);
  return page;
}

std::optional<BlindServing> TasteScreen::next() const {
  for (const auto& serving : port_->flight())
    if (!port_->sheet(serving.id).locked) return serving;
  return std::nullopt;
}

std::optional<BlindServing> TasteScreen::last_locked() const {
  std::optional<BlindServing> last;
  std::int64_t when = 0;
  for (const auto& serving : port_->flight())
    if (const auto locked = port_->sheet(serving.id).locked; locked && locked->utc_ms >= when) {
      last = serving;
      when = locked->utc_ms;
    }
  return last;
}

void TasteScreen::refresh() {
  tick_->stop();
  // The guess belongs to the pair that was just locked; the warm-up is nobody's record.
  for (const auto& serving : port_->flight()) {
    const Sheet sheet = port_->sheet(serving.id);
    if (!sheet.locked || sheet.guess || serving.place == 0) continue;
    pages_->setCurrentWidget(guess_);
    guess_->show_pair(serving);
    return;
  }
  const auto coming = next();
  const auto before = last_locked();
  if (!coming) {
    show_pause(QStringLiteral("That was the last pair"),
               QStringLiteral("Your flight is done. Thank you; nothing more is asked of you."), {});
    if (!told_done_) emit flight_done();
    told_done_ = true;
    return;
  }
  told_done_ = false;
  const bool rested = !before || rested_after_ == before->id;
  if (before && before->sitting != coming->sitting && !rested) {
    show_pause(QStringLiteral("End of sitting %1").arg(before->sitting),
               QStringLiteral("Sitting %1 comes after the break.").arg(coming->sitting),
               QStringLiteral("Begin sitting %1").arg(coming->sitting));
    return;
  }
  if (!port_->day(coming->sitting)) return show_day(coming->sitting);
  if (before && !rested && !port_->sheet(coming->id).started) return show_rest();
  pages_->setCurrentWidget(pair_);
  pair_->show_pair(*coming);
}

void TasteScreen::show_day(int sitting) {
  if (sitting_ != sitting) {
    for (auto* box : {cold_, ate_, swallows_}) box->setChecked(false);
    day_note_->clear();
  }
  sitting_ = sitting;
  day_title_->setText(QStringLiteral("%1, sitting %2 of %3")
                          .arg(QString::fromStdString(port_->setup().alias))
                          .arg(sitting)
                          .arg(std::max(sitting, port_->setup().sittings)));
  pages_->setCurrentWidget(day_);
  cold_->setFocus();
}

void TasteScreen::keep_day() {
  DayState state;
  state.sitting = sitting_;
  state.cold = cold_->isChecked();
  state.ate_lately = ate_->isChecked();
  state.swallows = swallows_->isChecked();
  state.note = day_note_->text().toStdString();
  state.noted = clock_.now();
  const auto kept = port_->day_state(state);
  day_message_->setText(kept ? QString() : QString::fromStdString(wording::sentence(kept.error())));
  if (kept) refresh();
}

void TasteScreen::show_pause(const QString& title, const QString& words, const QString& button) {
  pause_title_->setText(title);
  pause_words_->setText(words);
  pause_clock_->setVisible(false);
  pause_button_->setText(button);
  pause_button_->setVisible(!button.isEmpty());
  pages_->setCurrentWidget(pause_);
  focus_page();
}

void TasteScreen::show_rest() {
  const auto before = last_locked();
  const auto locked = before ? port_->sheet(before->id).locked : std::nullopt;
  const auto left = locked ? port_->setup().rest_ms - elapsed(*locked, clock_.now()).count() : 0;
  const bool fresh = pages_->currentWidget() != pause_ || !tick_->isActive();
  if (fresh) {
    show_pause(QStringLiteral("Rest"), {}, QStringLiteral("Next pair"));
    tick_->start();
  }
  pause_clock_->setText(left_text(left));
  pause_clock_->setVisible(true);
  pause_words_->setText(left > 0 ? QStringLiteral("Rinse with water and wait until the mouth is clean.")
                                 : QStringLiteral("Rested. Take the next pair when it stands in front of you."));
}

void TasteScreen::onward() {
  const auto before = last_locked();
  if (before) rested_after_ = before->id;
  refresh();
}

void TasteScreen::focus_page() {
  if (pages_->currentWidget() != pause_) return;
  if (!pause_button_->isHidden())
    pause_button_->setFocus();
  else
    findChild<QPushButton*>(QStringLiteral("leave"))->setFocus();
}

void TasteScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
  if (pages_->currentWidget() == pair_) pair_->go(pair_->step());
}

void TasteScreen::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (enter && pages_->currentWidget() == day_) return keep_day();
  QWidget::keyPressEvent(event);
}

}  // namespace likeleaf::ui
