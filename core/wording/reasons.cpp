#include "core/wording/reasons.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/wording/attribute_text.h"
#include "core/wording/drift_text.h"
#include "core/wording/one_variable_text.h"
#include "core/wording/phrases.h"

namespace likeleaf::wording {

namespace {

using evidence::AttributeFinding;
using evidence::Findings;

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
  for (const auto& problem : f.one_variable.problems)
    out.push_back({"More than one variable", problem_text(problem, style), true});
  for (const auto& riding : f.one_variable.riding)
    if (riding.aligned) out.push_back({"Rides along", rides_sentence(riding, style), true});
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
  if (!plan.paper_import) {
    const auto& mask = unmasked.trial().unmasked;
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

}  // namespace likeleaf::wording
