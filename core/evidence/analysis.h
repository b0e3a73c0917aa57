#pragma once
// The numbers of one attribute before any word is chosen. Private to core/evidence.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/evidence/differences.h"
#include "core/evidence/work.h"
#include "core/findings/attribute_finding.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/rational.h"
#include "core/stats/shrunken.h"
#include "core/stats/t_engine.h"

namespace likeleaf::evidence {

struct AnalysisSettings {
  double level = 0.05;    ///< alpha/k: what the exact engine must be able to reach
  bool t_allowed = true;  ///< the house does not refuse t
  bool ask_parts = true;  ///< unlike lots and assessors are asked (deciding attributes)
  std::uint64_t seed = 1;
  std::optional<Engine> only_engine;
  bool tested = true;  ///< false: engine and estimates only, no p
};

/// A share of the mean difference that belongs to a lot or an assessor, by its index in Differences.
struct Part {
  int index = 0;
  double mean = 0, shrunken = 0;
};

struct Analysis {
  std::int64_t grid = 2;
  std::vector<stats::TastedPair> tasted;  ///< in an order of its own, so that the order of sheets changes nothing
  stats::BrewPairs pairs;
  stats::Rational margin;  ///< points or ln ratio
  Engine engine = Engine::describe;
  OpenReason blocked = OpenReason::none;  ///< why no word but Open can be given
  double estimate = 0;
  stats::TFit fit;
  std::optional<double> p_moved, p_held;
  std::string method;
  double out_of_range_share = 0;
  std::vector<Part> lots, assessors;
  Attribution unlike_lots, unlike_assessors;  ///< names are id texts
  [[nodiscard]] bool empty() const { return tasted.empty(); }
  [[nodiscard]] std::size_t brew_pairs() const { return empty() ? 0 : pairs.values.size(); }
};

/// `grid` units to a point (1 for direct answers). margin on the grid, above 0.
Result<Analysis> analyse(const Differences& differences, std::int64_t grid, std::int64_t margin,
                         const AnalysisSettings& settings, const Work& work);

/// An interval as drawn, with the two questions that words hang on answered on exact ends where there are any.
struct Drawn {
  Interval interval;
  bool beyond_margin = false;  ///< the whole of it lies beyond +margin or beyond −margin
};
/// At confidence 1 − alpha by the engine; nothing for describe, or when this level cannot be drawn.
Result<std::optional<Drawn>> draw(const Analysis& analysis, Engine engine, double alpha, std::uint64_t seed,
                                  const Work& work);

/// The annex: the other engine, signed ranks, Hodges–Lehmann, sign test. Decides nothing.
Result<AnnexChecks> annex_checks(const Analysis& analysis, std::uint64_t seed, const Work& work);
/// Lean to the first cup, and D for each order.
Result<void> fill_lean(const Analysis& analysis, AttributeFinding& finding);
/// by_lot and by_assessor, named by id text.
Result<void> fill_parts(const Analysis& analysis, const Differences& differences, AttributeFinding& finding);

}  // namespace likeleaf::evidence
