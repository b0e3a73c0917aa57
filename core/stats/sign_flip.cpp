#include "core/stats/sign_flip.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include "core/stats/flip_patterns.h"

namespace likeleaf::stats {
namespace {

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
  common = std::max<std::int64_t>(common, 1);
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
  const bool small = cells <= most_cells;
  if (small ? n <= most_merged && halves_work < table_work : values.size() <= most_halved) {
    fill(out, s, by_halves(s));
  } else if (small && n <= most_counted) {
    const auto tails = by_table<std::uint64_t>(s, stop, progress);
    if (!tails) return cancelled();
    fill(out, s, *tails);
  } else if (small) {
    const auto tails = by_table<double>(s, stop, progress);
    if (!tails) return cancelled();
    fill(out, s, *tails);
  } else {
    return by_draws(values, seed, stop, progress);
  }
  if (progress) progress(1.0);
  return out;
}

Result<std::vector<std::int64_t>> products_of(const Weighted& values) {
  std::vector<std::int64_t> products;
  Wide sum = 0;
  for (std::size_t g = 0; g < values.size(); ++g) {
    const Wide product = static_cast<Wide>(values.w[g]) * values.d[g];
    sum += wide_abs(product);
    if (sum > most_sum) return fail(ErrorKind::too_large, "differences", {}, "a sum below 2^60");
    products.push_back(static_cast<std::int64_t>(product));
  }
  return products;
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
  const auto products = products_of(in_order(values));
  if (!products) return tl::unexpected<Error>(products.error());
  return flip(*products, seed, stop, progress);
}

bool test_is_counted(const Weighted& values) {
  if (values.size() <= most_halved) return true;
  const auto products = products_of(values);
  return products && signs_of(*products).under < most_cells;
}

}  // namespace likeleaf::stats
