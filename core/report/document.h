#pragma once
// A report as blocks. core writes HTML from it, ui paints PDF from it; neither asks the book for anything.
#include <functional>
#include <string>
#include <variant>
#include <vector>

#include "core/base/result.h"
#include "core/report/plots.h"

namespace likeleaf::report {

struct Heading {
  std::string text;
  int level = 2;  ///< 1 is the headline
};
struct Paragraph {
  std::string text;
  enum class Tone { plain, lead, soft, caution } tone = Tone::plain;
};
struct Steps {
  std::vector<std::string> items;
};
struct Table {
  std::string caption;
  std::vector<std::string> columns;
  std::vector<bool> numeric;  ///< right-aligned columns
  std::vector<std::vector<std::string>> rows;
  bool bench = false;  ///< larger type: read standing, from an arm's length
};
struct Figure {
  std::variant<IntervalPlot, PairedPlot, RegisterPlot> data;
  std::string caption;
  std::string alt;  ///< the figure in words
};
/// A rule in the house: set off by a line at the side.
struct Aside {
  std::string title, text;
};
struct Rule {};  ///< a thin line across
/// Two short columns beside each other, the way of the first page.
struct Columns {
  std::string left_title;
  std::vector<std::string> left_steps;
  std::vector<std::string> left_cautions;
  std::string right_title;
  std::vector<std::string> right_paragraphs;
};
struct PageBreak {
  bool right_hand = false;  ///< goes on to an odd page, so that what follows is the front of a sheet of paper
};

using Block = std::variant<Heading, Paragraph, Steps, Table, Figure, Aside, Rule, Columns, PageBreak>;

struct Meta {
  std::string title, house, label;  ///< label: "trial 14 · 2 March 2026"
  std::string foot;                 ///< "numbers, sheets and seal 3f9a…c2 in the annex"
  std::string program;              ///< "Likeleaf 0.1.0"
  std::string mark{};               ///< a warning across the head of every page; empty for none
};
struct Document {
  Meta meta;
  std::vector<Block> blocks;
};

/// Draws a figure as a self-contained `<svg>` element.
using FigureSvg = std::function<std::string(const Figure&)>;
/// One self-contained HTML file: no script, no outside reference; text of the users is escaped.
std::string to_html(const Document& document, const FigureSvg& figure);
/// The document as plain text, for tests and for reading aloud.
std::string to_text(const Document& document);

}  // namespace likeleaf::report
