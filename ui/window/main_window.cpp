#include "ui/window/main_window.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QLabel>
#include <QStandardPaths>
#include <QVBoxLayout>

#include "core/base/embedded.h"
#include "core/evidence/findings.h"
#include "core/exchange/bundle_read.h"
#include "core/wording/errors.h"
#include "core/wording/sentences.h"
#include "ui/start/start_screen.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

TrialAnswer answer_for(const Session& session, const store::LedgerRow& row, const Style& style) {
  TrialAnswer out;
  if (row.stage != Stage::unmasked) {
    out.empty =
        row.stage == Stage::plan
            ? QStringLiteral("This trial is still a draft.")
            : QStringLiteral("Sealed. What it found is shown once every sheet is locked and the key is opened.");
    return out;
  }
  const auto trial = session.read(row.id);
  const auto unmasked = trial ? open_unmasked(*trial) : Result<Unmasked>(tl::unexpected(trial.error()));
  const auto findings =
      unmasked ? evidence::find(*unmasked) : Result<evidence::Findings>(tl::unexpected(unmasked.error()));
  if (!findings) {
    out.empty = text(wording::sentence(findings.error()));
    return out;
  }
  const SealedPlan& plan = unmasked->plan();
  out.headline = text(wording::headline(*findings, plan, style));
  out.scope = text(wording::scope_sentence(*findings, plan, style));
  for (const auto& f : findings->attributes) {
    const auto said = wording::finding_text(f, plan, style, findings->contrasts.size() > 1);
    out.lines.push_back({static_cast<int>(f.word), text(said.title), text(said.sentence)});
  }
  if (plan.plan.rule && findings->rule)
    out.rule = text(wording::rule_sentence(*plan.plan.rule, plan, style) + " " +
                    wording::rule_outcome(*findings->rule, plan, style));
  return out;
}

}  // namespace

MainWindow::MainWindow(const Services& services, QWidget* parent) : QMainWindow(parent), services_(services) {
  const Tokens& t = tokens();
  setWindowTitle(QStringLiteral("Likeleaf"));
  resize(1280, 800);
  auto* page = new QWidget(this);
  auto* down = new QVBoxLayout(page);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(0);
  auto* head = new QWidget(page);
  auto* across = new QHBoxLayout(head);
  across->setContentsMargins(28, 12, 28, 12);
  auto* name = new QLabel(QStringLiteral("Likeleaf"), head);
  name->setFont(face(16, Weight::semi_bold));
  book_name_ = new QLabel(head);
  book_name_->setObjectName(QStringLiteral("book"));
  kept_note_ = new QLabel(head);
  kept_note_->setObjectName(QStringLiteral("kept"));
  QPalette soft = kept_note_->palette();
  soft.setColor(QPalette::WindowText, t.soft_ink);
  for (auto* l : {book_name_, kept_note_}) {
    l->setPalette(soft);
    l->setFont(face(13));
  }
  across->addWidget(name);
  across->addStretch(1);
  across->addWidget(book_name_);
  across->addSpacing(16);
  across->addWidget(kept_note_);
  down->addWidget(head);
  auto* line = new QFrame(page);
  line->setFixedHeight(1);
  QPalette ruled = line->palette();
  ruled.setColor(QPalette::Window, t.line);
  line->setAutoFillBackground(true);
  line->setPalette(ruled);
  down->addWidget(line);
  start_ = new StartScreen(page);
  down->addWidget(start_, 1);
  setCentralWidget(page);
  connect(start_, &StartScreen::open_wanted, this, &MainWindow::choose_book);
  connect(start_, &StartScreen::new_book_wanted, this, &MainWindow::new_book);
  connect(start_, &StartScreen::sample_wanted, this, &MainWindow::sample_book);
  connect(start_, &StartScreen::import_wanted, this, &MainWindow::import_bundle);
  start_->set_answer_source(
      [this](const store::LedgerRow& row) { return session_ ? answer_for(*session_, row, Style{}) : TrialAnswer{}; });
}

MainWindow::~MainWindow() = default;

void MainWindow::take(Result<std::unique_ptr<Session>> session) {
  if (!session) {
    start_->set_note(text(wording::sentence(session.error())));
    return;
  }
  // The old book's subscription and rows go before the book itself.
  kept_ = Subscription();
  session_ = std::move(*session);
  kept_ = session_->on_kept([this](const Kept& kept) {
    kept_note_->setText(kept.not_kept ? text("not kept: " + wording::sentence(*kept.not_kept))
                                      : text("kept " + clock_text(kept.at)));
  });
  QStringList notes;
  for (const auto& note : session_->opening_notes()) notes << text(wording::sentence(note));
  if (session_->read_only() && notes.isEmpty()) notes << QStringLiteral("This book is open for reading only.");
  start_->set_note(notes.join(QLatin1Char('\n')));
  show_book();
}

void MainWindow::open_book(const std::filesystem::path& book) {
  auto session = Session::open(book, OpenWay::write, services_);
  if (!session && session.error().kind == ErrorKind::read_only) {
    const QString why = text(wording::sentence(session.error()));
    auto reading = Session::open(book, OpenWay::read_only, services_);
    if (reading) {
      take(std::move(reading));
      start_->set_note(why + QStringLiteral("\nIt is open here for reading only."));
      return;
    }
  }
  take(std::move(session));
}

void MainWindow::show_book() {
  book_name_->setText(text(session_->path().filename().string()) +
                      (session_->read_only() ? QStringLiteral(" (reading only)") : QString()));
  start_->set_trials(session_->ledger(), true, !session_->read_only());
}

void MainWindow::choose_book() {
  const QString file = QFileDialog::getOpenFileName(this, QStringLiteral("Open a bench book"), {},
                                                    QStringLiteral("Bench books (*.leafbook)"));
  if (!file.isEmpty()) open_book(std::filesystem::path(file.toStdString()));
}

void MainWindow::new_book() {
  QString file =
      QFileDialog::getSaveFileName(this, QStringLiteral("A new bench book"), QStringLiteral("house.leafbook"),
                                   QStringLiteral("Bench books (*.leafbook)"));
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
    return;
  }
  auto session = Session::create(path, services_);
  if (session)
    for (const auto name : embedded_names("sample_sessions/trial-")) {
      const auto import = exchange::read_bundle(*embedded(name), std::string(name));
      const auto done =
          import ? (*session)->import_trial(*import) : Result<ImportOutcome>(tl::unexpected(import.error()));
      if (!done) {
        start_->set_note(text(wording::sentence(done.error())));
        return;
      }
    }
  take(std::move(session));
}

void MainWindow::import_bundle() {
  const QString file =
      QFileDialog::getOpenFileName(this, QStringLiteral("Import a trial"), {}, QStringLiteral("Bundles (*.json)"));
  if (file.isEmpty() || !session_) return;
  const auto import = exchange::read_bundle_file(std::filesystem::path(file.toStdString()));
  const auto done = import ? session_->import_trial(*import) : Result<ImportOutcome>(tl::unexpected(import.error()));
  start_->set_note(!done           ? text(wording::sentence(done.error()))
                   : done->skipped ? QStringLiteral("Trial %1 was there already, unchanged.").arg(done->number)
                                   : QStringLiteral("Trial %1 is now in this book.").arg(done->number));
  if (done) show_book();
}

}  // namespace likeleaf::ui
