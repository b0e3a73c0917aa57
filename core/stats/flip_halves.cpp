#include "core/stats/flip_halves.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/stats/wide.h"

namespace likeleaf::stats {

Halves::Halves(const Reduced& r) {
  std::vector<std::size_t> place(r.w.size());
  std::iota(place.begin(), place.end(), std::size_t{0});
  std::ranges::sort(place, {}, [&](std::size_t g) { return r.small[g]; });
  for (std::size_t i = 0; i < place.size(); ++i) {
    half_[i % 2].push_back({r.w[place[i]], r.small[place[i]]});
    top_ = std::max(top_, r.small[place[i]]);
  }
  weight_ = r.weight;
  const Wide most = static_cast<Wide>(r.weight) * std::max<std::int64_t>(top_, 1);
  while (scale_ < 40 && (most << (scale_ + 1)) <= (Wide{1} << 61)) ++scale_;
}

std::optional<Cell<std::uint64_t>> Halves::lower_end(std::uint64_t need, const std::stop_token& stop,
                                                     const Progress& progress, double from, double to) {
  constexpr std::uint64_t few = 1u << 18;
  std::int64_t low = -1, high = top_ << scale_;
  std::uint64_t below = 0, up_to = (std::uint64_t{1} << (half_[0].size() + half_[1].size())) - 1;
  const double steps = std::log2(static_cast<double>(high) + 2);
  for (int i = 0; high - low > 1 && up_to - below > few; ++i) {
    if (stop.stop_requested()) return std::nullopt;
    if (progress) progress(from + (to - from) * std::min(1.0, i / steps));
    const std::int64_t middle = low + (high - low) / 2;
    make(middle);
    const std::uint64_t n = pairs_up_to(0) - 1;  // less the empty subset
    if (n >= need) {
      high = middle;
      up_to = n;
    } else {
      low = middle;
      below = n;
    }
  }
  return listed(low, high, need - below);
}

void Halves::make(std::int64_t delta) {
  std::vector<Sum> with, next;
  for (const int h : {0, 1}) {
    std::vector<Sum>& sums = sums_[h];
    sums.assign(1, {0, 0});
    for (std::size_t i = 0; i < half_[h].size(); ++i) {
      const std::int64_t add = half_[h][i].w * ((half_[h][i].small << scale_) - delta);
      with.resize(sums.size());
      for (std::size_t k = 0; k < sums.size(); ++k)
        with[k] = {sums[k].value + add, sums[k].members | (std::uint32_t{1} << i)};
      next.resize(2 * sums.size());
      std::ranges::merge(sums, with, next.begin(), {}, &Sum::value, &Sum::value);
      sums.swap(next);
    }
  }
}

std::uint64_t Halves::pairs_up_to(std::int64_t limit) const {
  std::uint64_t count = 0;
  std::size_t j = sums_[1].size();
  for (const Sum& x : sums_[0]) {
    while (j > 0 && sums_[1][j - 1].value > limit - x.value) --j;
    if (j == 0) break;
    count += j;
  }
  return count;
}

Cell<std::uint64_t> Halves::members(std::uint32_t first, std::uint32_t second) const {
  Cell<std::uint64_t> out{0, 0, 1};
  for (const int h : {0, 1})
    for (std::size_t i = 0; i < half_[h].size(); ++i)
      if (((h == 0 ? first : second) >> i) & 1u) {
        out.a += half_[h][i].w;
        out.b += half_[h][i].w * half_[h][i].small;
      }
  return out;
}

/// Lists the subsets with low < mean ≤ high and takes the one at `rank`. Their Σ w(small − high) lies in
/// (−weight·(high − low), 0]: a superset, from which the means at or below low are sorted out. With ties beyond
/// count (high − low is 1 then, far below 1e-9) any of them will do.
Cell<std::uint64_t> Halves::listed(std::int64_t low, std::int64_t high, std::uint64_t rank) {
  constexpr std::size_t most = std::size_t{1} << 22;
  make(high);
  const std::int64_t depth = weight_ * (high - low);
  std::vector<Cell<std::uint64_t>> found;
  std::size_t first = sums_[1].size(), last = sums_[1].size();
  for (const Sum& x : sums_[0]) {
    while (last > 0 && sums_[1][last - 1].value > -x.value) --last;
    while (first > 0 && sums_[1][first - 1].value > -x.value - depth) --first;
    for (std::size_t j = first; j < last && found.size() < most; ++j) {
      const Cell<std::uint64_t> c = members(x.members, sums_[1][j].members);
      if (c.a > 0 && (static_cast<Wide>(c.b) << scale_) > static_cast<Wide>(c.a) * low) found.push_back(c);
    }
  }
  return select(std::span(found), std::min<std::uint64_t>(rank, found.size()), false);
}

}  // namespace likeleaf::stats
