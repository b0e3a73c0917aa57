#pragma once
// What Findings shows beside its answer: breakdowns as chart-neutral figures, the words, and the report's own tables.
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/report/document.h"

namespace likeleaf::report {

enum class PartsBy { leaf, taster };

/// At which confidence the lines of a plot of differences (or of ratios) are drawn, and what its band is.
std::string drawn_levels(const evidence::Findings& findings, Contrast contrast, bool ratio, const Style& style);
/// A figure with its rows read out as its text for screen readers.
Figure described(IntervalPlot plot, std::string caption);
/// Deciding attributes of one contrast, a row for each leaf or taster: mean difference and its 95 % range where there
/// are three or more values. Finish length, being a ratio, gets a plot of its own. Empty when nothing was decided.
std::vector<Figure> parts_figures(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                  PartsBy by, const Style& style);
/// Aroma words with the cups in which each was found; one table for each contrast that has words.
std::vector<Table> words_tables(const evidence::Findings& findings, const SealedPlan& plan, const Style& style);
/// Every table of a document, in its order.
std::vector<Table> tables_of(const Document& document);
/// Every figure of one kind of a document, in its order.
template <class Plot>
std::vector<Figure> figures_of(const Document& document) {
  std::vector<Figure> out;
  for (const auto& block : document.blocks)
    if (const auto* figure = std::get_if<Figure>(&block); figure && std::holds_alternative<Plot>(figure->data))
      out.push_back(*figure);
  return out;
}

}  // namespace likeleaf::report
