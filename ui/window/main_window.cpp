#include "ui/window/main_window.h"

#include <QApplication>
#include <QCloseEvent>
#include <QFileInfo>
#include <QFrame>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QTimer>
#include <QVBoxLayout>
#include <utility>

#include "core/base/embedded.h"
#include "core/codec/builtin.h"
#include "core/exchange/bundle_read.h"
#include "core/planning/plan_starter.h"
#include "core/session/taster_port.h"
#include "core/wording/errors.h"
#include "core/wording/lever_text.h"
#include "core/wording/opening_notes.h"
#include "core/wording/plan_text.h"
#include "ui/brew/brew_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/paper/paper_screen.h"
#include "ui/plan/plan_screen.h"
#include "ui/prints/prints_screen.h"
#include "ui/report/report_screen.h"
#include "ui/start/start_screen.h"
#include "ui/start/trial_answers.h"
#include "ui/taste/taste_screen.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"
#include "ui/window/kept_strip.h"
#include "ui/window/who_tastes.h"
#include "ui/window/window_head.h"

namespace likeleaf::ui {
namespace {

constexpr int sample_trial = 14;  // the one whose report a newcomer is shown

}  // namespace

MainWindow::MainWindow(const Services& services, const Look& look, QWidget* parent)
    : QMainWindow(parent), services_(services), look_(look), shelf_(std::make_shared<FindingsShelf>()) {
  setWindowTitle(QStringLiteral("Likeleaf"));
  resize(1280, 800);
  build();
}

MainWindow::MainWindow(const Services& services, const Style& style, QWidget* parent)
    : MainWindow(services, Look{style, false}, parent) {}

void MainWindow::build() {
  const Tokens& t = tokens();
  auto* page = new QWidget(this);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(0);
  head_ = new WindowHead(look_, page);
  bar_ = head_->bar();
  down->addWidget(head_);
  auto* line = new QFrame(page);
  line->setFixedHeight(1);
  QPalette ruled = line->palette();
  ruled.setColor(QPalette::Window, t.line);
  line->setAutoFillBackground(true);
  line->setPalette(ruled);
  head_line_ = line;
  down->addWidget(line);
  strip_ = new KeptStrip(page);
  down->addWidget(strip_);
  pages_ = new QStackedWidget(page);
  // A page that would like more room must not push the window past its screen, least of all one that is not shown.
  pages_->setMinimumSize(900, 480);
  start_ = new StartScreen(style_, pages_);
  listed_.reset();
  who_ = new WhoTastes(pages_);
  pages_->addWidget(start_);
  pages_->addWidget(who_);
  down->addWidget(pages_, 1);
  setCentralWidget(page);
  connect(head_, &WindowHead::look_wanted, this, &MainWindow::set_look);
  connect(strip_, &KeptStrip::retry_wanted, this, [this] {
    if (session_) session_->retry();
  });
  connect(strip_, &KeptStrip::close_wanted, this, &MainWindow::close);
  connect(bar_, &StageBar::chosen, this, &MainWindow::go);
  connect(who_, &WhoTastes::chosen, this, &MainWindow::taste_as);
  connect(who_, &WhoTastes::paper_wanted, this, &MainWindow::type_in_for);
  connect(who_, &WhoTastes::sheets_wanted, this, [this] { show_prints(0); });
  connect(start_, &StartScreen::open_wanted, this, &MainWindow::choose_book);
  connect(start_, &StartScreen::new_book_wanted, this, &MainWindow::new_book);
  connect(start_, &StartScreen::sample_wanted, this, &MainWindow::sample_book);
  connect(start_, &StartScreen::import_wanted, this, &MainWindow::import_bundle);
  connect(start_, &StartScreen::trial_wanted, this, &MainWindow::take_trial);
  connect(start_, &StartScreen::report_wanted, this, [this](int number) {
    take_trial(number);
    if (session_ && session_->trial() && session_->trial()->draft.number == number) go(Place::report);
  });
  connect(start_, &StartScreen::new_trial_wanted, this,
          [this] { new_trial(starter_plan(session_ ? session_->attributes() : builtin_attributes())); });
  answers_ = new TrialAnswers(shelf_, start_);
  answers_->on_ready = [this] { start_->refresh_answer(); };
  start_->set_answer_source([this](const store::LedgerRow& row) {
    return session_ ? answers_->answer_for(*session_, row, style_) : TrialAnswer{};
  });
  start_->set_note(note_);
  bar_->set_current(place_);
  show_head();
}

MainWindow::~MainWindow() {
  changes_ = Subscription();
  kept_ = Subscription();
  drop_screens();
}

void MainWindow::set_look(const Look& look) {
  finish_typing();
  const int taster = taste_ ? tasting_ : -1;
  const int typing = paper_ ? typing_for_ : -1;
  const Place place = place_;
  drop_screens();
  look_ = look;
  apply_theme(*qApp, look.dark);
  build();
  go(place);
  if (taster >= 0) taste_as(taster);
  if (typing >= 0) type_in_for(typing);
  emit look_changed(look_);
}

/// Text that stands in a line without Enter goes out as if one had left the line.
void MainWindow::finish_typing() {
  if (QWidget* writing = focusWidget()) writing->clearFocus();
}

Result<void> MainWindow::flush() {
  return session_ ? session_->flush() : Result<void>();
}

void MainWindow::closeEvent(QCloseEvent* event) {
  finish_typing();
  if (brew_) brew_->close_key();
  const auto kept = session_ && !closing_anyway_ ? session_->flush() : Result<void>{};
  if (!kept) {
    closing_anyway_ = true;
    strip_->show_not_kept(text(wording::sentence(kept.error())), true);
    event->ignore();
    return;
  }
  QMainWindow::closeEvent(event);
}

void MainWindow::open_book_soon(const std::filesystem::path& book) {
  soon_ = book;
  say(QStringLiteral("Opening %1 …").arg(text(book.filename().string())));
}

bool MainWindow::event(QEvent* event) {
  if (event->type() == QEvent::Paint && !soon_.empty())
    QMetaObject::invokeMethod(
        this, [this, book = std::exchange(soon_, {})] { open_book(book); }, Qt::QueuedConnection);
  return QMainWindow::event(event);
}

void MainWindow::say(const QString& note) {
  note_ = note;
  start_->set_note(note);
}

void MainWindow::drop_screens() {
  const auto drop = [](auto*& screen) {
    delete screen;
    screen = nullptr;
  };
  drop(taste_);
  drop(paper_);
  drop(plan_);
  drop(brew_);
  drop(findings_);
  drop(report_);
  drop(prints_);
}

void MainWindow::make_screens() {
  drop_screens();
  plan_ = new PlanScreen(*session_, style_, pages_);
  brew_ = new BrewScreen(*session_, services_.clock, style_, pages_);
  findings_ = new FindingsScreen(*session_, style_, shelf_, pages_);
  report_ = new ReportScreen(*session_, style_, shelf_, pages_);
  prints_ = new PrintsScreen(*session_, style_, pages_);
  for (QWidget* screen : std::initializer_list<QWidget*>{plan_, brew_, findings_, report_, prints_})
    pages_->addWidget(screen);
  connect(brew_, &BrewScreen::prints_wanted, this, &MainWindow::show_prints);
  connect(
      prints_, &PrintsScreen::leave_wanted, this, [this] { go(place_); }, Qt::QueuedConnection);
  connect(findings_, &FindingsScreen::report_wanted, this, [this] { go(Place::report); });
  connect(findings_, &FindingsScreen::follow_up_wanted, this, &MainWindow::new_trial);
}

void MainWindow::take(Result<std::unique_ptr<Session>> session) {
  if (!session) {
    say(text(wording::sentence(session.error())));
    return;
  }
  // Screens and subscriptions of the old book go before the book itself.
  changes_ = Subscription();
  kept_ = Subscription();
  drop_screens();
  session_ = std::move(*session);
  listed_.reset();
  listen();
  QStringList notes;
  for (const auto& note : session_->opening_notes()) notes << text(wording::sentence(note));
  if (session_->read_only() && notes.isEmpty()) notes << QStringLiteral("This book is open for reading only.");
  say(notes.join(QLatin1Char('\n')));
  head_->show_kept({});
  strip_->clear();
  go(Place::trials);
  start_->begin();
}

void MainWindow::listen() {
  kept_ = session_->on_kept([this](const Kept& kept) {
    if (kept.not_kept) {
      head_->show_kept(QStringLiteral("not kept"));
      // A taster is told at the table, without the book's name.
      if (!taste_) strip_->show_not_kept(text(wording::sentence(*kept.not_kept)), false);
      return;
    }
    closing_anyway_ = false;
    strip_->clear();
    head_->show_kept(text("kept " + clock_text(kept.at)));
  });
  changes_ = session_->on_change([this](const Notice&) { show_head(); });
}

void MainWindow::open_book(const std::filesystem::path& book) {
  finish_typing();
  std::error_code unknown;
  if (session_ && std::filesystem::equivalent(session_->path(), book, unknown)) {
    say(note_);
    return go(Place::trials);
  }
  auto session = Session::open(book, OpenWay::write, services_);
  if (!session && session.error().kind == ErrorKind::read_only) {
    const QString why = text(wording::sentence(session.error()));
    auto reading = Session::open(book, OpenWay::read_only, services_);
    if (reading) {
      take(std::move(reading));
      say((session_->opening_notes().empty() ? why : note_) + QStringLiteral("\nIt is open here for reading only."));
      return;
    }
  }
  take(std::move(session));
}

void MainWindow::show_book() {
  const Ticket last = session_->last_ticket();
  if (listed_ == last) return;
  // What could not be kept is not in the list; it is read again when it is.
  listed_ = session_->flush() ? std::optional(last) : std::nullopt;
  answers_->forget();
  start_->set_trials(session_->ledger(), true, !session_->read_only());
}

void MainWindow::show_head() {
  const auto trial = session_ ? session_->trial() : nullptr;
  const bool blind = place_ == Place::taste;
  if (!trial || blind) {
    head_->show_trial(blind ? QString() : QStringLiteral("Likeleaf"), {});
  } else {
    const Plan& plan = trial->draft;
    head_->show_trial(plan.question.empty() ? QStringLiteral("A new trial") : text(plan.question),
                      text("trial " + std::to_string(plan.number) + " · " +
                           (trial->sealed ? wording::changes_text(plan.lever, style_) : std::string("draft"))));
  }
  head_->show_book(session_ && !blind ? text(session_->path().filename().string()) +
                                            (session_->read_only() ? QStringLiteral(" (reading only)") : QString())
                                      : QString());
  setWindowTitle(QStringLiteral("Likeleaf"));
  std::size_t locked = 0, sheets = 0;
  if (trial)
    for (const auto* serving : live_servings(*trial)) {
      ++sheets;
      const auto found = trial->sheets.find(serving->id);
      if (found != trial->sheets.end() && found->second->locked) ++locked;
    }
  // While somebody tastes the bar says nothing of the trial either.
  const auto line = [&](const QString& said) { return blind ? QString() : said; };
  const bool sealed = trial && trial->sealed;
  bar_->set_state(Place::trials, {}, true);
  bar_->set_state(Place::plan,
                  line(!trial   ? QString()
                       : sealed ? QStringLiteral("sealed ") + text(date_text(trial->sealed->sealed))
                                : QStringLiteral("draft")),
                  trial != nullptr);
  bar_->set_state(Place::brew,
                  line(!trial   ? QString()
                       : sealed ? QString()
                                : QStringLiteral("after the seal")),
                  sealed);
  bar_->set_state(Place::taste, line(sealed ? QStringLiteral("%1 of %2 sheets").arg(locked).arg(sheets) : QString()),
                  sealed && !trial->unmasked && !session_->read_only());
  bar_->set_state(
      Place::findings,
      line(trial && trial->unmasked ? QStringLiteral("unmasked ") + text(clock_text(trial->unmasked->at)) : QString()),
      sealed);
  bar_->set_state(Place::report, {}, trial && trial->unmasked);
}

void MainWindow::go(Place place) {
  if (place != Place::trials && (!session_ || !session_->trial())) place = Place::trials;
  if (taste_) {
    taste_->deleteLater();
    taste_ = nullptr;
  }
  if (paper_) {
    paper_->deleteLater();
    paper_ = nullptr;
  }
  if (place != Place::trials && !plan_) make_screens();
  place_ = place;
  switch (place) {
    case Place::trials:
      if (session_) show_book();
      pages_->setCurrentWidget(start_);
      break;
    case Place::plan:
      plan_->refresh();
      pages_->setCurrentWidget(plan_);
      break;
    case Place::brew:
      brew_->refresh();
      pages_->setCurrentWidget(brew_);
      break;
    case Place::taste:
      ask_who_tastes();
      break;
    case Place::findings:
      findings_->refresh();
      pages_->setCurrentWidget(findings_);
      break;
    case Place::report:
      report_->refresh();
      pages_->setCurrentWidget(report_);
      break;
  }
  bar_->set_current(place);
  show_bar(true);
  show_head();
  enter_page();
  // A sheet that was left takes the focus with it when it goes, which is later.
  QTimer::singleShot(0, this, &MainWindow::enter_page);
}

/// Whoever came by keyboard goes on in the page, not in the bar above it.
void MainWindow::enter_page() {
  QWidget* page = pages_->currentWidget();
  if (QWidget* at = focusWidget(); at && page->isAncestorOf(at) && at->isVisible()) return;
  if (page == plan_) return plan_->focus_top();
  if (page->focusProxy() || page->focusPolicy() != Qt::NoFocus) {
    page->setFocus();
    return;
  }
  for (QWidget* w = page->nextInFocusChain(); w != page; w = w->nextInFocusChain())
    if (page->isAncestorOf(w) && w->isVisibleTo(page) && w->isEnabled() && (w->focusPolicy() & Qt::TabFocus) != 0) {
      w->setFocus();
      return;
    }
}

void MainWindow::show_bar(bool shown) {
  head_->setVisible(shown);
  head_line_->setVisible(shown);
}

void MainWindow::ask_who_tastes() {
  std::vector<std::pair<QString, QString>> people;
  const auto trial = session_->trial();
  for (const auto& id : tasters(trial->draft)) {
    const auto* who = find_record(trial->sealed->registers.assessors, id);
    int locked = 0, all = 0;
    for (const auto* serving : live_servings(*trial)) {
      if (serving->assessor != id) continue;
      ++all;
      const auto found = trial->sheets.find(serving->id);
      if (found != trial->sheets.end() && found->second->locked) ++locked;
    }
    people.emplace_back(who ? text(who->alias) : QStringLiteral("–"),
                        QStringLiteral("%1 of %2 sheets locked").arg(locked).arg(all));
  }
  who_->set_tasters(people);
  who_->set_message({});
  pages_->setCurrentWidget(who_);
}

void MainWindow::taste_as(int index) {
  const auto people = tasters(session_->trial()->draft);
  if (index < 0 || index >= static_cast<int>(people.size())) return;
  auto port = session_->taster(people[static_cast<std::size_t>(index)]);
  if (!port) {
    who_->set_message(text(wording::sentence(port.error())));
    return;
  }
  tasting_ = index;
  delete taste_;
  taste_ = new TasteScreen(std::move(*port), services_.clock, style_, pages_);
  pages_->addWidget(taste_);
  show_bar(false);
  pages_->setCurrentWidget(taste_);
  connect(
      taste_, &TasteScreen::leave_wanted, this, [this] { go(Place::taste); }, Qt::QueuedConnection);
  connect(taste_, &TasteScreen::flight_done, this, [this] { show_head(); });
}

void MainWindow::type_in_for(int index) {
  const auto people = tasters(session_->trial()->draft);
  if (index < 0 || index >= static_cast<int>(people.size())) return;
  auto port = session_->taster(people[static_cast<std::size_t>(index)]);
  if (!port) {
    who_->set_message(text(wording::sentence(port.error())));
    return;
  }
  typing_for_ = index;
  delete paper_;
  paper_ = new PaperScreen(std::move(*port), style_, pages_);
  pages_->addWidget(paper_);
  pages_->setCurrentWidget(paper_);
  connect(
      paper_, &PaperScreen::leave_wanted, this, [this] { go(Place::taste); }, Qt::QueuedConnection);
}

void MainWindow::show_prints(int sitting) {
  prints_->show_side(sitting > 0 ? PrintsScreen::Side::bench : PrintsScreen::Side::tasters, sitting > 0 ? sitting : 1);
  pages_->setCurrentWidget(prints_);
}

void MainWindow::new_trial(const Plan& start) {
  if (!session_) return;
  // The key closes on the trial that it belongs to, and that is logged there.
  if (brew_) brew_->close_key();
  const auto made = session_->new_trial(start);
  if (!made) {
    say(text(wording::sentence(made.error())));
    go(Place::trials);
    return;
  }
  go(Place::plan);
}

void MainWindow::take_trial(int number) {
  if (!session_) return;
  if (brew_) brew_->close_key();
  if (const auto taken = session_->take_number(number); !taken) {
    say(text(wording::sentence(taken.error())));
    return;
  }
  switch (stage(*session_->trial())) {
    case Stage::plan:
      go(Place::plan);
      break;
    case Stage::brew_and_taste:
      go(Place::brew);
      break;
    case Stage::all_locked:
    case Stage::unmasked:
      go(Place::findings);
      break;
  }
}

/// Where the next dialog begins: beside the book at hand, else among the person's documents.
QString MainWindow::folder() const {
  if (session_) return QFileInfo(text(session_->path().string())).absolutePath();
  return QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
}

void MainWindow::choose_book() {
  const QString file = prompts_.open_book(this, folder());
  if (!file.isEmpty()) open_book(std::filesystem::path(file.toStdString()));
}

void MainWindow::new_book() {
  QString file = prompts_.new_book(this, folder());
  if (file.isEmpty()) return;
  if (!file.endsWith(QStringLiteral(".leafbook"))) file += QStringLiteral(".leafbook");
  take(Session::create(std::filesystem::path(file.toStdString()), services_));
}

void MainWindow::sample_book() {
  const QString folder = QStandardPaths::writableLocation(QStandardPaths::AppDataLocation);
  const std::filesystem::path path = std::filesystem::path(folder.toStdString()) / "sample.leafbook";
  std::error_code code;
  std::filesystem::create_directories(path.parent_path(), code);
  if (std::filesystem::exists(path)) {
    open_book(path);
    start_->choose(sample_trial);
    return;
  }
  auto session = Session::create(path, services_);
  if (session)
    for (const auto name : embedded_names("sample_sessions/trial-")) {
      const auto import = exchange::read_bundle(*embedded(name), std::string(name));
      const auto done =
          import ? (*session)->import_trial(*import) : Result<ImportOutcome>(tl::unexpected(import.error()));
      if (!done) {
        // Half a sample would be taken for the whole one next time.
        session->reset();
        std::filesystem::remove(path, code);
        say(text(wording::sentence(done.error())));
        return;
      }
    }
  take(std::move(session));
  start_->choose(sample_trial);
}

void MainWindow::import_bundle() {
  const QString file = prompts_.bundle(this, folder());
  if (file.isEmpty() || !session_) return;
  const auto import = exchange::read_bundle_file(std::filesystem::path(file.toStdString()));
  const auto done = import ? session_->import_trial(*import) : Result<ImportOutcome>(tl::unexpected(import.error()));
  say(!done           ? text(wording::sentence(done.error()))
      : done->skipped ? QStringLiteral("Trial %1 was there already, unchanged.").arg(done->number)
                      : QStringLiteral("Trial %1 is now in this book.").arg(done->number));
  if (done) show_book();
}

}  // namespace likeleaf::ui
