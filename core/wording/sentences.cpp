#include "core/wording/sentences.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/number_text.h"

namespace likeleaf::wording {
namespace {

using evidence::AttributeFinding;
using evidence::Engine;
using evidence::Findings;
using evidence::Interval;
using evidence::OpenReason;
using evidence::Word;
using Met = evidence::ClauseOutcome::Met;

std::string upper_first(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string lower_first(std::string text) {
  if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

std::string counted(int n, std::string_view one, std::string_view many) {
  return fmt::format("{}{}{}", n, no_break_space, n == 1 ? one : many);
}

std::string listed(const std::vector<std::string>& items) {
  std::string out;
  for (std::size_t i = 0; i < items.size(); ++i)
    out += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
  return out;
}

std::string ordinal(int n) {
  static constexpr std::array words{"",      "first", "second",  "third",  "fourth",
                                    "fifth", "sixth", "seventh", "eighth", "ninth"};
  return n >= 1 && n < static_cast<int>(words.size()) ? words[static_cast<std::size_t>(n)] : fmt::format("{}th", n);
}

bool is_ratio(const AttributeFinding& f) {
  return f.attribute.scale == Scale::seconds;
}

// Points: one decimal, or two where one would print a zero that is not one.
std::string points(double value, const Style& style) {
  const double size = std::fabs(value);
  return number_text(size, size > 0 && size < 0.05 ? 2 : 1, style);
}

std::string ratio(double log_value, const Style& style) {
  return number_text(std::exp(log_value), 2, style);
}

std::string at_b(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  std::string out = "at " + level_text(plan.plan.lever, f.contrast.b, style);
  if (several) out += " than at " + level_text(plan.plan.lever, f.contrast.a, style);
  return out;
}

std::string direction(const AttributeFinding& f, double value) {
  return value >= 0 ? f.attribute.more : f.attribute.less;
}

// "1.1 to 2.7 more", or "1.1 to 2.4 more; 98.3 %" where it was not drawn at 95 %.
std::string range_text(const AttributeFinding& f, const Style& style) {
  std::string out = interval_text(f, *f.interval, style);
  if (f.engine != Engine::describe && std::fabs(f.interval->level - 0.95) > 0.0005)
    out += fmt::format("; {}{}%", number_text(f.interval->level * 100, 1, style), no_break_space);
  return out;
}

// "more bitter at 88 °C by 1.9 (1.1 to 2.7 more)"
std::string size_clause(const AttributeFinding& f, const SealedPlan& plan, const Style& style, bool several) {
  std::string out;
  if (is_ratio(f))
    out = fmt::format("{} {}: {} times the time",
                      ratio(f.estimate, style) == ratio(0, style) ? "as long a finish" : direction(f, f.estimate),
                      at_b(f, plan, style, several), ratio(f.estimate, style));
  else if (points(f.estimate, style) == points(0, style))
    out = "no difference seen " + at_b(f, plan, style, several);
  else
    out =
        fmt::format("{} {} by {}", direction(f, f.estimate), at_b(f, plan, style, several), points(f.estimate, style));
  if (f.interval) out += fmt::format(" ({})", range_text(f, style));
  return out;
}

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

std::string clause_text(const RuleClause& clause, const SealedPlan& plan, const Style& style) {
  const auto* attribute = find_attribute(plan.attributes, clause.attribute);
  const std::string name = attribute ? lower_first(attribute->name) : clause.attribute;
  if (clause.way == RuleClause::Way::holds) return name + " holds";
  const std::string verb = clause.way == RuleClause::Way::falls ? "falls" : "rises";
  if (attribute && attribute->scale == Scale::seconds)
    return fmt::format("{} {} by a factor of {} or more", name, verb,
                       number_text(static_cast<double>(clause.by) / 1000, 2, style));
  const double by = static_cast<double>(clause.by) / 2;
  return fmt::format("{} {} by {} or more", name, verb, number_text(by, clause.by % 2 == 0 ? 0 : 1, style));
}

std::string name_of(const SealedPlan& plan, const std::string& attribute) {
  const auto* found = find_attribute(plan.attributes, attribute);
  return found ? found->name : attribute;
}

std::string constant_value(ConstantKind kind, std::int64_t value, const Style& style) {
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return mass_text(Mass(value), style);
    case ConstantKind::water_temperature:
    case ConstantKind::tasting_temperature:
      return temperature_text(Temperature(value), style);
    default:
      return duration_text(Duration(value), style);
  }
}

// A time that is watched, not set: "14 min 25 s".
std::string minutes_and_seconds(std::int64_t ms, const Style& style) {
  const std::int64_t minutes = ms / 60'000, rest = ms % 60'000;
  if (minutes == 0) return duration_text(Duration(ms), style);
  std::string out = fmt::format("{}{}min", minutes, no_break_space);
  if (rest != 0) out += no_break_space + duration_text(Duration(rest), style);
  return out;
}

std::string constant_step(ConstantKind kind, std::int64_t value, const Style& style) {
  if (kind == ConstantKind::water_temperature || kind == ConstantKind::tasting_temperature)
    return step_text(TemperatureStep(value), style);
  return constant_value(kind, value, style);
}

}  // namespace

std::string contrast_text(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " against " + level_text(lever, contrast.a, style);
}

std::string difference_title(const Lever& lever, Contrast contrast, const Style& style) {
  return level_text(lever, contrast.b, style) + " minus " + level_text(lever, contrast.a, style);
}

std::string in_unit(std::string_view kept, const Style& style) {
  constexpr std::string_view unit = "°C";
  std::string out;
  for (auto at = kept.find(unit); at != std::string_view::npos; at = kept.find(unit)) {
    const auto before = kept.substr(0, at);
    const auto last = before.find_last_of("0123456789");
    const auto from = last == std::string_view::npos ? last : before.find_last_not_of("0123456789.", last);
    const auto begin = last == std::string_view::npos ? at : from == std::string_view::npos ? 0 : from + 1;
    const auto degrees = kept.substr(begin, at + unit.size() - begin);
    const auto read = parse_temperature(degrees, Style{}, {});
    out += kept.substr(0, begin);
    out += read ? temperature_text(*read, style) : std::string(degrees);
    kept.remove_prefix(at + unit.size());
  }
  return out += kept;
}

std::string changes_text(const Lever& lever, const Style& style) {
  std::string out = lever.kind == LeverKind::other && !lever.name.empty() ? lever.name : lever_name(lever.kind);
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    out += i == 0 ? " " : lever.levels.size() == 2 ? " against " : ", ";
    out += level_text(lever, i, style);
    if (lever.levels[i].present_way) out += " (now)";
  }
  return out;
}

std::string headline(const Findings& findings, const SealedPlan& plan, const Style& style) {
  const bool several = findings.contrasts.size() > 1;
  std::string out;
  for (const auto& f : findings.attributes) {
    if (!f.deciding) continue;
    std::string said;
    const std::string pair = several ? fmt::format(" ({})", contrast_text(plan.plan.lever, f.contrast, style)) : "";
    switch (f.word) {
      case Word::moved:
        said = upper_first(direction(f, f.estimate)) + " " + at_b(f, plan, style, several);
        break;
      case Word::held:
        said = f.attribute.name + " holds" + pair;
        break;
      case Word::depends:
        said = f.attribute.name + (f.lots.shown ? " depends on the leaf" : " depends on the taster") + pair;
        break;
      case Word::open:
      case Word::noted:
        said = f.attribute.name + " is open" + pair;
        break;
    }
    out += (out.empty() ? "" : " ") + said + ".";
  }
  return out.empty() ? "Described, not decided." : out;
}

std::string scope_sentence(const Findings& findings, const SealedPlan& plan, const Style& style) {
  std::string out = findings.lots == 1
                        ? fmt::format("This leaf ({})", findings.lot_codes.empty() ? "" : findings.lot_codes[0])
                        : fmt::format("These {}{}leaves", findings.lots, no_break_space);
  out += fmt::format(", {}, {}, ", counted(findings.brew_pairs, "brew pair", "brew pairs"),
                     counted(findings.tasted_pairs, "tasted pair", "tasted pairs"));
  if (findings.assessors == 1)
    out += fmt::format("one taster ({})", findings.assessor_aliases.empty() ? "" : findings.assessor_aliases[0]);
  else
    out += counted(findings.assessors, "taster", "tasters");
  if (findings.tasting_temperature) out += ", at " + temperature_text(*findings.tasting_temperature, style);
  out += ".";
  if (findings.self_blinded)
    out += " Self-blinded: it speaks for this taster, these leaves and these pots, not for people in general.";
  if (findings.paper_import || plan.paper_import) out += " Read from paper tables: nothing was sealed beforehand.";
  return out;
}

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

std::string interval_text(const AttributeFinding& f, const Interval& interval, const Style& style) {
  if (is_ratio(f))
    return fmt::format("{} to {} times as long", ratio(interval.low, style), ratio(interval.high, style));
  const std::string low = points(interval.low, style), high = points(interval.high, style);
  const bool low_zero = low == points(0, style), high_zero = high == points(0, style);
  if (interval.low >= 0 || low_zero) return fmt::format("{} to {} more", low, high);
  if (interval.high <= 0 || high_zero) return fmt::format("{} to {} less", high, low);
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

std::string rule_sentence(const IfThenRule& rule, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> clauses;
  for (const auto& clause : rule.clauses) clauses.push_back(clause_text(clause, plan, style));
  return fmt::format("If {}, {}.", listed(clauses), rule.action);
}

std::string rule_outcome(const evidence::RuleOutcome& outcome, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> failing, unsaid;
  for (const auto& c : outcome.clauses) {
    if (c.met == Met::not_met) failing.push_back(clause_text(c.clause, plan, style));
    if (c.met == Met::cannot_say) unsaid.push_back(clause_text(c.clause, plan, style));
  }
  std::string out;
  switch (outcome.met) {
    case Met::met:
      out = "Met.";
      break;
    case Met::not_met:
      out = fmt::format("Not met: “{}” is not what we found.", listed(failing));
      break;
    case Met::cannot_say:
      out = fmt::format("Cannot say: “{}” is not settled.", listed(unsaid));
      break;
  }
  std::string leaves, last;
  for (const auto& leaf : outcome.leaves) {
    const auto* attribute = find_attribute(plan.attributes, leaf.attribute);
    const bool log_scale = attribute && attribute->scale == Scale::seconds;
    const std::string name = lower_first(name_of(plan, leaf.attribute));
    const std::string said =
        log_scale ? fmt::format("{} ×{}", name, ratio(leaf.estimate, style))
                  : fmt::format("{} {} {}", name, points(leaf.estimate, style), leaf.estimate < 0 ? "less" : "more");
    leaves += leaf.lot == last ? ", " + said : (last.empty() ? "" : "; ") + leaf.lot + " itself: " + said;
    last = leaf.lot;
  }
  if (!leaves.empty()) out += " (" + leaves + ")";
  return out;
}

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
  return fmt::format("{}: {} {} for {}, {} past the ±{} allowed", where, constant_name(d.what),
                     constant_value(d.what, d.actual, style), constant_value(d.what, d.planned, style),
                     constant_step(d.what, std::abs(d.past()), style), constant_step(d.what, d.tolerance, style));
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

namespace {

// The noisiest of the deciding attributes, else of all.
const evidence::BlankControl* noisiest(const Findings& f) {
  const evidence::BlankControl* worst = nullptr;
  const auto decides = [&](const std::string& id) {
    return std::any_of(f.attributes.begin(), f.attributes.end(),
                       [&](const auto& a) { return a.deciding && a.attribute.id == id; });
  };
  for (const bool deciding : {true, false}) {
    for (const auto& b : f.blanks)
      if (b.sheets > 0 && decides(b.attribute) == deciding && (!worst || b.largest > worst->largest)) worst = &b;
    if (worst) return worst;
  }
  return nullptr;
}

void add_blanks(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Reason>& out) {
  const auto* worst = noisiest(f);
  if (!worst) {
    out.push_back(
        {"Blanks", "None were planned: what two cups of the same brew would differ by was not measured.", false});
    return;
  }
  std::string text = fmt::format("{} of two brews at one level: largest difference {} ({}); ",
                                 counted(worst->sheets, "sheet", "sheets"), points(worst->largest, style),
                                 lower_first(name_of(plan, worst->attribute)));
  text += worst->too_few ? "too few to call clean."
                         : fmt::format("{} of {} at the margin or above ({} to {} of 100).", worst->at_least_margin,
                                       worst->sheets, number_text(worst->share.low * 100, 0, style),
                                       number_text(worst->share.high * 100, 0, style));
  out.push_back({"Blanks", text, false});
}

void add_yardsticks(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Reason>& out) {
  const evidence::YardstickControl* shown = nullptr;
  for (const auto& y : f.yardsticks)
    if (y.sheets > 0 && (y.attribute == "body" || !shown)) shown = &y;
  if (!shown) return;
  std::string text = fmt::format("{}{}% dilution of {} tasted as {} {}", number_text(shown->dilution_percent, 0, style),
                                 no_break_space, shown->lot, signed_text(shown->mean, 1, style),
                                 lower_first(name_of(plan, shown->attribute)));
  if (shown->interval)
    text += fmt::format(" ({} to {}; {}, one pot)", signed_text(shown->interval->low, 1, style),
                        signed_text(shown->interval->high, 1, style), counted(shown->sheets, "sheet", "sheets"));
  text += shown->noticed ? ": we notice it." : ": not shown that we notice it.";
  out.push_back({"Yardstick", text, !shown->noticed});
}

void add_repeats(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Reason>& out) {
  const evidence::RepeatControl* worst = nullptr;
  for (const auto& r : f.repeats)
    if (!worst || r.mean_abs > worst->mean_abs) worst = &r;
  if (!worst) return;
  out.push_back({"Repeat servings",
                 fmt::format("{}: the same brew pair came out {} apart on average, at most {} ({}).",
                             counted(worst->pairs, "pair", "pairs"), points(worst->mean_abs, style),
                             points(worst->largest, style), lower_first(name_of(plan, worst->attribute))),
                 false});
}

void add_lean(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Reason>& out) {
  if (!f.lean) return;
  bool balanced = true;
  std::vector<std::string> gaps;
  for (const auto& a : f.attributes) {
    if (a.deciding && !a.both_orders) balanced = false;
    if (a.deciding && a.order_gap) gaps.push_back(lower_first(name_of(plan, a.attribute.id)));
  }
  std::string text = fmt::format(
      "leans {} by {}, {}.", *f.lean >= 0 ? "up" : "down", points(*f.lean, style),
      balanced ? "cancelled by the balance" : "not fully cancelled: some brew pairs were tasted in one order only");
  if (!gaps.empty()) text += " The two orders differ by more than the margin on " + listed(gaps) + ".";
  out.push_back({"First cup", text, !gaps.empty() || !balanced});
}

void add_drifts(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Reason>& out) {
  for (const auto& effect : f.drifts) {
    std::string text = drift_text(effect.drift, effect.lot, plan, style) + ".";
    if (const auto what = drift_effect(effect.drift); !what.empty()) text += " " + what;
    std::vector<std::string> without;
    for (const auto& w : effect.without) {
      const auto* attribute = find_attribute(plan.attributes, w.attribute);
      without.push_back(fmt::format("{} {}", lower_first(name_of(plan, w.attribute)),
                                    attribute && attribute->scale == Scale::seconds
                                        ? "×" + ratio(w.estimate, style)
                                        : signed_text(w.estimate, 1, style)));
    }
    if (!without.empty())
      text += " Without it: " + listed(without) + ".";
    else if (effect.drift.set > 0 && std::ranges::any_of(f.attributes, &AttributeFinding::deciding))
      text += " Without it nothing is left to judge.";
    out.push_back({"Drift", text, true});
  }
}

/// How the answer would read without the sheets that were left out after the unmasking: said, never decided by.
void add_exclusions(const Findings& f, const Style& style, std::vector<Reason>& out) {
  if (f.excluded_before + f.excluded_after == 0) return;
  std::string text;
  if (f.excluded_before > 0)
    text = fmt::format("{} left out before the key was opened, with a reason.",
                       counted(f.excluded_before, "sheet", "sheets"));
  std::vector<std::string> without;
  for (const auto& a : f.attributes)
    if (a.deciding && a.estimate_with_late_exclusions)
      without.push_back(fmt::format("{} {}", lower_first(a.attribute.name),
                                    estimate_text(a, *a.estimate_with_late_exclusions, style)));
  if (f.excluded_after > 0)
    text += fmt::format("{}{} excluded after it: the answer stands as it was{}.", text.empty() ? "" : " ",
                        counted(f.excluded_after, "sheet", "sheets"),
                        without.empty()
                            ? std::string()
                            : "; without " + std::string(f.excluded_after == 1 ? "it: " : "them: ") + listed(without));
  out.push_back({"Excluded sheets", text, f.excluded_after > 0});
}

}  // namespace

std::vector<Reason> reasons(const Findings& f, const Unmasked& unmasked, const Style& style) {
  const SealedPlan& plan = unmasked.plan();
  std::vector<Reason> out;
  add_blanks(f, plan, style, out);
  add_yardsticks(f, plan, style, out);
  add_repeats(f, plan, style, out);
  add_lean(f, plan, style, out);
  add_drifts(f, plan, style, out);
  for (const auto& problem : f.one_variable.problems) out.push_back({"More than one variable", problem, true});
  for (const auto& riding : f.one_variable.riding)
    if (riding.aligned)
      out.push_back(
          {"Rides along",
           fmt::format("{} goes with the level{}.", upper_first(riding.what),
                       riding.unit.empty()
                           ? ""
                           : fmt::format(": {} {} on average", number_text(riding.alignment, 1, style), riding.unit)),
           true});
  if (f.guesses.guessed > 0)
    out.push_back(
        {f.guesses.possibly_unblinded ? "Possibly unblinded" : "Blindness",
         fmt::format("{} guessed which was which on {}: {} right{}. {} saw a difference before tasting.", "Tasters",
                     counted(f.guesses.guessed, "sheet", "sheets"), f.guesses.right,
                     f.guesses.p ? fmt::format(" (chance of that many by luck {})", p_text(*f.guesses.p, style)) : "",
                     counted(f.guesses.saw_difference, "sheet", "sheets")),
         f.guesses.possibly_unblinded});
  if (f.voided > 0)
    out.push_back(
        {"Voided",
         fmt::format("{} voided with a reason and brewed again under spare codes.", counted(f.voided, "pair", "pairs")),
         false});
  add_exclusions(f, style, out);
  if (f.amended > 0)
    out.push_back({"Amended",
                   fmt::format("{} after lock, each with old value, new value and reason in the annex.",
                               counted(f.amended, "entry", "entries")),
                   false});
  if (const auto& mask = unmasked.trial().unmasked; mask && !plan.paper_import) {
    const bool intact = mask->plan_intact && mask->key_intact && mask->sheets_intact;
    out.push_back({"Seal",
                   intact ? "Plan, key and sheets are as they were sealed and locked. It proves tampering only against "
                            "a printed copy."
                          : fmt::format("{}{}{}not as sealed.", mask->plan_intact ? "" : "Plan ",
                                        mask->key_intact ? "" : "Key ", mask->sheets_intact ? "" : "Sheets "),
                   !intact});
  }
  return out;
}

std::vector<std::string> unknowns(const Findings& f, const SealedPlan& plan, const Style& style) {
  std::vector<std::string> out;
  const bool several = f.contrasts.size() > 1;
  for (const auto& a : f.attributes) {
    if (!a.deciding ||
        (a.word != Word::open && a.word != Word::depends && !(a.word == Word::moved && !a.enough_to_matter)))
      continue;
    const bool told =
        a.word == Word::open && (a.open_reason == OpenReason::not_shown || a.open_reason == OpenReason::none);
    out.push_back(fmt::format("{}: {}", a.attribute.name,
                              told ? size_clause(a, plan, style, several) + ", so more or less or nothing."
                                   : finding_text(a, plan, style, several).sentence));
  }
  std::vector<std::string> noted;
  for (const auto& a : f.attributes)
    if (!a.deciding && a.interval && (a.interval->low > 0 || a.interval->high < 0))
      noted.push_back(is_ratio(a) ? fmt::format("{} ({} times)", direction(a, a.estimate), ratio(a.estimate, style))
                                  : fmt::format("{} (by {})", direction(a, a.estimate), points(a.estimate, style)));
  if (!noted.empty())
    out.push_back(fmt::format("Noted{}, not decided: {}.",
                              several ? "" : " at " + level_text(plan.plan.lever, f.contrasts.front().b, style),
                              listed(noted)));
  std::string others = "Other leaves, other cups";
  if (f.tasting_temperature)
    others += ", and how it drinks hotter than " + temperature_text(*f.tasting_temperature, style);
  out.push_back(others + ".");
  return out;
}

}  // namespace likeleaf::wording
