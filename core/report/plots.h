#pragma once
// Chart-neutral figures: what to draw, not how. Missing values are left out here, axis range and ticks are chosen here.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/findings/findings.h"

namespace likeleaf::report {

struct Tick {
  double at = 0;
  std::string label;
};
struct Axis {
  double low = -2, high = 2;
  std::vector<Tick> ticks;
  std::string low_end, high_end;  ///< "more at 68 °C", "more at 88 °C"
  std::string middle;             ///< "margin ±1"
};

struct IntervalRow {
  std::string label;
  evidence::Word word = evidence::Word::noted;
  bool deciding = false;
  double estimate = 0;
  std::optional<evidence::Interval> interval;
  double margin = 1;
  std::string said;    ///< the row in words, for screen readers
  std::string part{};  ///< of a breakdown: the leaf or the taster, whose rows share one label
};
/// One row per attribute; the margin as a band; dot, bar, split dot, ring.
struct IntervalPlot {
  std::string title;
  std::vector<IntervalRow> rows;
  Axis axis;
  bool one_margin = true;  ///< all deciding rows share the band of rows[0].margin; else each row draws its own
};

struct PairedRow {
  std::string label;  ///< "L-12, pair 2"
  double a = 0, b = 0;
  int sheets = 0;
};
/// Mean score of each brew pair at both levels, a dumbbell a row.
struct PairedPlot {
  std::string title, a_label, b_label;
  std::vector<PairedRow> rows;
  Axis axis;
};

struct BandRow {
  std::string label;  ///< "Top", "Middle", "Base"
  double a = 0, b = 0;
};
/// Mean of the three aroma bands at both levels.
struct RegisterPlot {
  std::string title, a_label, b_label;
  std::vector<BandRow> rows;
  Axis axis;
};

/// Intensity and register attributes of one contrast; nothing when there are none.
std::optional<IntervalPlot> interval_plot(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                          const Style& style);
/// Finish length alone, as a ratio on a log axis.
std::optional<IntervalPlot> ratio_plot(const evidence::Findings& findings, const SealedPlan& plan, Contrast contrast,
                                       const Style& style);
std::optional<PairedPlot> paired_plot(const evidence::AttributeFinding& finding, const SealedPlan& plan,
                                      const Style& style);
std::optional<RegisterPlot> register_plot(const Unmasked& unmasked, Contrast contrast, const Style& style);

/// The same figures as CSV text (RFC 4180, C locale), for the export beside SVG and PNG.
std::string csv(const IntervalPlot& plot);
std::string csv(const PairedPlot& plot);
std::string csv(const RegisterPlot& plot);

/// An axis that shows every row with its interval, and the margins of deciding rows: in points with round ticks, or,
/// with ticks at these `times`, in ln ratios.
void fit_axis(IntervalPlot& plot, std::span<const double> times, const Style& style);
/// Ticks at 1, 2 or 5 times a power of ten inside low..high, with the decimals that they need.
std::vector<Tick> round_ticks(double low, double high, int about, bool with_sign, const Style& style);

}  // namespace likeleaf::report
