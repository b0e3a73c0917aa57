#include "bench_window.h"

#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QTemporaryDir>

#include "core/base/embedded.h"
#include "core/exchange/bundle_read.h"

namespace likeleaf::test {
namespace {

std::vector<std::string>& lines() {
  static std::vector<std::string> said;
  return said;
}

void listen(QtMsgType type, const QMessageLogContext&, const QString& message) {
  if (type == QtDebugMsg || type == QtInfoMsg || message.contains(QLatin1String("propagateSizeHints")) ||
      message.contains(QLatin1String("XDG_RUNTIME_DIR")))
    return;
  lines().push_back(message.toStdString());
}

void start(BenchWindow&) {}

View sample(const std::string& name, int row, const char* place) {
  return {name, [row, place = QString::fromLatin1(place)](BenchWindow& b) {
            b.open_sample();
            b.child<QListWidget>("trials")->setCurrentRow(row);
            b.click("take");
            b.click(QStringLiteral("place_") + place);
          }};
}

View at(const std::string& name, const Plan& plan, BenchWindow::Far far, const char* place,
        const std::vector<const char*>& clicks = {}) {
  return {name, [plan, far, place = QString::fromLatin1(place), clicks](BenchWindow& b) {
            b.open(plan, far);
            b.click("take");
            b.click(QStringLiteral("place_") + place);
            for (const char* button : clicks) b.click(QString::fromLatin1(button));
          }};
}

std::vector<View> make_views() {
  using enum BenchWindow::Far;
  const FerryPier pier;
  const Plan two_levels = pier.trial_14(), three_levels = pier.trial_15(), alone = pier.trial_16();
  std::vector<View> views{
      {"start_without_a_book", start},
      {"start_on_an_empty_book", [](BenchWindow& b) { b.open_empty(); }},
      {"start_on_the_sample", [](BenchWindow& b) { b.open_sample(); }},
      {"plan_from_nothing",
       [](BenchWindow& b) {
         b.open_empty();
         b.click("new_trial");
       }},
      at("plan_draft", two_levels, draft, "plan"),
      at("plan_draft_three_levels", three_levels, draft, "plan"),
      at("plan_sealed", two_levels, sealed, "plan"),
      at("brew_key_closed", two_levels, sealed, "brew"),
      at("brew_asking", two_levels, sealed, "brew", {"ask_key"}),
      at("brew_notes", two_levels, sealed, "brew", {"ask_key", "open_key"}),
      at("brew_serving", two_levels, sealed, "brew", {"ask_key", "open_key", "serve"}),
      at("brew_taking_out", two_levels, sealed, "brew", {"ask_key", "open_key", "void"}),
      at("brew_alone", alone, sealed, "brew", {"without_key"}),
      at("taste_who", two_levels, sealed, "taste"),
      at("taste_day", two_levels, sealed, "taste", {"taster_0"}),
      at("taste_pair", two_levels, sealed, "taste", {"taster_0", "begin"}),
      at("paper_sheets", two_levels, sealed, "taste", {"paper_0"}),
      at("paper_alone", alone, sealed, "taste", {"paper_0"}),
      {"paper_entries_differ",
       [two_levels](BenchWindow& b) {
         b.open(two_levels, sealed);
         for (const char* button : {"take", "place_taste", "paper_0"}) b.click(button);
         for (const char* typed : {"7", "6"}) {
           QTest::keyClicks(QApplication::focusWidget(), QLatin1String(typed));
           QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
           if (typed[0] == '7') b.click("mode_second");
         }
         b.click("mode_compare");
       }},
      at("taste_alone", alone, sealed, "taste", {"taster_0", "begin"}),
      at("findings_open_sheets", two_levels, sealed, "findings"),
      at("findings_to_unmask", three_levels, locked, "findings"),
  };
  const char* names[] = {"dose", "steep", "temperature"};
  for (int row = 0; row < 3; ++row)
    for (const char* place : {"plan", "brew", "findings", "report"})
      views.push_back(sample(std::string("sample_") + names[row] + "_" + place, row, place));
  return views;
}

}  // namespace

BenchWindow::BenchWindow() {
  window_ = std::make_unique<ui::MainWindow>(Services{clock_, entropy_, dispatcher_}, ui::Look{});
  window_->show();
  EXPECT_TRUE(QTest::qWaitForWindowActive(window_.get()));
}

/// Findings are worked out beside the window; layouts follow in the next turns of the event loop.
void BenchWindow::settle() {
  const auto answered = [&] {
    const auto* findings = window_->findChild<QWidget*>(QStringLiteral("findings_screen"));
    if (!findings || !findings->isVisible()) return true;
    for (const char* name : {"headline", "closed_said", "trouble"})
      for (const auto* l : findings->findChildren<QLabel*>(QLatin1String(name)))
        if (l->isVisible()) return true;
    return false;
  };
  EXPECT_TRUE(QTest::qWaitFor(answered, 30'000));
  for (int turn = 0; turn < 5; ++turn) QApplication::processEvents();
}

void BenchWindow::click(const QString& button) {
  auto* b = child<QAbstractButton>(button);
  if (!b->isEnabled()) throw std::runtime_error(button.toStdString() + " cannot be pressed");
  QTest::mouseClick(b, Qt::LeftButton);
  settle();
}

void BenchWindow::open_empty() {
  Session::create(book(), {clock_, entropy_, dispatcher_}).value().reset();
  window_->open_book(book());
  QApplication::processEvents();
}

void BenchWindow::open_sample() {
  auto session = Session::create(book(), {clock_, entropy_, dispatcher_}).value();
  for (const auto name : embedded_names("sample_sessions/trial-"))
    session->import_trial(exchange::read_bundle(*embedded(name), std::string(name)).value()).value();
  session.reset();
  window_->open_book(book());
  QApplication::processEvents();
}

void BenchWindow::open(const Plan& plan, Far far) {
  World world;
  auto session = new_bench(book(), world);
  session->new_trial(plan).value();
  if (far != Far::draft) session->seal().value();
  if (far == Far::locked) lock_everything(*session);
  session.reset();
  window_->open_book(book());
  QApplication::processEvents();
}

const std::vector<View>& every_view() {
  static const std::vector<View> views = make_views();
  return views;
}

Listening::Listening() {
  lines().clear();
  qInstallMessageHandler(listen);
}

Listening::~Listening() {
  qInstallMessageHandler(nullptr);
}

std::vector<std::string> Listening::heard() {
  return lines();
}

}  // namespace likeleaf::test
