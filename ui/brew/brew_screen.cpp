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

#include "ui/brew/brew_lanes.h"
#include "ui/brew/brew_model.h"
#include "ui/brew/brew_parts.h"
#include "ui/brew/note_panel.h"
#include "ui/brew/prepare_page.h"
#include "ui/brew/table_panels.h"
#include "ui/theme/theme.h"
#include "ui/widgets/clock_face.h"

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
  cards->addWidget(build_now(), 14);
  cards->addWidget(build_next(), 11);
  cards->addWidget(build_cooling(), 10);
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

QWidget* BrewScreen::build_now() {
  const Tokens& t = tokens();
  auto* box = card(bench_);
  auto* across = new QHBoxLayout(box);
  across->setContentsMargins(24, 10, 24, 10);
  auto* left = new QVBoxLayout;
  left->addStretch(1);
  now_brew_ = label({}, face(15), t.soft_ink, box);
  now_brew_->setObjectName(QStringLiteral("now_brew"));
  now_act_ = label({}, face(40, Weight::semi_bold), t.ink, box);
  now_act_->setObjectName(QStringLiteral("now_act"));
  now_act_->setWordWrap(false);
  now_recipe_ = label({}, face(24, Weight::semi_bold), t.ink, box);
  now_recipe_->setObjectName(QStringLiteral("now_recipe"));
  now_recipe_->setWordWrap(false);
  now_hint_ = label({}, face(15), t.soft_ink, box);
  left->addWidget(now_brew_);
  left->addWidget(now_act_);
  left->addWidget(now_recipe_);
  left->addWidget(now_hint_);
  left->addStretch(1);
  across->addLayout(left, 1);
  auto* right = new QVBoxLayout;
  right->addStretch(1);
  face_ = new ClockFace(box);
  face_->setObjectName(QStringLiteral("clock"));
  face_of_ = label({}, face(15), t.soft_ink, box);
  face_of_->setObjectName(QStringLiteral("clock_of"));
  face_of_->setAlignment(Qt::AlignRight);
  right->addWidget(face_);
  right->addWidget(face_of_);
  right->addStretch(1);
  across->addLayout(right, 1);
  return box;
}

QWidget* BrewScreen::build_next() {
  const Tokens& t = tokens();
  auto* box = card(bench_);
  auto* down = new QVBoxLayout(box);
  down->setContentsMargins(18, 14, 18, 12);
  down->setSpacing(4);
  next_head_ = label({}, face(15), t.soft_ink, box);
  next_head_->setObjectName(QStringLiteral("next_brew"));
  next_act_ = label({}, face(24, Weight::semi_bold), t.ink, box);
  next_act_->setObjectName(QStringLiteral("next_act"));
  recipe_ = label({}, face(15), t.ink, box);
  recipe_->setObjectName(QStringLiteral("recipe"));
  caution_ = label({}, face(15), t.caution, box);
  caution_->setObjectName(QStringLiteral("caution"));
  for (auto* l : {next_head_, next_act_, recipe_, caution_}) down->addWidget(l);
  down->addStretch(1);
  box->setMinimumHeight(176);
  return box;
}

QWidget* BrewScreen::build_cooling() {
  const Tokens& t = tokens();
  auto* box = card(bench_);
  auto* down = new QVBoxLayout(box);
  down->setContentsMargins(18, 14, 18, 12);
  down->setSpacing(6);
  down->addWidget(label(QStringLiteral("cooling, type a reading"), face(15), t.soft_ink, box));
  cooling_ = label({}, face(15, Weight::medium), t.ink, box);
  cooling_->setObjectName(QStringLiteral("cooling"));
  cooling_foot_ = label({}, face(15), t.soft_ink, box);
  down->addWidget(cooling_);
  down->addWidget(cooling_foot_);
  down->addStretch(1);
  return box;
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
  drift_ = label({}, face(15), t.caution, foot);
  drift_->setObjectName(QStringLiteral("drift"));
  drift_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  // Room for four lines is kept: a drift that appears must not move the stamp away from under the finger.
  drift_->setMinimumHeight(4 * QFontMetrics(face(15)).lineSpacing());
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

const Brew* BrewScreen::current(const Trial& trial) const {
  const auto brews = brews_of_sitting(trial, sitting_);
  for (const auto* brew : brews)
    if (brew->id == chosen_) return brew;
  return brew_of_now(trial.sealed->plan, brews);
}

const Brew* BrewScreen::following(const Trial& trial, const Brew* now) const {
  for (const auto* brew : brews_of_sitting(trial, sitting_))
    if (brew != now && !last_stamp(*brew)) return brew;
  return nullptr;
}

void BrewScreen::tick() {
  if (brewing()) show_board();
}

void BrewScreen::show_board() {
  const auto trial = session_.trial();
  if (!trial || !trial->sealed) return;
  const Brew* now = current(*trial);
  lanes_->show_board(lane_board(*trial, sitting_, clock_.now(), key_open(), style_), now ? now->id : IdOf<Brew>{},
                     true);
  show_now(*trial);
  show_next(*trial);
  show_cooling(*trial);
  show_drift(*trial);
}

void BrewScreen::stamp() {
  const auto trial = session_.trial();
  const Brew* brew = trial && trial->sealed ? current(*trial) : nullptr;
  const auto act = brew ? next_act(trial->sealed->plan, *brew) : std::nullopt;
  if (!act) return;
  const auto id = brew->id;
  // A brew that was chosen goes back to the order once nothing more is in hand.
  if (act->kind >= StampKind::chill_start) chosen_ = {};
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
