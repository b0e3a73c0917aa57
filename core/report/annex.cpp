#include "core/report/annex.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/acts/agreed_words.h"
#include "core/base/number_text.h"
#include "core/domain/asked.h"
#include "core/report/views.h"
#include "core/wording/attribute_text.h"
#include "core/wording/findings_text.h"
#include "core/wording/plan_text.h"
#include "core/wording/reasons.h"

namespace likeleaf::report {
namespace {

using evidence::Findings;

/// With one contrast a column that says the same in every row is left out.
Table without_contrast(Table table, const Findings& f) {
  if (f.contrasts.size() != 1) return table;
  const auto found = std::find(table.columns.begin(), table.columns.end(), "Contrast");
  if (found == table.columns.end()) return table;
  const auto at = found - table.columns.begin();
  table.columns.erase(found);
  table.numeric.erase(table.numeric.begin() + at);
  for (auto& row : table.rows) row.erase(row.begin() + at);
  return table;
}

Table numbers_table(const Findings& f, const SealedPlan& plan, const Style& style) {
  Table t;
  t.caption = "n counts tasted pairs, G brew pairs; p by the method named; Holm over the deciding attributes.";
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
  if (!t.rows.empty()) out.emplace_back(without_contrast(std::move(t), f));
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
    const auto count = static_cast<std::size_t>(infusion_count(unmasked.plan().plan, *b));
    for (std::size_t i = 0; i < count; ++i) {
      const std::string sep = i == 0 ? "" : "; ";
      if (i == 0) water = pour = steep = "";
      const Infusion in = i < b->infusions.size() ? b->infusions[i] : Infusion{};
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

}  // namespace

void add_annex(const Findings& f, const Unmasked& unmasked, const Style& style, std::vector<Block>& out) {
  const SealedPlan& plan = unmasked.plan();
  out.emplace_back(PageBreak{});
  out.emplace_back(Heading{"Annex: the numbers", 1});
  out.emplace_back(Paragraph{wording::scope_sentence(f, plan, style), Paragraph::Tone::plain});
  out.emplace_back(Heading{"Why believe it", 2});
  for (const auto& r : wording::reasons(f, unmasked, style))
    out.emplace_back(Paragraph{r.title + ": " + r.text, r.amber ? Paragraph::Tone::caution : Paragraph::Tone::plain});
  out.emplace_back(Heading{"All attributes", 2});
  out.emplace_back(without_contrast(numbers_table(f, plan, style), f));
  for (const auto c : f.contrasts) {
    if (const auto ratio = ratio_plot(f, plan, c, style))
      out.emplace_back(described(*ratio, "Finish length as a ratio of times. " + drawn_levels(f, c, true, style)));
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
  out.emplace_back(without_contrast(parts_table(f, plan, style, true), f));
  out.emplace_back(without_contrast(parts_table(f, plan, style, false), f));
  direct_table(f, plan, style, out);
  out.emplace_back(without_contrast(checks_table(f, plan, style), f));
  out.emplace_back(Heading{"Records", 2});
  if (const std::string words = agreed_words(unmasked.trial()); !words.empty())
    out.emplace_back(Paragraph{"Agreed in the open before the first sitting: " + words});
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

}  // namespace likeleaf::report
