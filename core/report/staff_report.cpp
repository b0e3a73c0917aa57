#include "core/report/staff_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/report/annex.h"
#include "core/report/views.h"
#include "core/wording/attribute_text.h"
#include "core/wording/cautions.h"
#include "core/wording/drift_text.h"
#include "core/wording/findings_text.h"
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"
#include "core/wording/reasons.h"
#include "core/wording/rule_text.h"

namespace likeleaf::report {
namespace {

using evidence::Findings;

std::string counted_pairs(int n) {
  return fmt::format("{}{}{}", n, no_break_space, n == 1 ? "pair" : "pairs");
}

std::string small_number(int n) {
  static constexpr const char* words[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                          "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return n >= 0 && n <= 12 ? words[n] : std::to_string(n);
}

std::string short_digest(const Digest& digest) {
  const std::string hex = digest.hex();
  return hex.substr(0, 4) + "…" + hex.substr(hex.size() - 2);
}

std::string levels_joined(const Lever& lever, const Style& style, std::string_view last) {
  std::string out;
  const auto names = wording::level_names(lever, style, " as now");
  for (std::size_t i = 0; i < names.size(); ++i)
    out += (i == 0 ? "" : i + 1 == names.size() ? std::string(last) : ", ") + names[i];
  return out;
}

std::string what_we_did(const Findings& f, const SealedPlan& plan, const Style& style) {
  const int per_lot = f.lots > 0 ? f.brew_pairs / f.lots : 0;
  std::string out = fmt::format("We brewed {} {}", small_number(f.lots), f.lots == 1 ? "leaf" : "leaves");
  if (per_lot > 0 && per_lot * f.lots == f.brew_pairs)
    out += per_lot == 1 ? ", once each way" : fmt::format(", {} times each way", small_number(per_lot));
  out += fmt::format(", alike but for the {}: {}. ", wording::lever_text(plan.plan.lever),
                     levels_joined(plan.plan.lever, style, ", and "));
  const std::string heat = f.tasting_temperature ? " at " + temperature_text(*f.tasting_temperature, style) : "";
  if (f.assessors == 1)
    out += fmt::format("One taster tasted {}{}", counted_pairs(f.tasted_pairs), heat);
  else
    out += fmt::format("{} of us tasted {} in all{}", upper_first(small_number(f.assessors)),
                       counted_pairs(f.tasted_pairs), heat);
  out += f.self_blinded ? ", self-blinded." : f.paper_import ? ", on paper." : " without knowing which was which.";
  return out;
}

std::string level_or(const Plan& plan, ConstantKind kind, LeverKind lever, const Style& style) {
  if (plan.lever.kind == lever) return levels_joined(plan.lever, style, " or ");
  const auto* c = find_constant(plan, kind);
  if (!c || !c->target) return {};
  switch (kind) {
    case ConstantKind::leaf_dose:
    case ConstantKind::water_mass:
      return mass_text(Mass(*c->target), style);
    case ConstantKind::water_temperature:
    case ConstantKind::tasting_temperature:
      return temperature_text(Temperature(*c->target), style);
    default:
      return duration_text(Duration(*c->target), style);
  }
}

std::string text_of(const Plan& plan, ConstantKind kind) {
  const auto* c = find_constant(plan, kind);
  return c ? c->text : std::string();
}

std::string comma_joined(const std::vector<std::string>& parts) {
  std::string out;
  for (const auto& part : parts)
    if (!part.empty()) out += (out.empty() ? "" : ", ") + part;
  return out;
}

std::vector<std::string> how_we_brewed(const Plan& plan, int per_lot, const Style& style) {
  std::vector<std::string> steps;
  const std::string dose = level_or(plan, ConstantKind::leaf_dose, LeverKind::leaf_dose, style);
  const std::string water = level_or(plan, ConstantKind::water_mass, LeverKind::other, style);
  const std::string heat = level_or(plan, ConstantKind::water_temperature, LeverKind::water_temperature, style);
  const std::string steep = level_or(plan, ConstantKind::steep_time, LeverKind::steep_time, style);
  std::vector<std::string> first;
  if (!dose.empty()) first.push_back(dose + " of leaf");
  if (!water.empty())
    first.push_back(water + " of " +
                    (text_of(plan, ConstantKind::water).empty() ? "water" : text_of(plan, ConstantKind::water)));
  std::string brew = comma_joined(first);
  if (const auto vessel = comma_joined({text_of(plan, ConstantKind::vessel), text_of(plan, ConstantKind::preheat)});
      !vessel.empty())
    brew += ", in " + vessel;
  if (const auto rest = comma_joined({heat, steep, text_of(plan, ConstantKind::strainer)}); !rest.empty())
    brew += ": " + rest;
  if (!brew.empty()) steps.push_back(upper_first(brew) + ".");
  std::vector<std::string> chill{text_of(plan, ConstantKind::chill)};
  if (const auto tasted = level_or(plan, ConstantKind::tasting_temperature, LeverKind::other, style); !tasted.empty())
    chill.push_back("tasted at " + tasted);
  chill.push_back(text_of(plan, ConstantKind::eyes));
  if (const auto text = comma_joined(chill); !text.empty()) steps.push_back("All levels the same way: " + text + ".");
  steps.push_back(per_lot > 0 ? fmt::format("{} {} of each, in blind pairs, order and sides balanced.",
                                            upper_first(small_number(per_lot)), per_lot == 1 ? "brew" : "brews")
                              : "In blind pairs, order and sides balanced.");
  steps.emplace_back("Taste it yourself: the last sheet, its answer overleaf.");
  return steps;
}

std::string listed(const std::vector<std::string>& parts, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < parts.size(); ++i)
    out += (i == 0 ? "" : i + 1 == parts.size() ? std::string(last) : ", ") + parts[i];
  return out;
}

/// What one leaf did by itself on the deciding attributes: "bitterness +2.0, body +0.1".
std::string of_the_leaf(const Findings& f, Contrast c, const std::string& leaf, const Style& style) {
  std::vector<std::string> said;
  for (const auto& a : f.attributes)
    if (a.deciding && a.contrast == c)
      for (const auto& lot : a.by_lot)
        if (lot.name == leaf)
          said.push_back(lower_first(a.attribute.name) + " " + wording::estimate_text(a, lot.mean, style));
  return listed(said, ", ");
}

void the_answer(const Findings& f, const SealedPlan& plan, Contrast c, const std::string& leaf, const Style& style,
                std::vector<Block>& out) {
  const std::string high = level_text(plan.plan.lever, c.b, style), low = level_text(plan.plan.lever, c.a, style);
  out.emplace_back(Heading{"The answer", 1});
  out.emplace_back(Paragraph{"Lift the cups first. What the panel found: " + wording::headline(f, plan, style),
                             Paragraph::Tone::lead});
  if (const auto said = of_the_leaf(f, c, leaf, style); !said.empty())
    out.emplace_back(Paragraph{
        fmt::format("{} by itself, {} minus {}: {}, in points of the scale from 0 to 10.", leaf, high, low, said)});
  for (const auto& a : f.attributes) {
    if (!a.deciding || a.contrast != c || a.word == evidence::Word::noted || !a.direct) continue;
    const auto& d = *a.direct;
    out.emplace_back(Paragraph{
        fmt::format("{}, asked outright on {} tasted pairs: {} said more at {}, {} more at {}, "
                    "{} could not tell.",
                    a.attribute.name, d.less + d.cannot_tell + d.more, d.more, high, d.less, low, d.cannot_tell)});
  }
  out.emplace_back(
      Paragraph{"If you could not tell, that is an answer too: write it down with the day and your initials."});
}

void taste_it_yourself(const Findings& f, const Unmasked& unmasked, const Style& style, std::vector<Block>& out) {
  const Plan& plan = unmasked.plan().plan;
  const Contrast c = f.contrasts.empty() ? Contrast{} : f.contrasts.front();
  std::string leaf = f.lot_codes.empty() ? "the leaf" : f.lot_codes.front();
  double widest = -1;
  for (const auto& a : f.attributes)
    if (a.deciding && a.contrast == c && a.word == evidence::Word::moved)
      for (const auto& lot : a.by_lot)
        if (std::fabs(lot.mean) > widest) {
          widest = std::fabs(lot.mean);
          leaf = lot.name;
        }
  out.emplace_back(PageBreak{true});
  out.emplace_back(Heading{"Taste it yourself", 1});
  out.emplace_back(
      Paragraph{"Two cups, one difference. Brew both, chill both the same way, and let somebody else hand them to you.",
                Paragraph::Tone::lead});
  Steps steps;
  const std::string dose = level_or(plan, ConstantKind::leaf_dose, LeverKind::leaf_dose, style);
  const std::string water = level_or(plan, ConstantKind::water_mass, LeverKind::other, style);
  const std::string steep = level_or(plan, ConstantKind::steep_time, LeverKind::steep_time, style);
  steps.items.push_back(fmt::format("Two brews of {}{}.", leaf,
                                    comma_joined({dose.empty() ? "" : ": " + dose + " of leaf each",
                                                  water.empty() ? "" : water + " of water each"})));
  steps.items.push_back(fmt::format(
      "One with {}, one with {}{}.", level_text(plan.lever, c.a, style), level_text(plan.lever, c.b, style),
      steep.empty() || plan.lever.kind == LeverKind::steep_time ? "" : "; " + steep + " both, strained fully"));
  const std::string chill = text_of(plan, ConstantKind::chill);
  const std::string tasted = level_or(plan, ConstantKind::tasting_temperature, LeverKind::other, style);
  steps.items.push_back(fmt::format("Both {}{}. A cooler cup feels thicker, so do not taste one warmer than the other.",
                                    chill.empty() ? "chilled the same way" : "the same way: " + chill,
                                    tasted.empty() ? "" : ", tasted at " + tasted));
  steps.items.emplace_back("Somebody sets a sticker under one cup, turns the tray, and says nothing.");
  std::string look = "Sip one, wait until it has gone, rinse, sip the other. Ask yourself: which has more";
  std::vector<std::string> names;
  for (const auto& a : f.attributes)
    if (a.deciding && a.contrast == c) names.push_back(a.attribute.name);
  std::sort(names.begin(), names.end());
  std::string asked;
  for (std::size_t i = 0; i < names.size(); ++i) {
    asked += (i == 0 ? " " : i + 1 == names.size() ? " or " : ", ") + lower_first(names[i]);
  }
  steps.items.push_back(look + (asked.empty() ? " of anything" : asked) + "? Or can you not tell?");
  out.emplace_back(steps);
  for (const auto& text : wording::cautions(wording::Step::staff, plan, unmasked.plan().registers.lots, style))
    out.emplace_back(Paragraph{text, Paragraph::Tone::caution});
  out.emplace_back(PageBreak{});
  the_answer(f, unmasked.plan(), c, leaf, style, out);
}

/// "2 and 3 March 2026": the days on which sheets were locked.
std::string tasting_days(const Trial& trial) {
  std::map<std::int64_t, CalendarDay> locks;
  for (const auto* serving : live_servings(trial))
    if (const auto sheet = trial.sheets.find(serving->id); sheet != trial.sheets.end() && sheet->second->locked)
      locks.emplace(sheet->second->locked->utc_ms, day_of(*sheet->second->locked));
  std::vector<CalendarDay> days;
  for (const auto& [at, day] : locks)
    if (days.empty() || days.back() != day) days.push_back(day);
  std::vector<std::string> texts;
  for (const auto& day : days) {
    const bool month_follows = &day != &days.back() && day.year == days.back().year && day.month == days.back().month;
    texts.push_back(month_follows ? fmt::format("{}", day.day) : date_text(day));
  }
  if (texts.size() > 3) return texts.front() + " to " + texts.back();
  return listed(texts, " and ");
}

/// The rule as the house took it over or left it; else as it was written before tasting.
void rule_aside(const Findings& f, const SealedPlan& plan, const Trial& trial, const Style& style,
                std::vector<Block>& out) {
  const std::string found =
      f.rule ? "Written before we tasted; what we found: " + lower_first(wording::rule_outcome(*f.rule, plan, style))
             : std::string("No rule was written beforehand.");
  if (trial.rule) {
    const AdoptedRule& rule = *trial.rule;
    // An outcome that goes on to single leaves ends with their bracket.
    const std::string ended = f.rule && !f.rule->leaves.empty() ? found + "." : found;
    if (rule.left)
      out.emplace_back(
          Aside{"Not taken over: " + rule.sentence, fmt::format("{} {} left it: {}", ended, rule.who, rule.why)});
    else
      out.emplace_back(
          Aside{"House rule from " + rule.from_when,
                fmt::format("{} {} {} adopted it; {}; review {}.", rule.sentence, ended, rule.who,
                            rule.counter_checked ? "checked at the counter" : "counter check due", rule.review)});
  } else if (plan.plan.rule && f.rule) {
    out.emplace_back(Aside{"Written before tasting", wording::rule_sentence(*plan.plan.rule, plan, style) + " " +
                                                         wording::rule_outcome(*f.rule, plan, style) +
                                                         " Not yet adopted as a house rule."});
  }
}

}  // namespace

Document staff_report(const Findings& f, const Unmasked& unmasked, const ReportSettings& settings) {
  const Style& style = settings.style;
  const SealedPlan& plan = unmasked.plan();
  const Trial& trial = unmasked.trial();
  Document doc;
  doc.meta.title = fmt::format("Trial {}: {}", plan.plan.number, wording::headline(f, plan, style));
  doc.meta.house = (plan.plan.house.empty() ? "" : plan.plan.house + " · ") + "for staff";
  const std::string days = tasting_days(trial);
  doc.meta.label = fmt::format("trial {} · {}", plan.plan.number, days.empty() ? date_text(trial.unmasked->at) : days);
  doc.meta.foot = plan.paper_import
                      ? "numbers and sheets in the annex; not sealed beforehand"
                      : fmt::format("numbers, sheets and seal {} in the annex", short_digest(plan.plan_digest));
  doc.meta.program = settings.program;
  auto& out = doc.blocks;
  out.emplace_back(Heading{wording::headline(f, plan, style), 1});
  out.emplace_back(Paragraph{what_we_did(f, plan, style), Paragraph::Tone::lead});
  out.emplace_back(Rule{});
  rule_aside(f, plan, trial, style, out);
  for (const auto c : f.contrasts)
    if (const auto plot = interval_plot(f, plan, c, style)) {
      auto figure = described(*plot, drawn_levels(f, c, false, style));
      std::get<IntervalPlot>(figure.data).title = plot->title + ", with how sure we are";
      out.emplace_back(std::move(figure));
    }
  const int per_lot = f.lots > 0 && f.brew_pairs % f.lots == 0 ? f.brew_pairs / f.lots : 0;
  Columns columns;
  columns.left_title = "How we brewed";
  columns.left_steps = how_we_brewed(plan.plan, per_lot, style);
  columns.left_cautions = wording::cautions(wording::Step::staff, plan.plan, plan.registers.lots, style);
  columns.right_title = "What we do not know";
  columns.right_paragraphs = wording::unknowns(f, plan, style);
  for (const auto& effect : f.drifts)
    columns.right_paragraphs.push_back(wording::drift_text(effect.drift, effect.lot, plan, style) + ".");
  out.emplace_back(std::move(columns));
  add_annex(f, unmasked, style, out);
  taste_it_yourself(f, unmasked, style, out);
  return doc;
}

std::string findings_text(const Findings& f, const Unmasked& unmasked, const Style& style) {
  const SealedPlan& plan = unmasked.plan();
  const bool several = f.contrasts.size() > 1;
  std::string out = fmt::format("Trial {}: {}\n{}\n\n{}\n{}\n\n", plan.plan.number, plan.plan.question,
                                wording::changes_text(plan.plan.lever, style), wording::headline(f, plan, style),
                                wording::scope_sentence(f, plan, style));
  bool noted = false;
  for (const auto& a : f.attributes) {
    if (!a.deciding && !noted) {
      out += "Also noted, not decided:\n";
      noted = true;
    }
    const auto text = wording::finding_text(a, plan, style, several);
    out += fmt::format("{}{}\n    {}\n    G = {}, n = {}; {}", a.deciding ? "" : "  ", text.title, text.sentence,
                       a.brew_pairs, a.tasted_pairs, a.method);
    if (a.p_moved) out += fmt::format("; p moved {}", p_text(*a.p_moved, style));
    if (a.p_moved_holm) out += fmt::format(" (Holm {})", p_text(*a.p_moved_holm, style));
    if (a.p_held) out += fmt::format("; p held {}", p_text(*a.p_held, style));
    if (a.p_held_holm) out += fmt::format(" (Holm {})", p_text(*a.p_held_holm, style));
    out += ".\n";
  }
  if (plan.plan.rule && f.rule)
    out += fmt::format("\nWritten before tasting: {}\n    {}\n", wording::rule_sentence(*plan.plan.rule, plan, style),
                       wording::rule_outcome(*f.rule, plan, style));
  out += "\nWhy believe it:\n";
  for (const auto& r : wording::reasons(f, unmasked, style))
    out += fmt::format("  {}{}: {}\n", r.amber ? "! " : "", r.title, r.text);
  return out;
}

}  // namespace likeleaf::report
