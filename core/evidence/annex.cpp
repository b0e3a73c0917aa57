// What stands beside a verdict and decides nothing: annex checks, lean to the first cup, estimates of each part.
#include <algorithm>
#include <cmath>

#include "core/evidence/analysis.h"
#include "core/stats/binomial.h"
#include "core/stats/describe.h"
#include "core/stats/distributions.h"
#include "core/stats/equivalence.h"
#include "core/stats/hodges_lehmann.h"
#include "core/stats/lean.h"
#include "core/stats/sign_flip.h"
#include "core/stats/signed_rank.h"

namespace likeleaf::evidence {
namespace {

constexpr double annex_alpha = 0.05;
constexpr std::size_t most_walsh = 4000;

Result<void> other_engine(const Analysis& analysis, std::uint64_t seed, const Work& work, AnnexChecks& checks) {
  const Engine other = analysis.engine == Engine::exact ? Engine::t : Engine::exact;
  const auto drawn = draw(analysis, other, annex_alpha, seed, work);
  if (!drawn) return tl::unexpected(drawn.error());
  if (*drawn) checks.other_engine_interval = (*drawn)->interval;
  if (other == Engine::t) {
    if (analysis.fit.state != stats::TState::fitted) return {};
    checks.other_engine_p = analysis.fit.p;
    if (const auto held = stats::t_equivalence(analysis.fit, analysis.margin.value()))
      checks.other_engine_held_p = held->p;
    return {};
  }
  const auto flip = work.memo.sign_flip(analysis.pairs.values, seed, work.stop);
  if (!flip) return tl::unexpected(flip.error());
  checks.other_engine_p = flip->two_sided.p;
  const auto held = work.memo.flip_equivalence(analysis.pairs.values, analysis.margin, seed, work.stop);
  if (!held) return tl::unexpected(held.error());
  checks.other_engine_held_p = held->p;
  return {};
}

Result<void> rank_checks(const Analysis& analysis, std::uint64_t seed, AnnexChecks& checks) {
  const auto& values = analysis.pairs.values;
  for (const auto& [zeros, p] : {std::pair{stats::Zeros::pratt, &checks.signed_rank_p},
                                 std::pair{stats::Zeros::dropped, &checks.signed_rank_dropped_p}}) {
    const auto test = stats::signed_rank(values.d, zeros, seed);
    if (!test) return tl::unexpected(test.error());
    if (*test) *p = (*test)->two_sided.p;
  }
  if (values.size() > most_walsh) return {};
  const auto middle = stats::hodges_lehmann(values.d, values.d_den, annex_alpha);
  if (!middle) return tl::unexpected(middle.error());
  checks.hodges_lehmann = middle->estimate;
  if (middle->interval)
    checks.hodges_lehmann_interval =
        Interval{middle->interval->lower, middle->interval->upper, middle->interval->achieved};
  return {};
}

Result<void> sign_checks(const Analysis& analysis, AnnexChecks& checks) {
  for (const std::int64_t d : analysis.pairs.values.d)
    ++(d > 0 ? checks.positive : d < 0 ? checks.negative : checks.zero);
  const int signs = checks.positive + checks.negative;
  if (signs == 0) return {};
  const auto p = stats::sign_test(checks.positive, checks.negative);
  if (!p) return tl::unexpected(p.error());
  checks.sign_test_p = *p;
  const auto share = stats::clopper_pearson(checks.positive, signs, annex_alpha);
  if (!share) return tl::unexpected(share.error());
  checks.share_positive = Interval{share->lower, share->upper, 1 - annex_alpha};
  return {};
}

/// 95 % by t on a part's own values; nothing below three values or without spread.
std::optional<Interval> own_interval(const std::vector<double>& values) {
  if (values.size() < 3) return std::nullopt;
  const auto d = stats::describe(values);
  if (!d || !d->sd || *d->sd <= 0) return std::nullopt;
  const auto n = static_cast<double>(values.size());
  const double reach = stats::student_t_upper_quantile(annex_alpha / 2, n - 1) * *d->sd / std::sqrt(n);
  return Interval{d->mean - reach, d->mean + reach, 1 - annex_alpha};
}

}  // namespace

Result<AnnexChecks> annex_checks(const Analysis& analysis, std::uint64_t seed, const Work& work) {
  AnnexChecks checks;
  if (analysis.empty()) return checks;
  if (const auto done = other_engine(analysis, seed, work, checks); !done) return tl::unexpected(done.error());
  if (const auto done = rank_checks(analysis, seed, checks); !done) return tl::unexpected(done.error());
  if (const auto done = sign_checks(analysis, checks); !done) return tl::unexpected(done.error());
  return checks;
}

Result<void> fill_lean(const Analysis& analysis, AttributeFinding& finding) {
  if (analysis.empty()) return {};
  const auto lean = stats::lean_to_first_cup(analysis.tasted, analysis.grid, annex_alpha);
  if (!lean) return tl::unexpected(lean.error());
  if (lean->state != stats::LeanState::no_brew_pair) finding.lean = lean->estimate;
  if (lean->state == stats::LeanState::fitted)
    finding.lean_interval = Interval{lean->lower, lean->upper, 1 - annex_alpha};
  double sum[2] = {0, 0}, weight[2] = {0, 0};
  for (const auto& pair : analysis.tasted) {
    sum[pair.b_first] += pair.halves * static_cast<double>(pair.d);
    weight[pair.b_first] += pair.halves;
  }
  const auto mean = [&](int order) { return sum[order] / weight[order] / static_cast<double>(analysis.grid); };
  if (weight[0] > 0) finding.d_a_first = mean(0);
  if (weight[1] > 0) finding.d_b_first = mean(1);
  finding.order_gap = finding.d_a_first && finding.d_b_first &&
                      std::abs(*finding.d_a_first - *finding.d_b_first) > analysis.margin.value();
  return {};
}

Result<void> fill_parts(const Analysis& analysis, const Differences& differences, AttributeFinding& finding) {
  const auto& values = analysis.pairs.values;
  // A serving and its repeat are one tasted pair: half weights add up.
  const auto count = [&](auto belongs) {
    int halves = 0;
    for (const auto& pair : analysis.tasted)
      if (belongs(pair)) halves += pair.halves;
    return (halves + 1) / 2;
  };
  for (const auto& part : analysis.lots) {
    PartEstimate line;
    line.id = line.name = differences.lots[static_cast<std::size_t>(part.index)];
    std::vector<double> own;
    for (std::size_t g = 0; g < values.size(); ++g)
      if (analysis.pairs.lot[static_cast<std::size_t>(values.lot[g])] == part.index) own.push_back(values.value(g));
    line.brew_pairs = static_cast<int>(own.size());
    line.tasted_pairs = count([&](const stats::TastedPair& pair) {
      return differences.brew_pair_lot[static_cast<std::size_t>(pair.brew_pair)] == part.index;
    });
    line.mean = part.mean;
    line.shrunken = part.shrunken;
    line.interval = own_interval(own);
    finding.by_lot.push_back(std::move(line));
  }
  for (const auto& part : analysis.assessors) {
    PartEstimate line;
    line.id = line.name = differences.assessors[static_cast<std::size_t>(part.index)];
    std::vector<double> own;
    std::vector<std::int32_t> brews;
    double sum = 0, weight = 0;
    for (const auto& pair : analysis.tasted) {
      if (pair.assessor != part.index) continue;
      const double d = static_cast<double>(pair.d) / static_cast<double>(analysis.grid);
      own.push_back(d);
      sum += pair.halves * d;
      weight += pair.halves;
      if (brews.empty() || brews.back() != pair.brew_pair) brews.push_back(pair.brew_pair);
    }
    line.brew_pairs = static_cast<int>(brews.size());
    line.tasted_pairs = count([&](const stats::TastedPair& pair) { return pair.assessor == part.index; });
    line.mean = weight > 0 ? sum / weight : 0;
    line.shrunken = part.shrunken;
    line.interval = own_interval(own);
    finding.by_assessor.push_back(std::move(line));
  }
  return {};
}

}  // namespace likeleaf::evidence
