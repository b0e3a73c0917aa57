#include "core/report/staff_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "core/base/number_text.h"
#include "core/domain/seal.h"
#include "core/wording/cautions.h"
#include "core/wording/sentences.h"

namespace likeleaf::report {
namespace {

using evidence::AttributeFinding;
using evidence::Engine;
using evidence::Findings;

std::string small_number(int n) {
  static constexpr const char* words[] = {"no",    "one",   "two",  "three", "four",   "five",  "six",
                                          "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return n >= 0 && n <= 12 ? words[n] : std::to_string(n);
}

std::string upper_first(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string lower_first(std::string text) {
  if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

const Constant* constant(const Plan& plan, ConstantKind kind) {
  for (const auto& c : plan.constants)
    if (c.kind == kind) return &c;
  return nullptr;
}

std::string short_digest(const Digest& digest) {
  const std::string hex = digest.hex();
  return hex.substr(0, 4) + "…" + hex.substr(hex.size() - 2);
}

std::string levels_joined(const Lever& lever, const Style& style, std::string_view last) {
  std::string out;
  for (std::size_t i = 0; i < lever.levels.size(); ++i) {
    out += i == 0 ? "" : i + 1 == lever.levels.size() ? std::string(last) : ", ";
    out += level_text(lever, i, style);
    if (lever.levels[i].present_way) out += " as now";
  }
  return out;
}

std::string what_we_did(const Findings& f, const SealedPlan& plan, const Style& style) {
  const int per_lot = f.lots > 0 ? f.brew_pairs / f.lots : 0;
  std::string out = fmt::format("We brewed {} {}", small_number(f.lots), f.lots == 1 ? "leaf" : "leaves");
  if (per_lot > 0 && per_lot * f.lots == f.brew_pairs)
    out += per_lot == 1 ? ", once each way" : fmt::format(", {} times each way", small_number(per_lot));
  std::string lever =
      plan.plan.lever.kind == LeverKind::other ? plan.plan.lever.name : lever_name(plan.plan.lever.kind);
  out += fmt::format(", alike but for the {}: {}. ", lever, levels_joined(plan.plan.lever, style, ", and "));
  const std::string heat = f.tasting_temperature ? " at " + temperature_text(*f.tasting_temperature, style) : "";
  if (f.assessors == 1)
    out += fmt::format("One taster tasted {} pairs{}", f.tasted_pairs, heat);
  else
    out +=
        fmt::format("{} of us tasted {} pairs in all{}", upper_first(small_number(f.assessors)), f.tasted_pairs, heat);
  out += f.self_blinded ? ", self-blinded." : f.paper_import ? ", on paper." : " without knowing which was which.";
  return out;
}

std::string level_or(const Plan& plan, ConstantKind kind, LeverKind lever, const Style& style) {
  if (plan.lever.kind == lever) return levels_joined(plan.lever, style, " or ");
  const auto* c = constant(plan, kind);
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
  const auto* c = constant(plan, kind);
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
  steps.push_back(per_lot > 0 ? fmt::format("{} brews of each, in blind pairs, order and sides balanced.",
                                            upper_first(small_number(per_lot)))
                              : "In blind pairs, order and sides balanced.");
  steps.emplace_back("Taste it yourself: the next page, its answer overleaf.");
  return steps;
}

Figure figure_of(const IntervalPlot& plot, const std::string& caption) {
  std::string alt = plot.title + ". ";
  for (const auto& row : plot.rows) alt += row.said + " ";
  return {plot, caption, alt};
}

std::string drawn_levels(const Findings& f, Contrast contrast, const Style& style) {
  std::set<std::string> levels;
  for (const auto& a : f.attributes)
    if (a.contrast == contrast && a.deciding && a.interval)
      levels.insert(number_text(a.interval->level * 100, 1, style));
  std::string out;
  for (const auto& level : levels) out += (out.empty() ? "" : ", ") + level;
  if (out.empty()) return "Lines: 95" + std::string(no_break_space) + "% intervals. Band: the margin.";
  return fmt::format(
      "Deciding attributes are drawn at the level at which each was decided ({}{}%), also noted ones at 95{}%. Band: "
      "the margin.",
      out, no_break_space, no_break_space);
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
  out.emplace_back(PageBreak{});
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
  out.emplace_back(Heading{"The answer", 2});
  out.emplace_back(
      Paragraph{"Lift the cups first. What the panel found: " + wording::headline(f, unmasked.plan(), style)});
}

Table numbers_table(const Findings& f, const SealedPlan& plan, const Style& style) {
  Table t;
  t.caption =
      "All attributes. n counts tasted pairs, G brew pairs; p by the method named; Holm over the deciding attributes.";
  t.columns = {"Attribute", "Contrast", "Word", "Difference", "Range", "Level", "G",
               "n",         "p moved",  "Holm", "p held",     "Holm",  "Method"};
  t.numeric = {false, false, false, true, false, true, true, true, true, true, true, true, false};
  const auto p = [&](const std::optional<double>& v) { return v ? p_text(*v, style) : std::string("–"); };
  for (const auto& a : f.attributes)
    t.rows.push_back({a.attribute.name, wording::contrast_text(plan.plan.lever, a.contrast, style),
                      a.deciding ? wording::word_text(a) : "also noted",
                      a.brew_pairs == 0 ? "–" : wording::estimate_text(a, a.estimate, style),
                      a.interval ? wording::interval_text(a, *a.interval, style) : "–",
                      a.interval ? number_text(a.interval->level * 100, 1, style) + no_break_space + "%" : "–",
                      std::to_string(a.brew_pairs), std::to_string(a.tasted_pairs), p(a.p_moved), p(a.p_moved_holm),
                      p(a.p_held), p(a.p_held_holm), a.method});
  return t;
}

Table checks_table(const Findings& f, const SealedPlan& plan, const Style& style) {
  Table t;
  t.caption = "Checks on the brew pairs’ differences. They decide nothing.";
  t.columns = {"Attribute",      "Contrast",    "Other method p", "Signed rank p (Pratt; dropped)",
               "Hodges–Lehmann", "Sign test p", "Up, same, down", "Share up, 95 %"};
  t.columns.back() = std::string("Share up, 95") + no_break_space + "%";
  t.numeric = {false, false, true, true, false, true, true, false};
  for (const auto& a : f.attributes) {
    const auto& c = a.checks;
    const auto p = [&](const std::optional<double>& v) { return v ? p_text(*v, style) : std::string("–"); };
    std::string hl = c.hodges_lehmann ? wording::estimate_text(a, *c.hodges_lehmann, style) : "–";
    if (c.hodges_lehmann_interval) hl += " (" + wording::interval_text(a, *c.hodges_lehmann_interval, style) + ")";
    t.rows.push_back({a.attribute.name, wording::contrast_text(plan.plan.lever, a.contrast, style), p(c.other_engine_p),
                      p(c.signed_rank_p) + "; " + p(c.signed_rank_dropped_p), hl, p(c.sign_test_p),
                      fmt::format("{}, {}, {}", c.positive, c.zero, c.negative),
                      c.share_positive
                          ? fmt::format("{} to {}{}%", number_text(c.share_positive->low * 100, 0, style),
                                        number_text(c.share_positive->high * 100, 0, style), no_break_space)
                          : "–"});
  }
  return t;
}

Table parts_table(const Findings& f, const SealedPlan& plan, const Style& style, bool lots) {
  Table t;
  t.caption = lots ? "By leaf: mean difference, its 95 % interval, and the estimate drawn towards the overall one."
                   : "By taster: to help a taster, never a ranking.";
  t.columns = {"Attribute", "Contrast", lots ? "Leaf" : "Taster", "Brew pairs", "n", "Mean", "95 % range",
               "Drawn in",  "Unlike: p"};
  t.numeric = {false, false, false, true, true, true, false, true, true};
  for (const auto& a : f.attributes)
    for (const auto& part : lots ? a.by_lot : a.by_assessor) {
      const auto& unlike = lots ? a.lots : a.assessors;
      t.rows.push_back({a.attribute.name, wording::contrast_text(plan.plan.lever, a.contrast, style), part.name,
                        std::to_string(part.brew_pairs), std::to_string(part.tasted_pairs),
                        wording::estimate_text(a, part.mean, style),
                        part.interval ? wording::interval_text(a, *part.interval, style) : "–",
                        wording::estimate_text(a, part.shrunken, style), unlike.p ? p_text(*unlike.p, style) : "–"});
    }
  return t;
}

void direct_table(const Findings& f, const SealedPlan& plan, const Style& style, std::vector<Block>& out) {
  Table t;
  t.caption =
      "Direct answers of the comparing sip. p by the same method as the scores; d′ as if answers were independent.";
  t.columns = {"Attribute", "Contrast", "Less", "Can’t tell", "More", "p", "d′", "p if independent"};
  t.numeric = {false, false, true, true, true, true, true, true};
  for (const auto& a : f.attributes)
    if (a.direct)
      t.rows.push_back({a.attribute.name, wording::contrast_text(plan.plan.lever, a.contrast, style),
                        std::to_string(a.direct->less), std::to_string(a.direct->cannot_tell),
                        std::to_string(a.direct->more), a.direct->p ? p_text(*a.direct->p, style) : "–",
                        a.direct->d_prime ? signed_text(*a.direct->d_prime, 2, style) : "–",
                        a.direct->p_independent ? p_text(*a.direct->p_independent, style) : "–"});
  if (!t.rows.empty()) out.emplace_back(t);
}

void record_tables(const Unmasked& unmasked, const Style& style, std::vector<Block>& out) {
  const Trial& trial = unmasked.trial();
  const auto lot_code = [&](IdOf<Lot> id) {
    const auto* lot = find_record(unmasked.plan().registers.lots, id);
    return lot ? lot->code : std::string("–");
  };
  const auto alias_of = [&](IdOf<Serving> id) {
    for (const auto& p : unmasked.pairings())
      if (p.serving == id) {
        const auto* who = find_record(unmasked.plan().registers.assessors, p.assessor);
        return fmt::format("{}, sitting {}, place {}", who ? who->alias : "–", p.sitting, p.place);
      }
    return std::string("–");
  };
  if (!trial.voids.empty()) {
    Table t{"Voided pairs.", {"Leaf", "Who", "When", "Why"}, {}, {}};
    for (const auto& v : trial.voids) {
      const auto pair = resolve_pair(trial, v.pair);
      t.rows.push_back({pair ? fmt::format("{}, brew pair {}", lot_code(pair->lot), pair->set) : "–", v.who,
                        date_text(v.at) + " " + clock_text(v.at), v.why});
    }
    out.emplace_back(t);
  }
  if (!trial.amendments.empty()) {
    Table t{"Amended after lock.", {"Where", "Field", "Old", "New", "Who", "When", "Why"}, {}, {}};
    for (const auto& a : trial.amendments) {
      const bool sheet = a.target == Amendment::Target::sheet_mark || a.target == Amendment::Target::sheet_direct;
      const auto brew = trial.brews.find(a.brew);
      t.rows.push_back({sheet                       ? alias_of(a.serving)
                        : brew != trial.brews.end() ? fmt::format("brew {}", brew->second->number)
                                                    : "plan",
                        a.field, a.old_value, a.new_value, a.who, date_text(a.at) + " " + clock_text(a.at), a.why});
    }
    out.emplace_back(t);
  }
  if (!trial.exclusions.empty()) {
    Table t{"Excluded sheets; they stay in the book.", {"Sheet", "Who", "When", "Why"}, {}, {}};
    for (const auto& e : trial.exclusions)
      t.rows.push_back({alias_of(e.serving), e.who, date_text(e.at) + " " + clock_text(e.at), e.why});
    out.emplace_back(t);
  }
  Table brews{"What was brewed.",
              {"Brew", "Leaf", "Level", "Brew pair", "Leaf mass", "Water", "Poured at", "Steep"},
              {true, false, true, true, true, true, true, true},
              {}};
  std::vector<const Brew*> ordered;
  for (const auto& [id, brew] : trial.brews) ordered.push_back(brew.get());
  std::sort(ordered.begin(), ordered.end(), [](const Brew* a, const Brew* b) { return a->number < b->number; });
  for (const auto* b : ordered) {
    std::string water = "–", pour = "–", steep = "–";
    for (std::size_t i = 0; i < b->infusions.size(); ++i) {
      const std::string sep = i == 0 ? "" : "; ";
      if (i == 0) water = pour = steep = "";
      const auto& in = b->infusions[i];
      water += sep + (in.water ? mass_text(*in.water, style) : "–");
      pour += sep + (in.pour ? temperature_text(*in.pour, style) : "–");
      const auto contact = contact_time(*b, static_cast<int>(i) + 1);
      steep += sep + (contact ? duration_text(*contact, style) : "–");
    }
    brews.rows.push_back({std::to_string(b->number), lot_code(b->lot),
                          level_text(unmasked.plan().plan.lever, b->level, style),
                          b->set > 0 ? std::to_string(b->set) : "control", b->leaf ? mass_text(*b->leaf, style) : "–",
                          water, pour, steep});
  }
  if (!brews.rows.empty()) out.emplace_back(brews);
}

void annex(const Findings& f, const Unmasked& unmasked, const Style& style, std::vector<Block>& out) {
  const SealedPlan& plan = unmasked.plan();
  out.emplace_back(PageBreak{});
  out.emplace_back(Heading{"Annex: the numbers", 1});
  out.emplace_back(Paragraph{wording::scope_sentence(f, plan, style), Paragraph::Tone::plain});
  out.emplace_back(Heading{"Why believe it", 2});
  for (const auto& r : wording::reasons(f, unmasked, style))
    out.emplace_back(Paragraph{r.title + ": " + r.text, r.amber ? Paragraph::Tone::caution : Paragraph::Tone::plain});
  out.emplace_back(Heading{"All attributes", 2});
  out.emplace_back(numbers_table(f, plan, style));
  for (const auto c : f.contrasts) {
    if (const auto ratio = ratio_plot(f, plan, c, style))
      out.emplace_back(figure_of(*ratio, "Finish length as a ratio of times. Line: " + drawn_levels(f, c, style)));
    if (const auto bands = register_plot(unmasked, c, style)) {
      std::string alt = bands->title + ".";
      for (const auto& row : bands->rows)
        alt += fmt::format(" {}: {} at {}, {} at {}.", row.label, number_text(row.a, 1, style), bands->a_label,
                           number_text(row.b, 1, style), bands->b_label);
      out.emplace_back(Figure{*bands, "Means over the tasted pairs.", alt});
    }
  }
  for (const auto& a : f.attributes)
    if (a.deciding)
      if (const auto paired = paired_plot(a, plan, style)) {
        std::string alt = paired->title + ".";
        for (const auto& row : paired->rows)
          alt += fmt::format(" {}: {} and {}.", row.label, number_text(row.a, 1, style), number_text(row.b, 1, style));
        out.emplace_back(Figure{*paired, "Each row one brew pair: mean of its tasters’ scores at both levels.", alt});
      }
  out.emplace_back(Heading{"Breakdown", 2});
  out.emplace_back(parts_table(f, plan, style, true));
  out.emplace_back(parts_table(f, plan, style, false));
  direct_table(f, plan, style, out);
  out.emplace_back(checks_table(f, plan, style));
  out.emplace_back(Heading{"Records", 2});
  record_tables(unmasked, style, out);
  out.emplace_back(Heading{"Seal", 2});
  if (plan.paper_import) {
    out.emplace_back(Paragraph{"Read from paper tables after the fact: no plan, key or sheet was sealed beforehand."});
  } else {
    const auto& mask = *unmasked.trial().unmasked;
    Table t{"SHA-256 of the canonical texts. They prove tampering only against a printed copy.",
            {"What", "Digest", "As sealed"},
            {},
            {}};
    t.rows.push_back({"Plan", plan.plan_digest.hex(), mask.plan_intact ? "yes" : "no"});
    t.rows.push_back({"Key", plan.key_digest.hex(), mask.key_intact ? "yes" : "no"});
    t.rows.push_back({"Sheets", mask.sheets_digest.hex(), mask.sheets_intact ? "yes" : "no"});
    out.emplace_back(t);
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
  doc.meta.label = fmt::format("trial {} · {}", plan.plan.number, date_text(trial.unmasked->at));
  doc.meta.foot = plan.paper_import
                      ? "numbers and sheets in the annex; not sealed beforehand"
                      : fmt::format("numbers, sheets and seal {} in the annex", short_digest(plan.plan_digest));
  doc.meta.program = settings.program;
  auto& out = doc.blocks;
  out.emplace_back(Heading{wording::headline(f, plan, style), 1});
  out.emplace_back(Paragraph{what_we_did(f, plan, style), Paragraph::Tone::lead});
  out.emplace_back(Rule{});
  if (trial.rule) {
    std::string text = trial.rule->sentence;
    if (f.rule)
      text += " Written before we tasted; what we found: " + lower_first(wording::rule_outcome(*f.rule, plan, style));
    else
      text += " Adopted without a rule written beforehand";
    if (text.ends_with(".")) text.pop_back();
    text +=
        fmt::format(". {} adopted it; {}; review {}.", trial.rule->who,
                    trial.rule->counter_checked ? "checked at the counter" : "counter check due", trial.rule->review);
    out.emplace_back(Aside{"House rule from " + trial.rule->from_when, text});
  } else if (plan.plan.rule && f.rule) {
    out.emplace_back(Aside{"Written before tasting", wording::rule_sentence(*plan.plan.rule, plan, style) + " " +
                                                         wording::rule_outcome(*f.rule, plan, style) +
                                                         " Not yet adopted as a house rule."});
  }
  for (const auto c : f.contrasts)
    if (const auto plot = interval_plot(f, plan, c, style)) {
      auto figure = figure_of(*plot, drawn_levels(f, c, style));
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
  taste_it_yourself(f, unmasked, style, out);
  annex(f, unmasked, style, out);
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
