#include "core/report/views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "core/base/number_text.h"
#include "core/wording/attribute_text.h"
#include "core/wording/plan_text.h"

namespace likeleaf::report {
namespace {

using evidence::AttributeFinding;

IntervalRow part_row(const AttributeFinding& f, const evidence::PartEstimate& part, const Style& style) {
  IntervalRow row;
  row.label = f.attribute.name;
  row.part = part.name;
  row.word = evidence::Word::noted;  // a breakdown decides nothing, so it carries no word
  row.deciding = true;
  row.estimate = part.mean;
  row.interval = part.interval;
  row.margin = f.margin;
  row.said = fmt::format("{}, {}: {}{}, {} brew pairs, {} tasted pairs.", row.label, row.part,
                         wording::estimate_text(f, part.mean, style),
                         part.interval ? " (" + wording::interval_text(f, *part.interval, style) + ")" : "",
                         part.brew_pairs, part.tasted_pairs);
  return row;
}

std::optional<IntervalPlot> parts_plot(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                       PartsBy by, bool ratio, const Style& style) {
  IntervalPlot plot;
  for (const auto& f : findings.attributes) {
    if (!f.deciding || f.contrast != contrast || (f.attribute.scale == Scale::seconds) != ratio) continue;
    for (const auto& part : by == PartsBy::leaf ? f.by_lot : f.by_assessor)
      plot.rows.push_back(part_row(f, part, style));
  }
  if (plot.rows.empty()) return std::nullopt;
  plot.one_margin = std::ranges::all_of(
      plot.rows, [&](const auto& r) { return std::fabs(r.margin - plot.rows.front().margin) < 1e-12; });
  plot.title =
      wording::difference_title(plan.plan.lever, contrast, style) + (by == PartsBy::leaf ? ", by leaf" : ", by taster");
  plot.axis.low_end = (ratio ? "longer at " : "more at ") + level_text(plan.plan.lever, contrast.a, style);
  plot.axis.high_end = (ratio ? "longer at " : "more at ") + level_text(plan.plan.lever, contrast.b, style);
  static constexpr double times[] = {0.25, 0.5, 0.8, 1.0, 1.25, 2.0, 4.0};
  fit_axis(plot, ratio ? std::span<const double>(times) : std::span<const double>(), style);
  return plot;
}

}  // namespace

std::string drawn_levels(const evidence::Findings& findings, Contrast contrast, bool ratio, const Style& style) {
  std::set<std::string> levels;
  bool noted = false;
  for (const auto& a : findings.attributes) {
    if (a.contrast != contrast || (a.attribute.scale == Scale::seconds) != ratio || !a.interval) continue;
    noted = noted || !a.deciding;
    if (a.deciding) levels.insert(number_text(a.interval->level * 100, 1, style));
  }
  if (levels.empty()) return fmt::format("Lines: 95{}% ranges.", no_break_space);
  std::string out;
  for (const auto& level : levels) out += (out.empty() ? "" : ", ") + level;
  return fmt::format("Lines: ranges at the level of each decision ({}{}%){}. Band: the margin.", out, no_break_space,
                     noted ? fmt::format(", also noted at 95{}%", no_break_space) : std::string());
}

Figure described(IntervalPlot plot, std::string caption) {
  std::string alt = plot.title + ".";
  for (const auto& row : plot.rows) alt += " " + row.said;
  return {std::move(plot), std::move(caption), std::move(alt)};
}

std::vector<Figure> parts_figures(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                  PartsBy by, const Style& style) {
  const std::string caption =
      by == PartsBy::leaf
          ? fmt::format(
                "Mean of each leaf’s brew pairs; line: 95{}% range where it has three or more. Band: the margin.",
                no_break_space)
          : fmt::format(
                "Mean of each taster’s pairs; line: 95{}% range where there are three or more. To help a taster, never "
                "a ranking.",
                no_break_space);
  std::vector<Figure> out;
  for (const bool ratio : {false, true})
    if (auto plot = parts_plot(findings, plan, contrast, by, ratio, style))
      out.push_back(described(std::move(*plot), caption));
  return out;
}

std::vector<Table> words_tables(const evidence::Findings& findings, const SealedPlan& plan, const Style& style) {
  std::vector<Table> out;
  for (const auto c : findings.contrasts) {
    Table t;
    t.caption = "Aroma words, " + wording::contrast_text(plan.plan.lever, c, style) + ". Noted, not decided.";
    t.columns = {"Word", "Band", "Cups at " + level_text(plan.plan.lever, c.b, style),
                 "Cups at " + level_text(plan.plan.lever, c.a, style), "Tasted pairs"};
    t.numeric = {false, false, true, true, true};
    for (const auto& w : findings.words)
      if (w.contrast == c)
        t.rows.push_back({w.word, w.band, std::to_string(w.b_cups), std::to_string(w.a_cups), std::to_string(w.pairs)});
    if (!t.rows.empty()) out.push_back(std::move(t));
  }
  return out;
}

std::vector<Table> tables_of(const Document& document) {
  std::vector<Table> out;
  for (const auto& block : document.blocks)
    if (const auto* table = std::get_if<Table>(&block)) out.push_back(*table);
  return out;
}

}  // namespace likeleaf::report
