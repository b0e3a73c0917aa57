#include "ui/brew/brew_screen.h"

#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "core/acts/bench_sitting.h"
#include "core/wording/brew_text.h"
#include "ui/brew/brew_lanes.h"
#include "ui/brew/brew_parts.h"
#include "ui/brew/cooling_card.h"
#include "ui/brew/drift_line.h"
#include "ui/brew/next_card.h"
#include "ui/brew/note_panel.h"
#include "ui/brew/now_card.h"
#include "ui/brew/prepare_page.h"
#include "ui/brew/serve_panel.h"
#include "ui/brew/void_panel.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {

using namespace brewing;

BrewScreen::BrewScreen(Session& session, const Clock& clock, const Style& style, QWidget* parent)
    : QWidget(parent), session_(session), clock_(clock), style_(style), timer_(new QTimer(this)) {
  setObjectName(QStringLiteral("brew_screen"));
  // A click on bare paper brings Space back to the stamp; Tab has nothing to do here.
  setFocusPolicy(Qt::ClickFocus);
  setAccessibleName(QStringLiteral("Brew"));
  build_top();
  timer_->setInterval(250);
  connect(timer_, &QTimer::timeout, this, &BrewScreen::tick);
  changes_ = session_.on_change([this](const Notice& notice) { hear(notice); });
  refresh();
}

BrewScreen::~BrewScreen() {
  close_key();
}

void BrewScreen::build_top() {
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(28, 10, 28, 12);
  down->setSpacing(10);
  auto* head = new QHBoxLayout;
  heading_ = label({}, face(15), t.soft_ink, this);
  heading_->setObjectName(QStringLiteral("brew_heading"));
  sittings_ = choice(QStringLiteral("Sitting"), "sitting", this);
  close_ = button(QStringLiteral("&Close the key"), "close_key", this);
  close_->setMinimumHeight(36);
  head->addWidget(sittings_);
  prints_ = button(QStringLiteral("&Prints…"), "prints", this);
  prints_->setMinimumHeight(36);
  connect(prints_, &QPushButton::clicked, this, [this] { emit prints_wanted(sitting_); });
  head->addWidget(heading_, 1);
  head->addWidget(prints_);
  head->addWidget(close_);
  down->addLayout(head);
  empty_ = label({}, face(18), t.soft_ink, this);
  empty_->setObjectName(QStringLiteral("brew_empty"));
  down->addWidget(empty_, 1, Qt::AlignCenter);
  prepare_ = new PreparePage(session_, style_, this);
  down->addWidget(prepare_, 1);

  bench_ = new QWidget(this);
  auto* bench = new QVBoxLayout(bench_);
  bench->setContentsMargins(0, 0, 0, 0);
  bench->setSpacing(12);
  auto* cards = new QHBoxLayout;
  cards->setSpacing(18);
  now_ = new NowCard(style_, bench_);
  next_ = new NextCard(style_, bench_);
  cooling_ = new CoolingCard(style_, bench_);
  cards->addWidget(now_, 14);
  cards->addWidget(next_, 11);
  cards->addWidget(cooling_, 10);
  bench->addLayout(cards);
  auto* board = card(bench_);
  auto* inside = new QVBoxLayout(board);
  inside->setContentsMargins(4, 6, 4, 4);
  auto* scroll = new QScrollArea(board);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setFocusPolicy(Qt::NoFocus);
  lanes_ = new BrewLanes(scroll);
  scroll->setWidget(lanes_);
  scroll->viewport()->setAutoFillBackground(false);
  lanes_->setAutoFillBackground(false);
  inside->addWidget(scroll);
  bench->addWidget(board, 1);
  bench->addWidget(build_foot());
  down->addWidget(bench_, 1);

  connect(prepare_, &PreparePage::key_wanted, this, &BrewScreen::open_key);
  connect(prepare_, &PreparePage::without_key_wanted, this, [this] {
    without_key_ = true;
    show_pages();
    stamp_->setFocus();
  });
  connect(close_, &QPushButton::clicked, this, [this] {
    without_key_ = false;
    close_key();
    show_pages();
  });
  connect(sittings_, &QComboBox::currentIndexChanged, this, [this] {
    sitting_ = std::max(1, sittings_->currentData().toInt());
    chosen_ = {};
    show_pages();
  });
  connect(lanes_, &BrewLanes::chosen, this, &BrewScreen::choose);
}

QWidget* BrewScreen::build_foot() {
  const Tokens& t = tokens();
  auto* foot = new QWidget(bench_);
  auto* down = new QVBoxLayout(foot);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(8);
  auto* row = new QHBoxLayout;
  row->setSpacing(12);
  stamp_ = button({}, "stamp", foot, true);
  stamp_->setMinimumWidth(316);
  undo_ = button(QStringLiteral("&Undo last stamp"), "undo_stamp", foot);
  auto* reading = button(QStringLiteral("Type a &temperature"), "type_temperature", foot);
  auto* serve = button(QStringLiteral("&Serve a pair"), "serve", foot);
  auto* taking_out = button(QStringLiteral("&Void a pair"), "void", foot);
  drift_ = new DriftLine(style_, foot);
  for (QWidget* w : {stamp_, undo_, reading, serve, taking_out}) row->addWidget(w);
  row->addWidget(drift_, 1);
  down->addLayout(row);
  refused_ = label({}, face(15), t.caution, foot);
  refused_->setObjectName(QStringLiteral("stamp_message"));
  refused_->hide();
  down->addWidget(refused_);
  note_ = new NotePanel(session_, style_, foot);
  serve_ = new ServePanel(session_, clock_, style_, foot);
  void_ = new VoidPanel(session_, foot);
  for (QWidget* w : std::initializer_list<QWidget*>{note_, serve_, void_}) down->addWidget(w);
  show_panel(Panel::note);
  // A stamp is taken when the finger goes down, not when it comes up.
  connect(stamp_, &QPushButton::pressed, this, &BrewScreen::stamp);
  connect(undo_, &QPushButton::clicked, this, &BrewScreen::undo_stamp);
  connect(reading, &QPushButton::clicked, this, [this] {
    show_panel(Panel::note);
    note_->write_reading();
  });
  connect(serve, &QPushButton::clicked, this, [this] {
    show_panel(Panel::serve);
    serve_->findChild<QComboBox*>()->setFocus();
  });
  connect(taking_out, &QPushButton::clicked, this, [this] {
    show_panel(Panel::taking_out);
    void_->begin();
  });
  return foot;
}

void BrewScreen::show_panel(Panel panel) {
  note_->setVisible(panel == Panel::note);
  serve_->setVisible(panel == Panel::serve);
  void_->setVisible(panel == Panel::taking_out);
}

void BrewScreen::refresh() {
  const auto trial = session_.trial();
  const IdOf<Trial> id = trial ? trial->id() : IdOf<Trial>{};
  if (id != trial_) {
    // The pass was for the other trial's key; whoever takes another trial closes it before, where it can be logged.
    pass_.reset();
    without_key_ = false;
    chosen_ = {};
    trial_ = id;
    prepare_->say({});
    if (trial && trial->sealed) sitting_ = sitting_of_now(*trial);
  }
  show_pages();
}

void BrewScreen::hear(const Notice& notice) {
  switch (notice.part) {
    case Part::brew:
    case Part::served:
    case Part::voids:
    case Part::amendments:
    case Part::weighed:
      show_pages();
      break;
    case Part::seal:
    case Part::unmask:
    case Part::plan:
      refresh();
      break;
    default:
      break;
  }
}

void BrewScreen::open_key(const QString& preparer) {
  const auto trial = session_.trial();
  const auto id = IdOf<Assessor>::parse(preparer.toStdString());
  if (!trial || !id) return;
  auto pass = KeyVault::reveal(*trial, *id);
  if (!pass) return prepare_->say(said(pass.error()));
  // An opening that a power cut left without its end is ended first, so that this one is logged for itself.
  if (const auto ended = session_.run(CloseKey{*id}); !ended) return prepare_->say(said(ended.error()));
  if (const auto logged = session_.run(OpenKey{*id}); !logged) return prepare_->say(said(logged.error()));
  prepare_->say({});
  pass_.emplace(std::move(*pass));
  show_pages();
  stamp_->setFocus();
}

void BrewScreen::close_key() {
  if (!pass_) return;
  const auto preparer = pass_->preparer();
  pass_.reset();
  const auto logged = session_.run(CloseKey{preparer});
  if (!logged) prepare_->say(said(logged.error()));
}

void BrewScreen::showEvent(QShowEvent* event) {
  QWidget::showEvent(event);
  refresh();
}

void BrewScreen::hideEvent(QHideEvent* event) {
  // Spontaneous: the window was only minimised by the system, which hides the key no less.
  close_key();
  without_key_ = false;
  show_pages();
  QWidget::hideEvent(event);
}

void BrewScreen::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space && brewing() && stamp_->isEnabled()) {
    if (!event->isAutoRepeat()) stamp();
    return;
  }
  QWidget::keyPressEvent(event);
}

void BrewScreen::fill_sittings(const Trial& trial) {
  std::vector<Entry> entries;
  for (const int s : sittings_of(trial)) entries.push_back({QStringLiteral("sitting %1").arg(s), QString::number(s)});
  const QSignalBlocker quiet(sittings_);
  fill(sittings_, entries);
  const int at = sittings_->findData(QString::number(sitting_));
  if (at >= 0) sittings_->setCurrentIndex(at);
}

void BrewScreen::show_pages() {
  const auto trial = session_.trial();
  const bool sealed = trial && trial->sealed && trial->key;
  if (!sealed || trial->unmasked) without_key_ = false;
  if (trial && trial->unmasked && pass_) close_key();
  empty_->setVisible(!sealed);
  sittings_->setVisible(sealed);
  prints_->setVisible(sealed);
  prepare_->setVisible(sealed && !brewing());
  bench_->setVisible(sealed && brewing());
  close_->setVisible(brewing());
  close_->setText(without_key_ ? QStringLiteral("&Stop brewing") : QStringLiteral("&Close the key"));
  if (!sealed) {
    timer_->stop();
    heading_->clear();
    empty_->setText(
        trial ? QStringLiteral("Brewing begins after the seal. Seal the plan first: portions and order are drawn then.")
              : QStringLiteral("No trial is on the bench."));
    return;
  }
  fill_sittings(*trial);
  heading_->setText(pass_ ? QStringLiteral("preparer’s view, key open · tasters look away")
                          : QStringLiteral("key closed"));
  if (!brewing()) {
    timer_->stop();
    prepare_->refresh(sitting_);
    return;
  }
  note_->refresh(sitting_, key_open());
  serve_->refresh(sitting_, key_open());
  void_->refresh(sitting_, pass_ ? pass_->preparer() : preparer(trial->sealed->plan));
  show_board();
  if (isVisible()) timer_->start();
}

void BrewScreen::tick() {
  if (brewing()) show_board();
}

void BrewScreen::show_board() {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  const Plan& plan = trial->sealed->plan;
  const auto brews = brews_of_sitting(*trial, sitting_);
  const Brew* current = current_brew(plan, brews, chosen_);
  const Moment now = clock_.now();
  lanes_->show_board(lane_board(*trial, sitting_, now, key_open(), style_), current ? current->id : IdOf<Brew>{}, true);
  if (current)
    now_->show_brew(*trial, *current, now, key_open());
  else
    now_->show_all_ready(sitting_);
  show_stamp(plan, current);
  undo_->setEnabled(last_stamped(brews) != nullptr && !session_.read_only());
  next_->show_next(*trial, brews, current, now, key_open());
  cooling_->show_cooling(plan, brews, now);
  if (key_open())
    drift_->show_drifts(*trial, sitting_);
  else
    drift_->clear();
}

void BrewScreen::show_stamp(const Plan& plan, const Brew* current) {
  QString wanted = QStringLiteral("Nothing to stamp"), spoken = wanted;
  const auto act = current ? next_act(plan, *current) : std::nullopt;
  if (act) {
    const QString name = text(wording::stamp_name(act->kind));
    wanted = QStringLiteral("%1   brew %2 · Space").arg(name).arg(current->number);
    spoken = QStringLiteral("Stamp: brew %1, %2").arg(current->number).arg(name.toLower());
  } else if (current) {
    wanted = spoken = QStringLiteral("brew %1 is ready").arg(current->number);
  }
  // A disabled button hands its focus on, and the next in line undoes stamps: one Space too many must not.
  if (!current && stamp_->hasFocus()) setFocus();
  stamp_->setEnabled(act.has_value() && !session_.read_only());
  stamp_->setText(wanted);
  stamp_->setAccessibleName(spoken);
}

void BrewScreen::stamp() {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  const Plan& plan = trial->sealed->plan;
  const Brew* brew = current_brew(plan, brews_of_sitting(*trial, sitting_), chosen_);
  const auto act = brew ? next_act(plan, *brew) : std::nullopt;
  if (!act) return;
  const auto id = brew->id;
  // A brew that was chosen goes back to the order once nothing more is in hand.
  if (frees_the_hands(*act)) chosen_ = {};
  const auto kept = session_.run(PutStamp{id, act->kind, act->infusion});
  refused_->setText(kept ? QString() : said(kept.error()));
  refused_->setVisible(!kept);
  note_->show_brew(id);
}

void BrewScreen::undo_stamp() {
  const auto trial = session_.trial();
  const Brew* brew = trial ? last_stamped(brews_of_sitting(*trial, sitting_)) : nullptr;
  if (!brew) return;
  const auto id = brew->id;
  chosen_ = id;
  const auto kept = session_.run(UndoStamp{id});
  refused_->setText(kept ? QString() : said(kept.error()));
  refused_->setVisible(!kept);
  stamp_->setFocus();
}

void BrewScreen::choose(const QString& brew) {
  const auto id = IdOf<Brew>::parse(brew.toStdString());
  if (!id) return;
  chosen_ = *id;
  note_->show_brew(*id);
  show_board();
}

}  // namespace likeleaf::ui
