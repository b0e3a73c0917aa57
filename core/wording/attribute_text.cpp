#include "core/wording/attribute_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/wording/phrases.h"
#include "core/wording/plan_text.h"

namespace likeleaf::wording {

using evidence::AttributeFinding;
using evidence::Interval;
using evidence::OpenReason;
using evidence::Word;

namespace {

// "A new trial would need about 20 brew pairs to show what we saw, 8 to show 1 point, 8 to show that it holds."
std::string needed_pairs(const AttributeFinding& f, const Style& style) {
  std::string out;
  const auto need = [&](const std::optional<int>& pairs, const std::string& what) {
    if (!pairs) return;
    out += out.empty() ? fmt::format(" A new trial would need about {} brew pairs to show {}", *pairs, what)
                       : fmt::format(", {} to show {}", *pairs, what);
  };
  need(f.pairs_if_seen, "what we saw");
  need(f.pairs_if_margin, margin_text(f, style));
  need(f.pairs_to_hold, "that it holds");
  if (!out.empty()) out += ".";
  if (f.not_worth_it) out += " Not worth it with this plan.";
  return out;
}

std::string open_text(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  switch (f.open_reason) {
    case OpenReason::nothing_left:
      return "nothing left to judge: no brew pair has a score.";
    case OpenReason::too_faint:
      return "too faint to judge here: in more than a third of the pairs both cups were at the bottom of the scale.";
    case OpenReason::too_strong:
      return "too strong to judge here: in more than a third of the pairs both cups were at the top of the scale.";
    case OpenReason::no_spread:
      return "every brew pair gave the same answer; look at the sheets. " +
             upper_first(size_clause(f, plan, style, several)) + ".";
    case OpenReason::cut_off:
      return "the answer hangs on finish times that were cut off at under 3 or over 120 seconds.";
    case OpenReason::cannot_decide:
      return size_clause(f, plan, style, several) + ". These brew pairs can describe, they cannot decide.";
    case OpenReason::order_confounded:
      return size_clause(f, plan, style, several) + ". All brew pairs were tasted in one order: described only.";
    case OpenReason::none:
    case OpenReason::not_shown:
      break;
  }
  return size_clause(f, plan, style, several) + "." + needed_pairs(f, style);
}

std::string parts_text(const AttributeFinding& f, const std::vector<evidence::PartEstimate>& parts,
                       const std::vector<std::string>& names, const Style& style) {
  std::vector<std::string> said;
  for (const auto& part : parts)
    if (std::find(names.begin(), names.end(), part.name) != names.end())
      said.push_back(fmt::format("{} {}", part.name, estimate_text(f, part.shrunken, style)));
  return listed(said);
}

}  // namespace

std::string word_text(const AttributeFinding& f) {
  switch (f.word) {
    case Word::moved:
      return f.enough_to_matter ? "Moved, enough to matter" : "Moved, size unsure";
    case Word::held:
      return "Held";
    case Word::depends:
      return f.lots.shown ? "Depends on the leaf" : "Depends on the taster";
    case Word::open:
      return "Open";
    case Word::noted:
      break;
  }
  return "noted";
}

FindingText finding_text(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  FindingText out;
  out.title = f.attribute.name;
  if (!f.attribute.house_word.empty()) out.title += fmt::format(" ({})", f.attribute.house_word);
  if (several) out.title += ", " + contrast_text(plan.plan.lever, f.contrast, style);
  if (f.deciding) out.title += ": " + word_text(f);
  switch (f.word) {
    case Word::moved:
      out.sentence = size_clause(f, plan, style, several) + ".";
      if (!f.enough_to_matter)
        out.sentence += fmt::format(" It moved; whether by as much as {} is not sure.", margin_text(f, style));
      break;
    case Word::held: {
      const std::string range = f.interval ? fmt::format(" ({})", range_text(f, style)) : "";
      if (f.small_real_shift)
        out.sentence = "a small real shift, too small to matter: " + size_clause(f, plan, style, several) + ".";
      else if (f.sensitivity_shown)
        out.sentence = fmt::format("any change is within {}{}.", margin_text(f, style), range);
      else
        out.sentence = fmt::format("within {}, though we have not shown that we would taste {}{}.",
                                   margin_text(f, style), margin_text(f, style), range);
      break;
    }
    case Word::depends: {
      const bool leaf = f.lots.shown;
      const auto& which = leaf ? f.lots : f.assessors;
      out.sentence = fmt::format("{} differ: {}. Over all {}: {}.", leaf ? "the leaves" : "the tasters",
                                 parts_text(f, leaf ? f.by_lot : f.by_assessor, which.names, style),
                                 leaf ? "leaves" : "tasters", size_clause(f, plan, style, several));
      if (which.leaf_or_pot) out.sentence += " Leaf or pot: not told apart.";
      break;
    }
    case Word::open:
      out.sentence = open_text(f, plan, style, several);
      break;
    case Word::noted:
      out.sentence = f.brew_pairs == 0 ? "nothing to judge." : size_clause(f, plan, style, several) + ".";
      break;
  }
  if (const auto said = outcome_text(f); f.deciding && !said.empty()) out.sentence += " " + upper_first(said) + ".";
  if (f.cut_off > 0 && f.open_reason != OpenReason::cut_off)
    out.sentence += fmt::format(" {} with a finish time cut off at under 3 or over 120 seconds.",
                                counted(f.cut_off, "pair", "pairs"));
  return out;
}

std::string interval_text(const AttributeFinding& f, const Interval& interval, const Style& style) {
  if (is_ratio(f))
    return fmt::format("{} to {} times as long", ratio(interval.low, style), ratio(interval.high, style));
  const std::string low = points(interval.low, style), high = points(interval.high, style);
  if (interval.low >= 0) return fmt::format("{} to {} more", low, high);
  if (interval.high <= 0) return fmt::format("{} to {} less", high, low);
  return fmt::format("{} less to {} more", low, high);
}

std::string estimate_text(const AttributeFinding& f, double estimate, const Style& style) {
  return is_ratio(f) ? "×" + ratio(estimate, style) : signed_text(estimate, 1, style);
}

std::string margin_text(const AttributeFinding& f, const Style& style) {
  if (is_ratio(f)) return "a factor of " + ratio(f.margin, style);
  const bool whole = std::fabs(f.margin - std::round(f.margin)) < 1e-9;
  return fmt::format("{}{}{}", number_text(f.margin, whole ? 0 : 1, style), no_break_space,
                     std::fabs(f.margin - 1) < 1e-9 ? "point" : "points");
}

std::string outcome_text(const AttributeFinding& f) {
  switch (f.outcome) {
    case AttributeFinding::Outcome::as_expected:
      return "as expected";
    case AttributeFinding::Outcome::opposite:
      return "the opposite of what was expected";
    case AttributeFinding::Outcome::not_settled:
      return "what was expected is not settled";
    case AttributeFinding::Outcome::none:
      break;
  }
  return {};
}

}  // namespace likeleaf::wording
