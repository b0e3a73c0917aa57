// How long the statistics take. Benchmarks, not tests: nothing here passes or fails.
#include <benchmark/benchmark.h>

#include <vector>

#include "core/stats/brew_pairs.h"
#include "core/stats/equivalence.h"
#include "core/stats/flip_interval.h"
#include "core/stats/next_pairs.h"
#include "core/stats/random.h"
#include "core/stats/shrunken.h"
#include "core/stats/sign_flip.h"
#include "core/stats/t_engine.h"
#include "core/stats/unlike_assessors.h"
#include "core/stats/unlike_lots.h"

namespace {

using namespace likeleaf::stats;

std::vector<std::int64_t> values(std::size_t n, std::uint64_t range) {
  Draws draws(n, Stream::other);
  std::vector<std::int64_t> out;
  for (std::size_t i = 0; i < n; ++i)
    out.push_back(static_cast<std::int64_t>(draws.below(range)) - static_cast<std::int64_t>(range * 2 / 5));
  return out;
}

/// 200 plain differences in half steps, −8 … 11: to be under 1 ms.
void flip_200_half_steps(benchmark::State& state) {
  const auto d = values(200, 20);
  for (auto _ : state) benchmark::DoNotOptimize(sign_flip(d, 1));
}
BENCHMARK(flip_200_half_steps)->Unit(benchmark::kMicrosecond);

/// Logs: sorted halves up to 34, draws above.
void flip_logs(benchmark::State& state) {
  const auto d = values(static_cast<std::size_t>(state.range(0)), 2'000'000'000);
  for (auto _ : state) benchmark::DoNotOptimize(sign_flip(d, 1));
}
BENCHMARK(flip_logs)->Arg(12)->Arg(20)->Arg(30)->Arg(40)->Arg(60)->Unit(benchmark::kMillisecond);

/// d_g of 12 assessors, six a side: twelfths of half a half step.
void interval_scores(benchmark::State& state) {
  const auto v = plain(values(static_cast<std::size_t>(state.range(0)), 100), 24).value();
  for (auto _ : state) benchmark::DoNotOptimize(flip_interval(v, 0.05, 1));
}
BENCHMARK(interval_scores)->Arg(6)->Arg(12)->Arg(18)->Arg(24)->Arg(40)->Unit(benchmark::kMillisecond);

void interval_logs(benchmark::State& state) {
  const auto v = plain(values(static_cast<std::size_t>(state.range(0)), 2'000'000'000), 1'000'000'000).value();
  for (auto _ : state) benchmark::DoNotOptimize(flip_interval(v, 0.05, 1));
}
BENCHMARK(interval_logs)->Arg(12)->Arg(18)->Arg(24)->Arg(30)->Arg(40)->Arg(60)->Unit(benchmark::kMillisecond);

struct Trial {
  std::vector<TastedPair> tasted;
  std::vector<std::int32_t> lot_of;
};
Trial trial(std::int32_t lots, std::int32_t replicates, std::int32_t assessors) {
  Draws draws(17, Stream::other);
  Trial out;
  for (std::int32_t g = 0; g < lots * replicates; ++g) {
    out.lot_of.push_back(g / replicates);
    for (std::int32_t a = 0; a < assessors; ++a)
      out.tasted.push_back({g, a, static_cast<std::int64_t>(draws.below(13)) - 5, (g + a) % 2 == 0, 2});
  }
  return out;
}

/// All that one attribute of a trial with 6 lots, 2 brew pairs a lot and 12 assessors asks.
void one_attribute(benchmark::State& state) {
  const Trial t = trial(6, 2, 12);
  for (auto _ : state) {
    const auto pairs = brew_pairs(t.tasted, t.lot_of, 2).value();
    benchmark::DoNotOptimize(sign_flip(pairs.values, 1));
    benchmark::DoNotOptimize(flip_equivalence(pairs.values, Rational{1, 1}, 1));
    benchmark::DoNotOptimize(flip_interval(pairs.values, 0.05, 1));
    benchmark::DoNotOptimize(flip_interval(pairs.values, 0.1, 1));
    benchmark::DoNotOptimize(t_fit(pairs.values));
    benchmark::DoNotOptimize(unlike_lots(pairs.values, 1));
    benchmark::DoNotOptimize(shrunken_lots(pairs.values));
    benchmark::DoNotOptimize(unlike_assessors(t.tasted, 2, 1));
    benchmark::DoNotOptimize(shrunken_assessors(t.tasted, 2, estimate(pairs.values)));
    benchmark::DoNotOptimize(pairs_for_difference(1, 1.4, 0.05));
    benchmark::DoNotOptimize(pairs_for_equivalence(0, 1.4, 1, 0.05));
  }
}
BENCHMARK(one_attribute)->Unit(benchmark::kMillisecond);

void lots_listed(benchmark::State& state) {  // 369 600 ways, 15 400 but for names
  const Trial t = trial(4, 3, 4);
  const auto pairs = brew_pairs(t.tasted, t.lot_of, 2).value();
  for (auto _ : state) benchmark::DoNotOptimize(unlike_lots(pairs.values, 1));
}
BENCHMARK(lots_listed)->Unit(benchmark::kMillisecond);

void lots_drawn(benchmark::State& state) {  // 63 063 000 ways
  const Trial t = trial(4, 4, 6);
  const auto pairs = brew_pairs(t.tasted, t.lot_of, 2).value();
  for (auto _ : state) benchmark::DoNotOptimize(unlike_lots(pairs.values, 1));
}
BENCHMARK(lots_drawn)->Unit(benchmark::kMillisecond);

void assessors_drawn(benchmark::State& state) {
  const Trial t = trial(6, 2, 12);
  for (auto _ : state) benchmark::DoNotOptimize(unlike_assessors(t.tasted, 2, 1));
}
BENCHMARK(assessors_drawn)->Unit(benchmark::kMillisecond);

void next_pairs(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(pairs_for_difference(1, 1.4, 0.05));
    benchmark::DoNotOptimize(pairs_for_equivalence(0, 1.4, 1, 0.05));
  }
}
BENCHMARK(next_pairs)->Unit(benchmark::kMillisecond);

}  // namespace
