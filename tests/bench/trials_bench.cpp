// What grows with the book, on books of 10, 100 and 1 000 trials of 204 sheets each (making the largest takes a
// minute). Folder: TMPDIR.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <memory>
#include <random>

#include "core/planning/plan_starter.h"
#include "core/session/session.h"
#include "tests/bench/book_folder.h"

namespace likeleaf::bench {
namespace {

/// A session on the book of the benchmark's size.
struct Open {
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  Services services{clock, entropy, dispatcher};
  std::filesystem::path book;
  std::unique_ptr<Session> session;

  Open(benchmark::State& state, OpenWay way) : book(book_of(static_cast<int>(state.range(0)))) {
    auto opened = Session::open(book, way, services);
    if (opened)
      session = std::move(*opened);
    else
      state.SkipWithError("no book");
  }
};

void sizes(benchmark::internal::Benchmark* all) {
  all->ArgName("trials")->Arg(10)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);
}

void ListTrials(benchmark::State& state) {
  const Open open(state, OpenWay::read_only);
  for (auto _ : state) benchmark::DoNotOptimize(open.session->ledger());
}
BENCHMARK(ListTrials)->Apply(sizes);

void OpenAndList(benchmark::State& state) {
  for (auto _ : state) {
    const Open open(state, OpenWay::write);
    benchmark::DoNotOptimize(open.session->ledger());
  }
}
BENCHMARK(OpenAndList)->Apply(sizes);

void TakeTrial(benchmark::State& state) {
  const Open open(state, OpenWay::read_only);
  int number = 1;
  for (auto _ : state) {
    if (!open.session->take_number(number)) state.SkipWithError("no such trial");
    number = 3 - number;
  }
}
BENCHMARK(TakeTrial)->Apply(sizes);

void NewTrialUntilKept(benchmark::State& state) {
  const Open open(state, OpenWay::write);
  const Plan start = starter_plan(open.session->attributes());
  for (auto _ : state)
    if (!open.session->new_trial(start) || !open.session->flush()) state.SkipWithError("not kept");
}
BENCHMARK(NewTrialUntilKept)->Apply(sizes)->Iterations(5)->MeasureProcessCPUTime();

void WrongNumber(benchmark::State& state) {
  const Open open(state, OpenWay::read_only);
  for (auto _ : state) benchmark::DoNotOptimize(open.session->take_number(999'999));
}
BENCHMARK(WrongNumber)->Apply(sizes);

void ImportTrial(benchmark::State& state) {
  const Open open(state, OpenWay::write);
  TrialMaker maker(std::random_device{}());
  const auto log = std::filesystem::path(open.book.string() + "-wal");
  double most = 0;
  for (auto _ : state) {
    state.PauseTiming();
    const TrialImport import = maker.import(0);
    state.ResumeTiming();
    if (!open.session->import_trial(import)) state.SkipWithError("not taken");
    most = std::max(most, static_cast<double>(std::filesystem::file_size(log)));
  }
  state.counters["log_MB"] = most / 1e6;
}
BENCHMARK(ImportTrial)->Apply(sizes)->Iterations(20)->MeasureProcessCPUTime();

void Check(benchmark::State& state) {
  const Open open(state, OpenWay::read_only);
  for (auto _ : state) benchmark::DoNotOptimize(open.session->check_book());
}
BENCHMARK(Check)->Apply(sizes)->Iterations(1);

}  // namespace
}  // namespace likeleaf::bench
