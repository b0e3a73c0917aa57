#include "core/stats/unlike_assessors.h"

#include <algorithm>
#include <numeric>
#include <vector>

#include "core/stats/leftovers.h"
#include "core/stats/random.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

/// Σ S²·L/n over assessors.
Wide statistic(std::span<const std::int64_t> sums, std::span<const std::int64_t> factor) {
  Wide total = 0;
  for (std::size_t a = 0; a < sums.size(); ++a) total += static_cast<Wide>(sums[a]) * sums[a] * factor[a];
  return total;
}

struct AssessorListing {
  const Leftovers& left;
  Wide seen;
  const std::stop_token& stop;
  std::vector<std::int64_t> sums;
  std::uint64_t ways = 0, extreme = 0;

  bool place(std::size_t pair) {  // false when stopped
    if (pair == left.pairs.size()) {
      extreme += statistic(sums, left.factor) >= seen;
      return ++ways % 4096 != 0 || !stop.stop_requested();
    }
    const auto& cells = left.pairs[pair];
    std::vector<std::size_t> who(cells.size());
    std::iota(who.begin(), who.end(), std::size_t{0});
    do {
      for (std::size_t i = 0; i < who.size(); ++i) sums[cells[i].assessor] += cells[who[i]].value;
      const bool go_on = place(pair + 1);
      for (std::size_t i = 0; i < who.size(); ++i) sums[cells[i].assessor] -= cells[who[i]].value;
      if (!go_on) return false;
    } while (std::ranges::next_permutation(who).found);
    return true;
  }
};

}  // namespace

Result<UnlikeAssessors> unlike_assessors(std::span<const TastedPair> tasted, std::int64_t grid, std::uint64_t seed,
                                         const std::stop_token& stop, const Progress& progress) {
  const auto made = leftovers(tasted, grid);
  if (!made) return tl::unexpected<Error>(made.error());
  const Leftovers& left = *made;
  UnlikeAssessors out;
  const bool any_two = std::ranges::any_of(left.pairs, [](const auto& cells) { return cells.size() > 1; });
  if (left.assessors.size() < 2 || !any_two) return out;
  out.state = UnlikeState::asked;
  std::vector<std::int64_t> sums(left.assessors.size(), 0);
  for (const auto& cells : left.pairs)
    for (const auto& c : cells) sums[c.assessor] += c.value;
  const Wide seen = statistic(sums, left.factor);

  std::uint64_t ways = 1;
  for (const auto& cells : left.pairs)
    for (std::uint64_t k = 2; k <= cells.size() && ways <= most_ways; ++k) ways *= k;
  if (ways <= most_ways) {
    AssessorListing listing{left, seen, stop, std::vector<std::int64_t>(sums.size(), 0)};
    if (!listing.place(0)) return fail(ErrorKind::cancelled);
    out.exact = fraction(listing.extreme, listing.ways);
    out.p = out.exact->value();
  } else {
    std::vector<std::vector<std::int64_t>> values;
    for (const auto& cells : left.pairs) {
      auto& v = values.emplace_back();
      for (const auto& c : cells) v.push_back(c.value);
    }
    Draws draws(seed, Stream::unlike_assessors);
    std::uint64_t extreme = 0;
    for (std::uint64_t i = 0; i < assessor_draws; ++i) {
      if (i % 1024 == 0) {
        if (stop.stop_requested()) return fail(ErrorKind::cancelled);
        if (progress) progress(static_cast<double>(i) / static_cast<double>(assessor_draws));
      }
      std::ranges::fill(sums, 0);
      for (std::size_t g = 0; g < values.size(); ++g) {
        draws.shuffle(std::span(values[g]));
        for (std::size_t k = 0; k < values[g].size(); ++k) sums[left.pairs[g][k].assessor] += values[g][k];
      }
      extreme += statistic(sums, left.factor) >= seen;
    }
    out.draws = assessor_draws;
    out.p = static_cast<double>(extreme + 1) / static_cast<double>(assessor_draws + 1);
  }
  if (progress) progress(1.0);
  return out;
}

}  // namespace likeleaf::stats
