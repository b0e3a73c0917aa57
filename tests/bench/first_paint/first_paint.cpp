// From the start of a process to its first painted frame (the turn of the event loop after the first paint event): an
// empty Qt window with the program's font, the program's window, and the frame in which the sample book's trials are
// listed; the book is opened after the first frame, so that frame is the same with a book and without. Without
// arguments it starts itself, each ten times in turn, and prints the medians; with a book as argument the trials listed
// are that book's. The platform is QT_QPA_PLATFORM's.
#include <sys/wait.h>
#include <unistd.h>

#include <QApplication>
#include <QFontDatabase>
#include <QLabel>
#include <QListWidget>
#include <QTimer>
#include <algorithm>
#include <array>
#include <chrono>
#include <clocale>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "core/base/embedded.h"
#include "core/exchange/bundle_read.h"
#include "ui/theme/theme.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"

namespace {

using namespace likeleaf;
namespace fs = std::filesystem;

constexpr int rounds = 10;
constexpr std::array modes{"empty", "window", "listed"};

/// Microseconds of the clock that all processes share.
long long now_us() {
  return std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

/// Ends the program in the turn of the event loop after the first paint, and says how long that took.
class FirstPaint final : public QObject {
 public:
  explicit FirstPaint(long long since) : since_(since) {}

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override {
    const auto* list = qobject_cast<QListWidget*>(watched->parent());
    if (event->type() == QEvent::Paint && !seen_ && (!list || list->count() > 0)) {
      seen_ = true;
      QTimer::singleShot(0, this, [this] {
        std::printf("%lld\n", now_us() - since_);
        std::fflush(stdout);
        QCoreApplication::quit();
      });
    }
    return QObject::eventFilter(watched, event);
  }

 private:
  long long since_;
  bool seen_ = false;
};

int paint_once(const std::string& mode, long long since, const std::string& book) {
  int argc = 1;
  char name[] = "bench_first_paint";
  char* argv[] = {name, nullptr};
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  FirstPaint watch(since);
  if (mode == "empty") {
    ui::load_fonts();
    QApplication::setFont(ui::face(15));
    QLabel empty(QStringLiteral("Likeleaf"));
    empty.installEventFilter(&watch);
    empty.resize(1280, 800);
    empty.show();
    return QApplication::exec();
  }
  ui::apply_theme(application, false);
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  ui::MainWindow window(Services{clock, entropy, dispatcher}, ui::Look{});
  if (mode == "listed")
    window.findChild<QListWidget*>(QStringLiteral("trials"))->viewport()->installEventFilter(&watch);
  else
    window.centralWidget()->installEventFilter(&watch);
  if (mode == "listed") window.open_book_soon(book);
  window.show();
  return QApplication::exec();
}

bool make_sample(const fs::path& book) {
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  auto session = Session::create(book, {clock, entropy, dispatcher});
  if (!session) return false;
  for (const auto bundle : embedded_names("sample_sessions/trial-")) {
    const auto import = exchange::read_bundle(*embedded(bundle), std::string(bundle));
    if (!import || !(*session)->import_trial(*import)) return false;
  }
  return true;
}

/// One process of its own; -1 when it failed. `program` is this file.
long long measured(const std::string& program, const std::string& mode, const std::string& book) {
  const std::string command =
      "exec '" + program + "' --paint " + mode + " " + std::to_string(now_us()) + " '" + book + "' 2>/dev/null";
  FILE* out = popen(command.c_str(), "r");
  if (out == nullptr) return -1;
  long long us = -1;
  if (std::fscanf(out, "%lld", &us) != 1) us = -1;
  return pclose(out) == 0 ? us : -1;
}

int compare(const char* given) {
  std::string folder = (fs::temp_directory_path() / "likeleaf-bench-XXXXXX").string();
  if (mkdtemp(folder.data()) == nullptr) return 1;
  const std::string book = given != nullptr ? given : (fs::path(folder) / "sample.leafbook").string();
  const std::string program = fs::read_symlink("/proc/self/exe").string();
  const bool made = given != nullptr || make_sample(book);
  std::array<std::vector<long long>, modes.size()> times;
  // In turn, so that a busy moment of the machine falls on all alike; the first round only warms the disk cache.
  for (int round = 0; made && round <= rounds; ++round)
    for (std::size_t i = 0; i < modes.size(); ++i)
      if (const auto us = measured(program, modes[i], book); round > 0 && us >= 0) times[i].push_back(us);
  std::error_code ignored;
  fs::remove_all(folder, ignored);
  for (std::size_t i = 0; i < modes.size(); ++i) {
    auto& all = times[i];
    if (all.size() != rounds) {
      std::fprintf(stderr, "first paint, %s: a run failed\n", modes[i]);
      return 1;
    }
    std::sort(all.begin(), all.end());
    std::printf("first paint, %-6s  median %6.1f ms  (%.1f to %.1f, n = %d)\n", modes[i],
                static_cast<double>(all[rounds / 2 - 1] + all[rounds / 2]) / 2000.0,
                static_cast<double>(all.front()) / 1000.0, static_cast<double>(all.back()) / 1000.0, rounds);
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc == 5 && std::string(argv[1]) == "--paint") return paint_once(argv[2], std::stoll(argv[3]), argv[4]);
  return compare(argc == 2 ? argv[1] : nullptr);
}
