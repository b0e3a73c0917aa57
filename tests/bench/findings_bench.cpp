// Findings of a trial of 8 attributes, 12 assessors, 6 lots, 2 replicate brew pairs: under 50 ms (methods.md 11); and
// of finish length alone over many brew pairs, whose log ratios share no grid.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <memory>
#include <random>
#include <stdexcept>
#include <string>

#include "core/base/entropy.h"
#include "core/codec/builtin.h"
#include "core/design/deal.h"
#include "core/evidence/find.h"

namespace likeleaf {
namespace {

struct Size {
  int lots = 6, replicates = 2, assessors = 12;
  bool finish_only = false;
};

SealedPlan sealed_plan(Entropy& ids, const Size& size) {
  SealedPlan sealed;
  auto& plan = sealed.plan;
  plan.id = IdOf<Trial>::make(ids);
  plan.brew_pairs = size.replicates;
  for (const std::int64_t t : {80'000, 90'000}) {
    Level level;
    level.value = t;
    level.present_way = t == 80'000;
    plan.lever.levels.push_back(level);
  }
  for (int l = 0; l < size.lots; ++l) {
    Lot lot;
    lot.id = IdOf<Lot>::make(ids);
    lot.code = "L-" + std::to_string(l + 1);
    sealed.registers.lots.push_back(lot);
    plan.lots.push_back(lot.id);
  }
  for (int k = 0; k < size.assessors; ++k) {
    Assessor assessor;
    assessor.id = IdOf<Assessor>::make(ids);
    assessor.alias = "T" + std::to_string(k + 1);
    sealed.registers.assessors.push_back(assessor);
    plan.assessors.push_back({assessor.id, Role::taster});
  }
  sealed.attributes = builtin_attributes();
  if (size.finish_only) std::erase_if(sealed.attributes, [](const auto& a) { return a.scale != Scale::seconds; });
  for (std::size_t i = 0; i < sealed.attributes.size(); ++i)
    plan.attributes.push_back({sealed.attributes[i].id, i < 3, sealed.attributes[i].margin, Expectation::none});
  return sealed;
}

/// Scores of a person: a leaf, a pot and a hand that are never quite alike. `unlike` lots answer in opposite
/// directions.
void score(Sheet& sheet, const std::vector<Attribute>& attributes, Side b, double lot_effect, std::mt19937_64& random) {
  std::normal_distribution<double> luck(0, 1.6);
  for (const auto& attribute : attributes)
    for (const auto& field : mark_fields(attribute))
      for (const Side side : {Side::left, Side::right}) {
        const double value = 10 + luck(random) + (side == b ? lot_effect : 0);
        if (attribute.scale == Scale::seconds)
          sheet.cup(side).marks.insert_or_assign(field, FinishTime::from_seconds(static_cast<int>(3 * value)));
        else
          sheet.cup(side).marks.insert_or_assign(field,
                                                 *Score::from_halves(std::clamp(static_cast<int>(value + 0.5), 0, 20)));
      }
}

Unmasked trial(bool unlike, const Size& size = {}) {
  FixedEntropy ids(3);
  auto result = std::make_shared<Trial>();
  const auto sealed = sealed_plan(ids, size);
  auto deal = design::deal(sealed.plan, {}, {}, ids);
  if (!deal) throw std::runtime_error(deal.error().field);
  result->draft = sealed.plan;
  result->sealed = std::make_shared<const SealedPlan>(sealed);
  result->servings = deal->servings;
  result->key = std::make_shared<const Key>(deal->key);
  std::mt19937_64 random(11);
  for (const auto& serving : result->servings) {
    Sheet sheet;
    sheet.serving = serving.id;
    sheet.locked = Moment{1, 0, 0};
    const auto pair = resolve_pair(*result, serving.pair);
    std::size_t lot = 0;
    while (sealed.plan.lots[lot] != pair->lot) ++lot;
    score(sheet, sealed.attributes, serving.left == pair->code_b ? Side::left : Side::right,
          unlike ? (lot % 2 ? 5.0 : -5.0) : 1.0, random);
    result->sheets[serving.id] = std::make_shared<const Sheet>(sheet);
  }
  result->unmasked = UnmaskRecord{};
  return open_unmasked(result).value();
}

void findings(benchmark::State& state) {
  const auto unmasked = trial(state.range(0) != 0);
  for (auto _ : state) {
    auto found = evidence::find(unmasked);
    benchmark::DoNotOptimize(found);
  }
}
BENCHMARK(findings)->ArgName("unlike_lots")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void findings_of_finish_length(benchmark::State& state) {
  const auto unmasked = trial(false, {static_cast<int>(state.range(0)) / 4, 4, 6, true});
  for (auto _ : state) {
    auto found = evidence::find(unmasked);
    benchmark::DoNotOptimize(found);
  }
}
/// As when a trial is looked at again.
void findings_known(benchmark::State& state) {
  const auto unmasked = trial(false, {static_cast<int>(state.range(0)) / 4, 4, 6, true});
  evidence::Memo memo;
  (void)evidence::find(unmasked, memo);
  for (auto _ : state) {
    auto found = evidence::find(unmasked, memo);
    benchmark::DoNotOptimize(found);
  }
}
BENCHMARK(findings_known)->ArgName("brew_pairs")->Arg(36)->Arg(40)->Unit(benchmark::kMillisecond);

BENCHMARK(findings_of_finish_length)
    ->ArgName("brew_pairs")
    ->Arg(32)
    ->Arg(36)
    ->Arg(40)
    ->Arg(44)
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace likeleaf
