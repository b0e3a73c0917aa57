#include "core/report/plots.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "core/base/number_text.h"
#include "core/wording/attribute_text.h"
#include "core/wording/plan_text.h"

namespace likeleaf::report {
namespace {

using evidence::AttributeFinding;

double fitted_step(double span, int about) {
  const double raw = span / about;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double k : {1.0, 2.0, 5.0, 10.0})
    if (k * power >= raw * 0.999) return k * power;
  return 10 * power;
}

/// A text cell. What a spreadsheet would take for a formula gets an apostrophe.
std::string quoted(std::string cell) {
  if (!cell.empty() && std::string_view("=+-@\t\r").find(cell[0]) != std::string_view::npos) cell.insert(0, "'");
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string out = "\"";
  for (const char c : cell) out += c == '"' ? "\"\"" : std::string(1, c);
  return out + "\"";
}

std::string cell(double v) {
  return fmt::format("{:.12g}", v);
}

Axis score_axis(const Style& style) {
  Axis axis;
  axis.low = 0;
  axis.high = 10;
  axis.ticks = round_ticks(0, 10, 5, false, style);
  return axis;
}

IntervalRow row_of(const AttributeFinding& f, const SealedPlan& plan, const Style& style) {
  IntervalRow row;
  row.label = f.attribute.scale == Scale::register_bands ? "Aroma, top − base" : f.attribute.name;
  row.word = f.word;
  row.deciding = f.deciding;
  row.estimate = f.estimate;
  row.interval = f.interval;
  row.margin = f.margin;
  const auto text = wording::finding_text(f, plan, style, false);
  row.said = text.title + ". " + text.sentence;
  return row;
}

std::optional<IntervalPlot> plot_of(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                    const Style& style, bool ratio) {
  IntervalPlot plot;
  std::optional<double> margin;
  for (const auto& f : findings.attributes) {
    if (f.contrast != contrast || (f.attribute.scale == Scale::seconds) != ratio || f.brew_pairs == 0) continue;
    plot.rows.push_back(row_of(f, plan, style));
    if (!f.deciding) continue;
    if (margin && std::fabs(*margin - f.margin) > 1e-12) plot.one_margin = false;
    margin = f.margin;
  }
  if (plot.rows.empty()) return std::nullopt;
  if (!margin) plot.one_margin = false;
  const std::string a = level_text(plan.plan.lever, contrast.a, style),
                    b = level_text(plan.plan.lever, contrast.b, style);
  plot.title =
      ratio ? "Finish length, " + b + " over " + a : wording::difference_title(plan.plan.lever, contrast, style);
  plot.axis.low_end = (ratio ? "longer at " : "more at ") + a;
  plot.axis.high_end = (ratio ? "longer at " : "more at ") + b;
  if (plot.one_margin && margin)
    plot.axis.middle =
        ratio ? "margin ×" + number_text(std::exp(*margin), 2, style)
              : "margin ±" + number_text(*margin, std::fabs(*margin - std::round(*margin)) < 1e-9 ? 0 : 1, style);
  static constexpr double times[] = {0.25, 0.5, 0.67, 0.8, 1.0, 1.25, 1.5, 2.0, 3.0, 4.0};
  fit_axis(plot, ratio ? std::span<const double>(times) : std::span<const double>(), style);
  return plot;
}

}  // namespace

void fit_axis(IntervalPlot& plot, std::span<const double> times, const Style& style) {
  double reach = times.empty() ? 2 : std::log(1.3);
  for (const auto& row : plot.rows) {
    reach = std::max({reach, std::fabs(row.estimate), row.deciding ? row.margin * 1.1 : 0});
    if (row.interval) reach = std::max({reach, std::fabs(row.interval->low), std::fabs(row.interval->high)});
  }
  plot.axis.low = -reach * 1.05;
  plot.axis.high = reach * 1.05;
  if (times.empty()) plot.axis.ticks = round_ticks(plot.axis.low, plot.axis.high, 7, true, style);
  for (const double t : times)
    if (std::fabs(std::log(t)) <= plot.axis.high)
      plot.axis.ticks.push_back({std::log(t), "×" + number_text(t, t == 1.0 || t >= 2 ? 0 : 2, style)});
}

std::vector<Tick> round_ticks(double low, double high, int about, bool with_sign, const Style& style) {
  std::vector<Tick> out;
  if (!(high > low)) return out;
  const double step = fitted_step(high - low, about);
  int decimals = 0;
  for (double s = step; decimals < 6 && std::fabs(s - std::round(s)) > 1e-9; s *= 10) ++decimals;
  for (auto k = static_cast<long>(std::ceil(low / step - 1e-9)); static_cast<double>(k) * step <= high + 1e-9 * step;
       ++k) {
    const double at = static_cast<double>(k) * step;
    out.push_back({at, with_sign ? signed_text(at, decimals, style) : number_text(at, decimals, style)});
  }
  return out;
}

std::optional<IntervalPlot> interval_plot(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                          const Style& style) {
  return plot_of(findings, plan, contrast, style, false);
}

std::optional<IntervalPlot> ratio_plot(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                       const Style& style) {
  return plot_of(findings, plan, contrast, style, true);
}

std::optional<PairedPlot> paired_plot(const AttributeFinding& f, const SealedPlan& plan, const Style& style) {
  struct Sum {
    double a = 0, b = 0;
    int n = 0;
  };
  std::map<std::pair<std::string, int>, Sum> sums;
  for (const auto& pair : f.pairs)
    if (pair.a && pair.b) {
      auto& s = sums[{pair.lot, pair.set}];
      s.a += *pair.a;
      s.b += *pair.b;
      ++s.n;
    }
  if (sums.empty()) return std::nullopt;
  PairedPlot plot;
  plot.title = f.attribute.name + ", mean of each brew pair";
  plot.a_label = level_text(plan.plan.lever, f.contrast.a, style);
  plot.b_label = level_text(plan.plan.lever, f.contrast.b, style);
  double low = 0, high = f.attribute.scale == Scale::seconds ? 30 : 10;
  for (const auto& [key, s] : sums) {
    plot.rows.push_back({fmt::format("{}, pair {}", key.first, key.second), s.a / s.n, s.b / s.n, s.n});
    low = std::min({low, s.a / s.n, s.b / s.n});
    high = std::max({high, s.a / s.n, s.b / s.n});
  }
  plot.axis.low = low < 0 ? low - 0.5 : 0;
  plot.axis.high = high;
  plot.axis.ticks = round_ticks(plot.axis.low, plot.axis.high, 6, low < 0, style);
  return plot;
}

std::optional<RegisterPlot> register_plot(const Unmasked& unmasked, Contrast contrast, const Style& style) {
  static constexpr std::array<std::pair<const char*, const char*>, 3> bands{
      {{"top", "Top"}, {"middle", "Middle"}, {"base", "Base"}}};
  std::string attribute;
  for (const auto& a : unmasked.plan().attributes)
    if (a.scale == Scale::register_bands) attribute = a.id;
  if (attribute.empty()) return std::nullopt;
  RegisterPlot plot;
  plot.title = "Aroma, where it sits: mean of the sheets";
  plot.a_label = level_text(unmasked.plan().plan.lever, contrast.a, style);
  plot.b_label = level_text(unmasked.plan().plan.lever, contrast.b, style);
  plot.axis = score_axis(style);
  for (const auto& [id, label] : bands) {
    const std::string field = attribute + "." + id;
    double a = 0, b = 0;
    int n = 0;
    for (const auto& p : unmasked.pairings()) {
      if (p.kind != PairKind::contrast || p.levels != contrast || p.excluded_before || !p.sheet) continue;
      const auto& cup_b = p.sheet->cup(p.side_b).marks;
      const auto& cup_a = p.sheet->cup(other(p.side_b)).marks;
      const auto in_a = cup_a.find(field), in_b = cup_b.find(field);
      if (in_a == cup_a.end() || in_b == cup_b.end()) continue;
      const auto* sa = std::get_if<Score>(&in_a->second);
      const auto* sb = std::get_if<Score>(&in_b->second);
      if (!sa || !sb) continue;
      a += sa->halves() / 2.0;
      b += sb->halves() / 2.0;
      ++n;
    }
    if (n > 0) plot.rows.push_back({label, a / n, b / n});
  }
  if (plot.rows.empty()) return std::nullopt;
  return plot;
}

std::string csv(const IntervalPlot& plot) {
  const bool parts = std::ranges::any_of(plot.rows, [](const auto& r) { return !r.part.empty(); });
  std::string out = fmt::format("attribute,{}deciding,estimate,low,high,level,margin\r\n", parts ? "part," : "");
  for (const auto& r : plot.rows)
    out += fmt::format("{},{}{},{},{},{},{},{}\r\n", quoted(r.label), parts ? quoted(r.part) + "," : "",
                       r.deciding ? "yes" : "no", cell(r.estimate), r.interval ? cell(r.interval->low) : "",
                       r.interval ? cell(r.interval->high) : "", r.interval ? cell(r.interval->level) : "",
                       cell(r.margin));
  return out;
}

std::string csv(const PairedPlot& plot) {
  std::string out = fmt::format("brew pair,{},{},sheets\r\n", quoted(plot.a_label), quoted(plot.b_label));
  for (const auto& r : plot.rows)
    out += fmt::format("{},{},{},{}\r\n", quoted(r.label), cell(r.a), cell(r.b), r.sheets);
  return out;
}

std::string csv(const RegisterPlot& plot) {
  std::string out = fmt::format("band,{},{}\r\n", quoted(plot.a_label), quoted(plot.b_label));
  for (const auto& r : plot.rows) out += fmt::format("{},{},{}\r\n", quoted(r.label), cell(r.a), cell(r.b));
  return out;
}

}  // namespace likeleaf::report
