#include "core/stats/shrunken.h"

#include <algorithm>

#include "core/stats/leftovers.h"

namespace likeleaf::stats {
namespace {

/// f of a group of n; 0 when there is no variance between.
double factor(double between, double within, double n) {
  return between > 0 ? between / (between + within / n) : 0.0;
}

/// n₀ of unequal numbers: (N − Σ n²/N)/(groups − 1).
double typical_size(std::span<const double> n) {
  double sum = 0, squares = 0;
  for (const double k : n) {
    sum += k;
    squares += k * k;
  }
  return (sum - squares / sum) / (static_cast<double>(n.size()) - 1);
}

/// Every lot's mean of the d_g, factors still 0.
ShrunkenSet lot_means(const Weighted& values, std::vector<double>& sizes) {
  const auto lots = static_cast<std::size_t>(values.lots);
  ShrunkenSet out;
  std::vector<long double> sums(lots, 0);
  sizes.assign(lots, 0);
  for (std::size_t g = 0; g < values.size(); ++g) {
    const auto l = static_cast<std::size_t>(values.lot[g]);
    sums[l] += static_cast<long double>(values.d[g]);
    ++sizes[l];
  }
  const double est = estimate(values);
  for (std::size_t l = 0; l < lots; ++l)
    out.items.push_back(
        {static_cast<std::int32_t>(l),
         static_cast<double>(sums[l] / (static_cast<long double>(sizes[l]) * static_cast<long double>(values.d_den))),
         0.0, est});
  return out;
}

void shrink(ShrunkenSet& set, double est, std::span<const double> sizes) {
  for (std::size_t i = 0; i < set.items.size(); ++i) {
    Shrunken& s = set.items[i];
    s.factor = factor(set.variance_between, set.variance_within, sizes[i]);
    s.value = est + s.factor * (s.own - est);
  }
}

}  // namespace

Result<ShrunkenSet> shrunken_lots(const Weighted& values) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  std::vector<double> sizes;
  ShrunkenSet out = lot_means(values, sizes);
  const auto lots = static_cast<std::size_t>(values.lots);
  const std::size_t n = values.size();
  if (lots < 2 || n == lots) return out;
  long double all = 0;
  for (std::size_t g = 0; g < n; ++g) all += values.value(g);
  const double grand = static_cast<double>(all / static_cast<long double>(n));
  double within = 0, between = 0;
  for (std::size_t g = 0; g < n; ++g) {
    const double off = values.value(g) - out.items[static_cast<std::size_t>(values.lot[g])].own;
    within += off * off;
  }
  for (std::size_t l = 0; l < lots; ++l) between += sizes[l] * (out.items[l].own - grand) * (out.items[l].own - grand);
  out.variance_within = within / static_cast<double>(n - lots);
  const double mean_square = between / static_cast<double>(lots - 1);
  out.variance_between = std::max(0.0, (mean_square - out.variance_within) / typical_size(sizes));
  shrink(out, estimate(values), sizes);
  return out;
}

Result<ShrunkenSet> shrunken_lots(const Weighted& values, const LotsByAssessor& cross) {
  if (values.size() == 0) return fail(ErrorKind::missing, "brew pairs");
  std::vector<double> sizes;
  ShrunkenSet out = lot_means(values, sizes);
  if (cross.sheets.size() != out.items.size()) return fail(ErrorKind::bad_value, "lots", {}, "the same lots in both");
  if (cross.state == CrossState::too_few || out.items.size() < 2) return out;
  for (const double sheets : cross.sheets)
    if (!(sheets > 0)) return fail(ErrorKind::bad_value, "lots", {}, "a sheet for every lot");
  out.variance_within = cross.ms_cross;
  out.variance_between = std::max(0.0, (cross.ms_lots - cross.ms_cross) / typical_size(cross.sheets));
  shrink(out, estimate(values), cross.sheets);
  return out;
}

Result<ShrunkenSet> shrunken_assessors(std::span<const TastedPair> tasted, std::int64_t grid, double estimate) {
  const auto made = leftovers(tasted, grid);
  if (!made) return tl::unexpected<Error>(made.error());
  const Leftovers& left = *made;
  const std::size_t assessors = left.assessors.size();
  std::vector<long double> sums(assessors, 0);
  long double squares = 0;
  double count = 0;
  for (const auto& cells : left.pairs)
    for (const auto& c : cells) {
      const long double value = static_cast<long double>(c.value) / left.den;
      sums[c.assessor] += value;
      squares += value * value;
      ++count;
    }
  ShrunkenSet out;
  std::vector<double> sizes;
  long double between = 0;
  for (std::size_t a = 0; a < assessors; ++a) {
    const auto n = static_cast<long double>(left.cells[a]);
    sizes.push_back(static_cast<double>(n));
    between += sums[a] * sums[a] / n;
    out.items.push_back({left.assessors[a], estimate + static_cast<double>(sums[a] / n), 0.0, estimate});
  }
  // Cells less the brew pairs, less the assessors that are free beside them; (A − 1)(G − 1) when no sheet is missing.
  const double free = count - static_cast<double>(left.pairs.size()) - static_cast<double>(assessors) + 1;
  if (assessors < 2 || free < 1) return out;
  out.variance_within = static_cast<double>(std::max(0.0L, squares - between)) / free;
  const double mean_square = static_cast<double>(between) / static_cast<double>(assessors - 1);
  out.variance_between = std::max(0.0, (mean_square - out.variance_within) / typical_size(sizes));
  // Where nothing varies the difference of two long sums may be a last bit; that is no variance.
  if (out.variance_between < 1e-18 * static_cast<double>(squares)) out.variance_between = 0;
  shrink(out, estimate, sizes);
  return out;
}

}  // namespace likeleaf::stats
