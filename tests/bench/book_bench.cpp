// From a key press to durable on disk, beside the disk's own fsync; opening a book and listing it. Folder: TMPDIR.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <thread>
#include <vector>

#include "core/base/embedded.h"
#include "core/exchange/bundle_read.h"
#include "core/session/session.h"
#include "tests/bench/book_folder.h"

namespace {

using namespace likeleaf;

using bench::Folder;

double percentile(std::vector<double>& values, double share) {
  if (values.empty()) return 0;
  std::sort(values.begin(), values.end());
  return values[std::min(values.size() - 1, static_cast<std::size_t>(share * static_cast<double>(values.size())))];
}

void DiskAppendFsync(benchmark::State& state) {
  const Folder folder;
  const int file = open((folder.path / "append").c_str(), O_CREAT | O_WRONLY | O_APPEND, 0600);
  const std::vector<char> block(4096, 'x');
  std::vector<double> ms;
  for (auto _ : state) {
    const auto start = std::chrono::steady_clock::now();
    if (write(file, block.data(), block.size()) < 0 || fsync(file) != 0) state.SkipWithError("the disk refused");
    ms.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
  }
  close(file);
  state.counters["p50_ms"] = percentile(ms, 0.5);
  state.counters["p99_ms"] = percentile(ms, 0.99);
}
BENCHMARK(DiskAppendFsync)->Iterations(500)->Unit(benchmark::kMillisecond);

/// One edit of a plan: command, checked, kept; until the writer says that it is on disk.
void EditToDurable(benchmark::State& state) {
  const Folder folder;
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  auto session = Session::create(folder.path / "bench.leafbook", {clock, entropy, dispatcher});
  if (!session || !(*session)->new_trial({})) return state.SkipWithError("no book");
  Plan plan = (*session)->trial()->draft;
  std::vector<double> ms, caller;
  int n = 0;
  for (auto _ : state) {
    plan.notes = "edit " + std::to_string(n++);
    const auto start = std::chrono::steady_clock::now();
    if (!(*session)->run(SetPlan{plan})) state.SkipWithError("refused");
    caller.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    if (!(*session)->flush()) state.SkipWithError("not kept");
    ms.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    dispatcher.pump();
  }
  state.counters["p50_ms"] = percentile(ms, 0.5);
  state.counters["p99_ms"] = percentile(ms, 0.99);
  state.counters["caller_p99_ms"] = percentile(caller, 0.99);
}
BENCHMARK(EditToDurable)->Iterations(500)->Unit(benchmark::kMillisecond);

void OpenAndListSample(benchmark::State& state) {
  const Folder folder;
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  const Services services{clock, entropy, dispatcher};
  {
    auto session = Session::create(folder.path / "bench.leafbook", services);
    for (const auto name : embedded_names("sample_sessions/trial-"))
      if (const auto import = exchange::read_bundle(*embedded(name)); !import || !(*session)->import_trial(*import))
        return state.SkipWithError("no sample");
  }
  for (auto _ : state) {
    auto session = Session::open(folder.path / "bench.leafbook", OpenWay::read_only, services);
    benchmark::DoNotOptimize((*session)->ledger());
  }
}
BENCHMARK(OpenAndListSample)->Unit(benchmark::kMillisecond);

}  // namespace
