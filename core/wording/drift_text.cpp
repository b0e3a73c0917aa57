#include "core/wording/drift_text.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "core/base/number_text.h"
#include "core/wording/amount_text.h"

namespace likeleaf::wording {

namespace {

/// From 1 on.
std::string ordinal(int n) {
  static constexpr std::array words{"",      "first", "second",  "third",  "fourth",
                                    "fifth", "sixth", "seventh", "eighth", "ninth"};
  return n < static_cast<int>(words.size()) ? words[static_cast<std::size_t>(n)] : fmt::format("{}th", n);
}

// A time that is watched, not set: "14 min 25 s".
std::string minutes_and_seconds(std::int64_t ms, const Style& style) {
  const std::int64_t minutes = ms / 60'000, rest = ms % 60'000;
  if (minutes == 0) return duration_text(Duration(ms), style);
  std::string out = fmt::format("{}{}min", minutes, no_break_space);
  if (rest != 0) out += no_break_space + duration_text(Duration(rest), style);
  return out;
}

}  // namespace

std::string drift_text(const Drift& d, const std::string& lot, const SealedPlan& plan, const Style& style) {
  const std::string which = d.set > 0 ? ordinal(d.set) + " brew pair" : d.pair ? "a control pair" : "a control brew";
  const std::string level = d.level ? ", " + level_text(plan.plan.lever, *d.level, style) : "";
  const std::string where = fmt::format("{}, {}{}", lot, which, level);
  if (d.what == ConstantKind::tasting_temperature && d.pair && d.planned == 0)
    return fmt::format("{}: cups {} apart at first sip, {} allowed", where, step_text(TemperatureStep(d.actual), style),
                       step_text(TemperatureStep(d.tolerance), style));
  if (d.what == ConstantKind::longest_hold)
    return fmt::format("{}: stood ready for {} before it was served, {} at most", where,
                       minutes_and_seconds(d.actual, style), minutes_and_seconds(d.planned + d.tolerance, style));
  if (d.what == ConstantKind::chill) return where + ": chilled another way than planned";
  return fmt::format("{}: {} {} for {}, {} past the {} allowed", where, constant_name(d.what),
                     amount_text(d.what, d.actual, style), amount_text(d.what, d.planned, style),
                     difference_text(d.what, std::abs(d.past()), style), tolerance_text(d.what, d.tolerance, style));
}

std::string drift_effect(const Drift& d) {
  const bool more = d.actual > d.planned;
  switch (d.what) {
    case ConstantKind::steep_time:
    case ConstantKind::leaf_dose:
      return more ? "May add to bitterness, astringency and body." : "May take from bitterness, astringency and body.";
    case ConstantKind::water_mass:
      return more ? "May weaken everything." : "May strengthen everything.";
    case ConstantKind::water_temperature:
      return more ? "May add to bitterness and astringency." : "May take from bitterness and astringency.";
    case ConstantKind::tasting_temperature:
      return "A cooler liquor is thicker: may show as body.";
    case ConstantKind::longest_hold:
      return "Liquor that stands loses its top notes: may show in aroma.";
    case ConstantKind::chill:
      return "May show as body and aroma.";
    default:
      return {};
  }
}

}  // namespace likeleaf::wording
