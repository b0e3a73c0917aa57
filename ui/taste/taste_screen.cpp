#include "ui/taste/taste_screen.h"

#include <QFrame>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>
#include <tuple>

#include "ui/taste/day_page.h"
#include "ui/taste/guess_page.h"
#include "ui/taste/pair_page.h"
#include "ui/taste/pause_page.h"
#include "ui/taste/taste_head.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {

TasteScreen::TasteScreen(std::unique_ptr<TasterPort> port, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), port_(std::move(port)), clock_(clock) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(0);
  head_ = new TasteHead(this);
  auto* line = new QFrame(this);
  line->setFixedHeight(1);
  line->setAutoFillBackground(true);
  QPalette ruled = line->palette();
  ruled.setColor(QPalette::Window, tokens().line);
  line->setPalette(ruled);
  pages_ = new QStackedWidget(this);
  down->addWidget(head_);
  down->addWidget(line);
  down->addWidget(pages_, 1);
  day_ = new DayPage(*port_, clock_, this);
  pair_ = new PairPage(*port_, clock_, style, this);
  guess_ = new GuessPage(*port_, this);
  pause_ = new PausePage(this);
  for (QWidget* page : std::initializer_list<QWidget*>{day_, pair_, guess_, pause_}) pages_->addWidget(page);
  tick_ = new QTimer(this);
  tick_->setInterval(500);
  connect(tick_, &QTimer::timeout, this, &TasteScreen::show_rest);
  connect(head_, &TasteHead::leave_wanted, this, &TasteScreen::leave_wanted);
  connect(head_, &TasteHead::retry_wanted, this, [this] { port_->retry(); });
  connect(day_, &DayPage::kept, this, &TasteScreen::refresh);
  connect(pair_, &PairPage::locked, this, &TasteScreen::refresh);
  connect(pair_, &PairPage::looked, this, &TasteScreen::refresh);
  connect(guess_, &GuessPage::kept, this, &TasteScreen::refresh);
  connect(pause_, &PausePage::onward, this, &TasteScreen::onward);
  connect(pause_, &PausePage::leave_wanted, this, &TasteScreen::leave_wanted);
  connect(pause_, &PausePage::look_wanted, this, &TasteScreen::look);
  connect(pause_, &PausePage::asked, this, [this] {
    if (rest_left() <= 0) onward();
  });
  kept_ = port_->on_kept([this](const Kept& news) {
    head_->hear(news);
    pair_->hear(news);
  });
  flight_ = port_->on_flight([this] { flight_changed(); });
  refresh();
}

TasteScreen::~TasteScreen() = default;

std::optional<BlindServing> TasteScreen::next() const {
  // A sheet that was begun comes first; a pair that is brewed again comes when the others of its sitting are done.
  std::optional<BlindServing> best;
  const auto rank = [this](const BlindServing& s) {
    return std::tuple(s.sitting, !port_->sheet(s.id).started, s.instead_of.has_value(), s.place);
  };
  for (const auto& serving : port_->flight())
    if (!port_->sheet(serving.id).locked && (!best || rank(serving) < rank(*best))) best = serving;
  return best;
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

std::vector<BlindServing> TasteScreen::locked_of(int sitting) const {
  std::vector<BlindServing> out;
  for (const auto& serving : port_->flight())
    if (serving.sitting == sitting && port_->sheet(serving.id).locked) out.push_back(serving);
  const auto when = [this](const BlindServing& s) { return port_->sheet(s.id).locked->utc_ms; };
  std::ranges::stable_sort(out, {}, when);
  return out;
}

QStringList TasteScreen::locked_names(int sitting) const {
  QStringList out;
  for (const auto& s : locked_of(sitting)) out << QString::fromStdString(s.left.text() + " and " + s.right.text());
  return out;
}

int TasteScreen::sitting_now() const {
  const auto coming = next();
  const auto before = last_locked();
  return before ? before->sitting : coming ? coming->sitting : 1;
}

void TasteScreen::show_head(const std::optional<BlindServing>& now) {
  const auto coming = now ? now : next();
  const int sitting = coming ? coming->sitting : sitting_now();
  const int of = std::max(sitting, port_->setup().sittings);
  head_->set_who(QString::fromStdString(port_->setup().alias),
                 of > 1 ? QStringLiteral("sitting %1 of %2").arg(sitting).arg(of) : QStringLiteral("one sitting"));
  std::vector<TasteHead::Pair> pairs;
  int at = 0;
  for (const auto& serving : port_->flight()) {
    if (serving.sitting != sitting || serving.place == 0) continue;
    const bool is_now = now && serving.id == now->id;
    pairs.push_back(is_now                            ? TasteHead::Pair::now
                    : port_->sheet(serving.id).locked ? TasteHead::Pair::done
                                                      : TasteHead::Pair::to_come);
    if (is_now) at = static_cast<int>(pairs.size());
  }
  const auto done = std::ranges::count(pairs, TasteHead::Pair::done);
  head_->set_pairs(pairs, now && now->place == 0 ? QStringLiteral("warm-up pair")
                          : now                  ? QStringLiteral("pair %1 of %2").arg(at).arg(pairs.size())
                                                 : QStringLiteral("%1 of %2 pairs locked").arg(done).arg(pairs.size()));
}

void TasteScreen::refresh() {
  tick_->stop();
  // The guess belongs to the pair that was just locked; the warm-up is nobody's record.
  for (const auto& serving : port_->flight()) {
    const Sheet sheet = port_->sheet(serving.id);
    if (!sheet.locked || sheet.guess || serving.place == 0) continue;
    show_head(serving);
    pages_->setCurrentWidget(guess_);
    guess_->show_pair(serving);
    return;
  }
  const auto coming = next();
  const auto before = last_locked();
  if (!coming) return show_done();
  told_done_ = false;
  const bool rested = !before || rested_after_ == before->id;
  if (before && before->sitting != coming->sitting && !rested) {
    show_head(std::nullopt);
    pages_->setCurrentWidget(pause_);
    pause_->show_words({QStringLiteral("Sitting %1 is done").arg(before->sitting),
                        QStringLiteral("Sitting %1 comes after the break: drink water, eat something plain, and come "
                                       "back when you are called.")
                            .arg(coming->sitting),
                        QStringLiteral("Begin sitting %1").arg(coming->sitting), locked_names(before->sitting)});
    return;
  }
  if (!port_->day(coming->sitting)) {
    show_head(std::nullopt);
    pages_->setCurrentWidget(day_);
    return day_->show_sitting(coming->sitting, std::max(coming->sitting, port_->setup().sittings));
  }
  if (before && !rested && !port_->sheet(coming->id).started) return show_rest();
  pages_->setCurrentWidget(pair_);
  pair_->show_pair(*coming);
  show_head(coming);
}

void TasteScreen::show_done() {
  show_head(std::nullopt);
  pages_->setCurrentWidget(pause_);
  pause_->show_words(
      {QStringLiteral("That was the last pair"),
       QStringLiteral("Your flight is done and every sheet of yours is locked. Thank you; nothing more is "
                      "asked of you. Until all have tasted, keep what you noticed to yourself."),
       {},
       locked_names(sitting_now())});
  if (!told_done_) emit flight_done();
  told_done_ = true;
}

std::int64_t TasteScreen::rest_left() const {
  const auto before = last_locked();
  const auto locked = before ? port_->sheet(before->id).locked : std::nullopt;
  return locked ? port_->setup().rest_ms - elapsed(*locked, clock_.now()).count() : 0;
}

void TasteScreen::show_rest() {
  if (!tick_->isActive()) {
    show_head(std::nullopt);
    pages_->setCurrentWidget(pause_);
    pause_->begin_rest();
    tick_->start();
  }
  pause_->show_rest(rest_left(), locked_names(sitting_now()));
}

void TasteScreen::onward() {
  const auto before = last_locked();
  if (before) rested_after_ = before->id;
  refresh();
}

void TasteScreen::look(int index) {
  const auto locked = locked_of(sitting_now());
  if (index < 0 || index >= static_cast<int>(locked.size())) return;
  tick_->stop();
  pages_->setCurrentWidget(pair_);
  pair_->show_locked(locked[static_cast<std::size_t>(index)]);
  show_head(locked[static_cast<std::size_t>(index)]);
}

void TasteScreen::flight_changed() {
  const auto flight = port_->flight();
  const auto& shown = pair_->serving();
  const bool at_pair = pages_->currentWidget() == pair_ || pages_->currentWidget() == guess_;
  if (!at_pair || std::ranges::any_of(flight, [&](const BlindServing& s) { return s.id == shown.id; })) {
    if (!at_pair) refresh();
    return;
  }
  tick_->stop();
  show_head(std::nullopt);
  pages_->setCurrentWidget(pause_);
  // The same words whatever the pair held and whatever the reason was.
  pause_->show_words(
      {QStringLiteral("This pair is off the table"),
       QStringLiteral("Leave cups %1 and %2 as they are; they are taken away, and their sheet is closed. "
                      "Other cups may come in their place later.")
           .arg(QString::fromStdString(shown.left.text()), QString::fromStdString(shown.right.text())),
       QStringLiteral("Go on"),
       {}});
}

void TasteScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
  if (pages_->currentWidget() == pair_) pair_->go(pair_->step());
}

}  // namespace likeleaf::ui
