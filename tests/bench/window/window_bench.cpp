// What a person waits for in the window, on books of 10, 100 and 1 000 trials: until the list stands, until a trial is
// on the bench, until a new one is, until the list is there again. Each until the window is painted; the platform is
// QT_QPA_PLATFORM's.
#include <benchmark/benchmark.h>

#include <QApplication>
#include <clocale>
#include <memory>

#include "tests/bench/book_folder.h"
#include "ui/start/start_screen.h"
#include "ui/theme/theme.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"
#include "ui/window/stage_bar.h"

namespace likeleaf::bench {
namespace {

struct Desk {
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  ui::MainWindow window{Services{clock, entropy, dispatcher}, ui::Look{}};
  Desk() {
    window.show();
    painted();
  }
  void painted() {
    QApplication::processEvents();
    window.repaint();
    QApplication::processEvents();
  }
  [[nodiscard]] ui::StartScreen& start() { return *window.findChild<ui::StartScreen*>(); }
  void to_list() {
    emit window.findChild<ui::StageBar*>()->chosen(ui::StageBar::Place::trials);
    painted();
  }
};

void sizes(benchmark::internal::Benchmark* all) {
  all->ArgName("trials")->Arg(10)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond)->Iterations(5);
}

void OpenToListed(benchmark::State& state) {
  const auto book = book_of(static_cast<int>(state.range(0)));
  for (auto _ : state) {
    state.PauseTiming();
    auto desk = std::make_unique<Desk>();
    state.ResumeTiming();
    desk->window.open_book(book);
    desk->painted();
    state.PauseTiming();
    desk.reset();
    state.ResumeTiming();
  }
}
BENCHMARK(OpenToListed)->Apply(sizes);

void ToThisTrial(benchmark::State& state) {
  Desk desk;
  desk.window.open_book(book_of(static_cast<int>(state.range(0))));
  int number = 1;
  for (auto _ : state) {
    emit desk.start().trial_wanted(number);
    desk.painted();
    state.PauseTiming();
    number = 3 - number;
    desk.to_list();
    state.ResumeTiming();
  }
}
BENCHMARK(ToThisTrial)->Apply(sizes);

void NewTrial(benchmark::State& state) {
  Desk desk;
  desk.window.open_book(book_of(static_cast<int>(state.range(0))));
  for (auto _ : state) {
    emit desk.start().new_trial_wanted();
    desk.painted();
    state.PauseTiming();
    desk.to_list();
    state.ResumeTiming();
  }
}
BENCHMARK(NewTrial)->Apply(sizes);

void BackToTheList(benchmark::State& state) {
  Desk desk;
  desk.window.open_book(book_of(static_cast<int>(state.range(0))));
  for (auto _ : state) {
    state.PauseTiming();
    emit desk.start().trial_wanted(1);
    desk.painted();
    state.ResumeTiming();
    desk.to_list();
  }
}
BENCHMARK(BackToTheList)->Apply(sizes);

}  // namespace
}  // namespace likeleaf::bench

int main(int argc, char** argv) {
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  likeleaf::ui::apply_theme(application, false);
  benchmark::Initialize(&argc, argv);
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
