#include "core/stats/sign_flip.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>
#include <vector>

#include "core/stats/random.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

constexpr std::int64_t most_cells = std::int64_t{1} << 22;  // 32 MiB a table
constexpr std::size_t most_counted = 62;                    // 2^62 patterns and their double fit 64 bits
constexpr std::size_t most_halved = 40;
constexpr Wide most_sum = Wide{1} << 60;

tl::unexpected<Error> cancelled() {
  return fail(ErrorKind::cancelled);
}

/// Positive values without a common factor; the observed sum is total − 2·under, `under` being the sum of those that
/// are negative (or positive, when these are fewer). All questions become "how many subsets have a sum of at most …".
struct Signs {
  std::vector<std::int64_t> size;  // ascending
  std::int64_t under = 0;
  bool positive = true, balanced = false;
};

Signs signs_of(std::span<const std::int64_t> values) {
  Signs out;
  std::int64_t common = 0, minus = 0, plus = 0;
  for (const std::int64_t v : values) common = std::gcd(common, v);
  for (const std::int64_t v : values) {
    if (v == 0) continue;  // both signs of a zero give the same sum: it changes no share
    out.size.push_back(std::abs(v) / common);
    (v < 0 ? minus : plus) += std::abs(v) / common;
  }
  std::ranges::sort(out.size);
  out.under = std::min(minus, plus);
  out.positive = plus >= minus;
  out.balanced = plus == minus;
  return out;
}

/// Subsets with a sum ≤ under, and ≤ under − 1; as counts or as shares of all.
template <class Count>
struct Tails {
  Count up_to = 0, below = 0;
};

template <class Count>
std::optional<Tails<Count>> by_table(const Signs& s, const std::stop_token& stop, const Progress& progress) {
  constexpr bool shares = std::is_floating_point_v<Count>;
  std::vector<Count> table(static_cast<std::size_t>(s.under) + 1, Count{0});
  table[0] = 1;
  std::int64_t reached = 0;
  for (std::size_t i = 0; i < s.size.size(); ++i) {
    if (stop.stop_requested()) return std::nullopt;
    if (progress && i % 8 == 0) progress(static_cast<double>(i) / static_cast<double>(s.size.size()));
    const std::int64_t v = s.size[i];
    reached = std::min(s.under, reached + v);
    Count* const t = table.data();
    for (std::int64_t k = reached; k >= v; --k) t[k] = t[k] + t[k - v];
    // Halved each time: a share of all patterns so far never leaves the range of a double.
    if constexpr (shares)
      for (std::int64_t k = 0; k <= reached; ++k) t[k] *= 0.5;
  }
  Tails<Count> out;
  for (std::int64_t k = 0; k < s.under; ++k) out.below += table[static_cast<std::size_t>(k)];
  out.up_to = out.below + table[static_cast<std::size_t>(s.under)];
  return out;
}

/// All subset sums, ascending, by merging "without" and "with" one value at a time: no sorting.
std::vector<std::int64_t> sorted_sums(std::span<const std::int64_t> values) {
  std::vector<std::int64_t> sums{0}, with, next;
  for (const std::int64_t v : values) {
    with.resize(sums.size());
    for (std::size_t i = 0; i < sums.size(); ++i) with[i] = sums[i] + v;
    next.resize(2 * sums.size());
    std::ranges::merge(sums, with, next.begin());
    sums.swap(next);
  }
  return sums;
}

Tails<std::uint64_t> by_halves(const Signs& s) {
  // Every second value, so that both halves hold large and small ones.
  std::array<std::vector<std::int64_t>, 2> half;
  for (std::size_t i = 0; i < s.size.size(); ++i) half[i % 2].push_back(s.size[i]);
  const auto a = sorted_sums(half[0]), b = sorted_sums(half[1]);
  const auto pairs_up_to = [&](std::int64_t limit) {
    std::uint64_t count = 0;
    std::size_t j = b.size();
    for (const std::int64_t x : a) {
      while (j > 0 && b[j - 1] > limit - x) --j;
      if (j == 0) break;
      count += j;
    }
    return count;
  };
  return {pairs_up_to(s.under), pairs_up_to(s.under - 1)};
}

Share counted(std::uint64_t num, std::uint64_t den) {
  const Fraction f = fraction(num, den);
  return {f.value(), f};
}

void fill(SignFlip& out, const Signs& s, const Tails<std::uint64_t>& tails) {
  const std::uint64_t all = std::uint64_t{1} << s.size.size();
  const Share far = counted(tails.up_to, all), near = counted(all - tails.below, all);
  out.method = FlipMethod::exact_counts;
  out.two_sided = s.balanced ? counted(1, 1) : counted(2 * tails.up_to, all);
  out.greater = s.positive ? far : near;
  out.less = s.positive ? near : far;
}

void fill(SignFlip& out, const Signs& s, const Tails<double>& tails) {
  // `below` is under one half, so 1 − below loses no digits.
  const Share far{std::min(1.0, tails.up_to), {}}, near{1.0 - tails.below, {}};
  out.method = FlipMethod::exact_shares;
  out.two_sided = {s.balanced ? 1.0 : std::min(1.0, 2 * tails.up_to), {}};
  out.greater = s.positive ? far : near;
  out.less = s.positive ? near : far;
}

/// Adds up chosen members of up to many values, eight at a time from tables.
class Picker {
 public:
  explicit Picker(std::span<const std::int64_t> values) : blocks_((values.size() + 7) / 8) {
    for (std::size_t b = 0; b < blocks_.size(); ++b)
      for (std::size_t mask = 0; mask < 256; ++mask) {
        std::int64_t sum = 0;
        for (std::size_t i = 0; i < 8 && 8 * b + i < values.size(); ++i)
          if ((mask >> i) & 1u) sum += values[8 * b + i];
        blocks_[b][mask] = sum;
      }
  }
  [[nodiscard]] std::int64_t sum(std::span<const std::uint64_t> words) const {
    std::int64_t total = 0;
    for (std::size_t b = 0; b < blocks_.size(); ++b) total += blocks_[b][(words[b / 8] >> (8 * (b % 8))) & 255u];
    return total;
  }

 private:
  std::vector<std::array<std::int64_t, 256>> blocks_;
};

/// Calls use(words) for each random subset ("the values whose sign is turned"); false when stopped.
template <class Use>
bool random_subsets(std::size_t n, std::uint64_t seed, const std::stop_token& stop, const Progress& progress, Use use) {
  Draws draws(seed, Stream::sign_flip);
  std::vector<std::uint64_t> words((n + 63) / 64);
  for (std::uint64_t i = 0; i < flip_draws; ++i) {
    if (i % 8192 == 0) {
      if (stop.stop_requested()) return false;
      if (progress) progress(static_cast<double>(i) / static_cast<double>(flip_draws));
    }
    for (std::uint64_t& w : words) w = draws.bits();
    if (n % 64 != 0) words.back() &= (std::uint64_t{1} << (n % 64)) - 1;
    use(std::span<const std::uint64_t>(words));
  }
  return true;
}

/// Under draws the values keep a place of their own, so that the test and its interval see the same patterns.
Result<SignFlip> by_draws(std::span<const std::int64_t> values, std::uint64_t seed, const std::stop_token& stop,
                          const Progress& progress) {
  std::int64_t seen = 0;
  for (const std::int64_t v : values) seen += v;
  const Picker picker(values);
  std::uint64_t two = 0, greater = 0, less = 0;
  const bool done = random_subsets(values.size(), seed, stop, progress, [&](std::span<const std::uint64_t> words) {
    const std::int64_t sum = seen - 2 * picker.sum(words);
    two += std::abs(sum) >= std::abs(seen);
    greater += sum >= seen;
    less += sum <= seen;
  });
  if (!done) return cancelled();
  const auto share = [](std::uint64_t b) {
    return Share{static_cast<double>(b + 1) / static_cast<double>(flip_draws + 1), {}};
  };
  SignFlip out;
  out.groups = values.size();
  out.method = FlipMethod::draws;
  out.draws = flip_draws;
  out.two_sided = share(two);
  out.greater = share(greater);
  out.less = share(less);
  return out;
}

/// `values` in an order that does not depend on the order of the rows.
Result<SignFlip> flip(std::span<const std::int64_t> values, std::uint64_t seed, const std::stop_token& stop,
                      const Progress& progress) {
  const Signs s = signs_of(values);
  const std::size_t n = s.size.size();
  SignFlip out;
  out.groups = values.size();
  const std::int64_t cells = s.under + 1;
  const double table_work = static_cast<double>(cells) * static_cast<double>(n);
  const double halves_work = 6 * std::ldexp(1.0, static_cast<int>((n + 1) / 2));
  if (stop.stop_requested()) return cancelled();
  if (n <= most_halved && (cells > most_cells || halves_work < table_work)) {
    fill(out, s, by_halves(s));
  } else if (cells <= most_cells && n <= most_counted) {
    const auto tails = by_table<std::uint64_t>(s, stop, progress);
    if (!tails) return cancelled();
    fill(out, s, *tails);
  } else if (cells <= most_cells) {
    const auto tails = by_table<double>(s, stop, progress);
    if (!tails) return cancelled();
    fill(out, s, *tails);
  } else {
    return by_draws(values, seed, stop, progress);
  }
  if (progress) progress(1.0);
  return out;
}

/// Weights and values by value, then weight.
Weighted in_order(const Weighted& values) {
  std::vector<std::size_t> place(values.size());
  std::iota(place.begin(), place.end(), std::size_t{0});
  std::ranges::sort(place, {}, [&](std::size_t g) { return std::pair(values.d[g], values.w[g]); });
  Weighted out = values;
  for (std::size_t i = 0; i < place.size(); ++i) {
    out.d[i] = values.d[place[i]];
    out.w[i] = values.w[place[i]];
  }
  return out;
}

// --- the interval: ordered weighted means of subsets --------------------------------------------------------------

/// `count` subsets with weight `a` and weighted sum `b`; their mean is b/a.
template <class Count>
struct Cell {
  std::int64_t a = 0, b = 0;
  Count count = 0;
};

template <class Count>
int order(const Cell<Count>& x, const Cell<Count>& y) {
  const Wide left = static_cast<Wide>(x.b) * y.a, right = static_cast<Wide>(y.b) * x.a;
  return left < right ? -1 : left > right ? 1 : 0;
}

/// The cell with the smallest mean such that at least `need` subsets have a mean up to it (from above for `upper`).
/// Quickselect with counts; `cells` is rearranged. need must not exceed the sum of counts by more than rounding.
template <class Count>
Cell<Count> select(std::span<Cell<Count>> cells, Count need, bool upper) {
  while (true) {
    // Median of three: the cells come in a regular order.
    const Cell<Count>*x = &cells.front(), *y = &cells[cells.size() / 2], *z = &cells.back();
    if (order(*x, *y) > 0) std::swap(x, y);
    if (order(*y, *z) > 0) std::swap(y, z);
    if (order(*x, *y) > 0) std::swap(x, y);
    const Cell<Count> pivot = *y;
    const auto rank = [&](const Cell<Count>& c) { return upper ? -order(c, pivot) : order(c, pivot); };
    const auto middle = std::partition(cells.begin(), cells.end(), [&](const auto& c) { return rank(c) < 0; });
    const auto rest = std::partition(middle, cells.end(), [&](const auto& c) { return rank(c) == 0; });
    Count before = 0, same = 0;
    for (auto c = cells.begin(); c != middle; ++c) before += c->count;
    for (auto c = middle; c != rest; ++c) same += c->count;
    if (before >= need && middle != cells.begin()) {
      cells = std::span(cells.begin(), middle);
    } else if (before + same >= need || rest == cells.end()) {
      return pivot;
    } else {
      need -= before + same;
      cells = std::span(rest, cells.end());
    }
  }
}

/// Values moved to begin at 0 and divided by their common factor: d = base + step·small.
struct Reduced {
  std::vector<std::int64_t> w, small;
  std::int64_t base = 0, step = 1, weight = 0, sum = 0;  // Σ w, Σ w·small
};

std::optional<Reduced> reduce(const Weighted& v) {
  Reduced out;
  out.base = *std::ranges::min_element(v.d);
  std::int64_t common = 0;
  for (const std::int64_t d : v.d) {
    const Wide off = static_cast<Wide>(d) - out.base;
    if (off > most_sum) return std::nullopt;
    common = std::gcd(common, static_cast<std::int64_t>(off));
  }
  out.step = std::max<std::int64_t>(common, 1);
  std::int64_t shared = 0;
  for (const std::int64_t w : v.w) shared = std::gcd(shared, w);
  Wide sum = 0;
  for (std::size_t g = 0; g < v.size(); ++g) {
    out.w.push_back(v.w[g] / shared);
    out.small.push_back((v.d[g] - out.base) / out.step);
    out.weight += out.w.back();
    sum += static_cast<Wide>(out.w.back()) * out.small.back();
    if (sum > most_sum) return std::nullopt;
  }
  out.sum = static_cast<std::int64_t>(sum);
  return out;
}

template <class Count>
std::optional<std::vector<Cell<Count>>> cells_by_table(const Reduced& r, const std::stop_token& stop,
                                                       const Progress& progress) {
  const std::int64_t wide = r.sum + 1;
  std::vector<Count> table(static_cast<std::size_t>((r.weight + 1) * wide), Count{0});
  table[0] = 1;
  std::int64_t weight = 0, sum = 0;
  for (std::size_t g = 0; g < r.w.size(); ++g) {
    if (stop.stop_requested()) return std::nullopt;
    if (progress) progress(static_cast<double>(g) / static_cast<double>(r.w.size()));
    const std::int64_t add = r.w[g] * r.small[g];
    for (std::int64_t a = weight; a >= 0; --a) {
      const Count* const from = table.data() + a * wide;
      Count* const to = table.data() + (a + r.w[g]) * wide + add;
      for (std::int64_t b = 0; b <= sum; ++b) to[b] += from[b];
    }
    weight += r.w[g];
    sum += add;
    if constexpr (std::is_floating_point_v<Count>)
      for (Count& c : table) c *= 0.5;
  }
  std::vector<Cell<Count>> cells;
  for (std::int64_t a = 1; a <= r.weight; ++a)
    for (std::int64_t b = 0; b <= r.sum; ++b)
      if (const Count c = table[static_cast<std::size_t>(a * wide + b)]; c > 0) cells.push_back({a, b, c});
  return cells;
}

std::vector<Cell<std::uint64_t>> cells_by_listing(const Reduced& r) {
  std::vector<Cell<std::uint64_t>> cells{{0, 0, 1}};
  cells.reserve(std::size_t{1} << r.w.size());
  for (std::size_t g = 0; g < r.w.size(); ++g)
    for (std::size_t i = 0, n = cells.size(); i < n; ++i)
      cells.push_back({cells[i].a + r.w[g], cells[i].b + r.w[g] * r.small[g], 1});
  cells.erase(cells.begin());  // the empty subset has no mean
  return cells;
}

/// Sorted halves: the mean of a subset is ≤ δ when Σ w(small − δ) ≤ 0, which two sorted lists of half sums count fast.
/// δ is a whole number of 2^-scale, found by bisection until few enough means are left to be listed.
class Halves {
 public:
  explicit Halves(const Reduced& r) {
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

  /// The subset (weight, weighted sum) at rank `need` from below; nothing when stopped.
  std::optional<Cell<std::uint64_t>> lower_end(std::uint64_t need, const std::stop_token& stop,
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

 private:
  struct Item {
    std::int64_t w, small;
  };
  struct Sum {
    std::int64_t value;
    std::uint32_t members;
  };
  std::array<std::vector<Item>, 2> half_;
  std::array<std::vector<Sum>, 2> sums_;
  std::int64_t top_ = 0, weight_ = 0;
  int scale_ = 0;

  void make(std::int64_t delta) {
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
  [[nodiscard]] std::uint64_t pairs_up_to(std::int64_t limit) const {
    std::uint64_t count = 0;
    std::size_t j = sums_[1].size();
    for (const Sum& x : sums_[0]) {
      while (j > 0 && sums_[1][j - 1].value > limit - x.value) --j;
      if (j == 0) break;
      count += j;
    }
    return count;
  }
  [[nodiscard]] Cell<std::uint64_t> members(std::uint32_t first, std::uint32_t second) const {
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
  Cell<std::uint64_t> listed(std::int64_t low, std::int64_t high, std::uint64_t rank) {
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
};

struct Ends {
  Rational lower, upper;
};

/// Both ends as fractions of the caller's unit. Where such a fraction leaves 64 bits (log grids under many weights) it
/// is rounded to the grid 1/d_den, which is far finer than 1e-9 then.
template <class Count>
Result<Ends> ends(const Weighted& v, const Reduced& r, const Cell<Count>& lower, const Cell<Count>& upper) {
  const auto one = [&](const Cell<Count>& c) -> Result<Rational> {
    auto mean = rational(c.b, c.a);
    if (mean) mean = multiply(*mean, Rational{r.step, 1});
    if (mean) mean = add(*mean, Rational{r.base, 1});
    if (mean) mean = multiply(*mean, Rational{1, v.d_den});
    if (mean) return mean;
    const Wide nearest = (static_cast<Wide>(c.b) * r.step + c.a / 2) / c.a + r.base;
    return rational(static_cast<std::int64_t>(nearest), v.d_den);
  };
  const auto low = one(lower), high = one(upper);
  if (!low) return tl::unexpected<Error>(low.error());
  if (!high) return tl::unexpected<Error>(high.error());
  return Ends{*low, *high};
}

}  // namespace

double smallest_flip_p(std::size_t groups) {
  return groups == 0 ? 1.0 : std::ldexp(2.0, -static_cast<int>(std::min<std::size_t>(groups, 2000)));
}

Result<SignFlip> sign_flip(std::span<const std::int64_t> values, std::uint64_t seed, const std::stop_token& stop,
                           const Progress& progress) {
  if (values.empty()) return fail(ErrorKind::missing, "values");
  Wide sum = 0;
  for (const std::int64_t v : values) {
    sum += wide_abs(v);
    if (sum > most_sum) return fail(ErrorKind::too_large, "values", {}, "a sum below 2^60");
  }
  std::vector<std::int64_t> sorted(values.begin(), values.end());
  std::ranges::sort(sorted);
  return flip(sorted, seed, stop, progress);
}

Result<SignFlip> sign_flip(const Weighted& values, std::uint64_t seed, const std::stop_token& stop,
                           const Progress& progress) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  const Weighted sorted = in_order(values);
  std::vector<std::int64_t> products;
  Wide sum = 0;
  for (std::size_t g = 0; g < sorted.size(); ++g) {
    const Wide product = static_cast<Wide>(sorted.w[g]) * sorted.d[g];
    sum += wide_abs(product);
    if (sum > most_sum) return fail(ErrorKind::too_large, "differences", {}, "a sum below 2^60");
    products.push_back(static_cast<std::int64_t>(product));
  }
  return flip(products, seed, stop, progress);
}

Result<std::optional<FlipInterval>> flip_interval(const Weighted& values, double alpha, std::uint64_t seed,
                                                  const std::stop_token& stop, const Progress& progress) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  if (!(alpha > 0 && alpha < 1)) return fail(ErrorKind::bad_value, "alpha", {}, "between 0 and 1");
  const std::size_t n = values.size();
  const auto reduced = reduce(values);
  if (!reduced) return fail(ErrorKind::too_large, "differences", {}, "a range below 2^60");
  const Reduced& r = *reduced;

  // For δ below the estimate a pattern is at least as extreme as the one seen when the values it turns have a mean of
  // at most δ (the empty set counts), or those it keeps do. So p(δ) = 2(1 + number of subset means ≤ δ)/2^G, and
  // p > alpha from the K-th smallest mean on, K = ⌊alpha/2 · 2^G⌋. The upper end likewise from above.
  FlipInterval out;
  out.alpha = alpha;
  Result<Ends> found = fail(ErrorKind::internal);
  const double cells = (static_cast<double>(r.weight) + 1) * (static_cast<double>(r.sum) + 1);
  const bool table = cells <= static_cast<double>(most_cells);
  if (n <= most_counted) {
    const auto need = static_cast<std::uint64_t>(std::ldexp(alpha / 2, static_cast<int>(n)));
    if (need == 0) return std::optional<FlipInterval>{};
    out.method = FlipMethod::exact_counts;
    const double table_work = cells * static_cast<double>(n) / 4;
    const bool list = n <= 20 && (!table || std::ldexp(10.0, static_cast<int>(n)) < table_work);
    if (list || table) {
      std::vector<Cell<std::uint64_t>> all;
      if (list) {
        all = cells_by_listing(r);
      } else {
        auto made = cells_by_table<std::uint64_t>(r, stop, progress);
        if (!made) return cancelled();
        all = std::move(*made);
      }
      if (stop.stop_requested()) return cancelled();
      const auto low = select(std::span(all), need, false), high = select(std::span(all), need, true);
      found = ends(values, r, low, high);
    } else if (n <= most_halved) {
      Reduced turned = r;  // the upper end is the lower end of the mirror image
      const std::int64_t top = *std::ranges::max_element(r.small);
      for (std::int64_t& d : turned.small) d = top - d;
      const auto low = Halves(r).lower_end(need, stop, progress, 0.0, 0.5);
      if (!low) return cancelled();
      auto high = Halves(turned).lower_end(need, stop, progress, 0.5, 1.0);
      if (!high) return cancelled();
      high->b = top * high->a - high->b;
      found = ends(values, r, *low, *high);
    }
  } else if (table) {
    out.method = FlipMethod::exact_shares;
    auto all = cells_by_table<double>(r, stop, progress);
    if (!all) return cancelled();
    const auto low = select(std::span(*all), alpha / 2, false), high = select(std::span(*all), alpha / 2, true);
    found = ends(values, r, low, high);
  }
  if (!found && found.error().kind == ErrorKind::internal) {
    out.method = FlipMethod::draws;
    // As above for the patterns drawn: p(δ) = (1 + number of means ≤ δ among both sets of each pattern)/(draws + 1).
    const Weighted sorted = in_order(values);
    std::vector<std::int64_t> products;
    for (std::size_t g = 0; g < n; ++g) products.push_back(sorted.w[g] * ((sorted.d[g] - r.base) / r.step));
    const Picker weight(sorted.w), sum(products);
    const std::int64_t all_weight = std::accumulate(sorted.w.begin(), sorted.w.end(), std::int64_t{0});
    const std::int64_t all_sum = std::accumulate(products.begin(), products.end(), std::int64_t{0});
    std::vector<Cell<std::uint64_t>> means;
    means.reserve(2 * flip_draws);
    std::uint64_t empty = 0;
    const bool done = random_subsets(n, seed, stop, progress, [&](std::span<const std::uint64_t> words) {
      const std::int64_t a = weight.sum(words), b = sum.sum(words);
      if (a == 0 || a == all_weight) ++empty;
      if (a != 0) means.push_back({a, b, 1});
      if (a != all_weight) means.push_back({all_weight - a, all_sum - b, 1});
    });
    if (!done) return cancelled();
    const auto need = static_cast<std::uint64_t>(alpha * static_cast<double>(flip_draws + 1));
    if (need <= empty) return std::optional<FlipInterval>{};
    const auto low = select(std::span(means), need - empty, false);
    const auto high = select(std::span(means), need - empty, true);
    found = ends(values, r, low, high);
  }
  if (!found) return tl::unexpected<Error>(found.error());
  out.lower_exact = found->lower;
  out.upper_exact = found->upper;
  out.lower = out.lower_exact.value();
  out.upper = out.upper_exact.value();
  if (progress) progress(1.0);
  return std::optional<FlipInterval>(out);
}

}  // namespace likeleaf::stats
