#include "core/exchange/findings_json.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <nlohmann/json.hpp>

#include "core/base/number_text.h"
#include "core/wording/attribute_text.h"
#include "core/wording/findings_text.h"
#include "core/wording/lever_text.h"
#include "core/wording/plan_text.h"
#include "core/wording/reasons.h"
#include "core/wording/rule_text.h"

namespace likeleaf::exchange {
namespace {

using nlohmann::json;
using namespace evidence;

// Rounded to 12 significant digits, so that machines whose last bit differs print the same file.
json number(double v) {
  const std::string digits = fmt::format("{:.12g}", v);
  double rounded = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), rounded);
  return rounded;
}

void put(json& to, const char* key, const std::optional<double>& v) {
  if (v && std::isfinite(*v)) to[key] = number(*v);
}
void put(json& to, const char* key, const std::optional<int>& v) {
  if (v) to[key] = *v;
}
void put(json& to, const char* key, const std::optional<Interval>& v) {
  if (v) to[key] = {{"low", number(v->low)}, {"high", number(v->high)}, {"level", number(v->level)}};
}

const char* word_name(Word w) {
  switch (w) {
    case Word::moved:
      return "moved";
    case Word::held:
      return "held";
    case Word::depends:
      return "depends";
    case Word::open:
      return "open";
    case Word::noted:
      break;
  }
  return "noted";
}

const char* engine_name(Engine e) {
  return e == Engine::exact ? "exact" : e == Engine::t ? "t" : "describe";
}

const char* reason_name(OpenReason r) {
  static constexpr const char* names[] = {"none",      "not_shown", "nothing_left",  "too_faint",       "too_strong",
                                          "no_spread", "cut_off",   "cannot_decide", "order_confounded"};
  return names[static_cast<std::size_t>(r)];
}

const char* outcome_name(AttributeFinding::Outcome o) {
  static constexpr const char* names[] = {"none", "as_expected", "opposite", "not_settled"};
  return names[static_cast<std::size_t>(o)];
}

const char* met_name(ClauseOutcome::Met m) {
  return m == ClauseOutcome::Met::met ? "met" : m == ClauseOutcome::Met::not_met ? "not_met" : "cannot_say";
}

json parts(const std::vector<PartEstimate>& list) {
  json out = json::array();
  for (const auto& p : list) {
    json one{{"name", p.name},
             {"brew_pairs", p.brew_pairs},
             {"tasted_pairs", p.tasted_pairs},
             {"mean", number(p.mean)},
             {"shrunken", number(p.shrunken)}};
    put(one, "interval", p.interval);
    out.push_back(one);
  }
  return out;
}

json attribution(const Attribution& a) {
  json out{{"asked", a.asked}, {"shown", a.shown}, {"names", a.names}};
  put(out, "p", a.p);
  return out;
}

json checks(const AnnexChecks& c) {
  json out{{"positive", c.positive}, {"zero", c.zero}, {"negative", c.negative}};
  put(out, "other_engine_p", c.other_engine_p);
  put(out, "other_engine_interval", c.other_engine_interval);
  put(out, "other_engine_held_p", c.other_engine_held_p);
  put(out, "signed_rank_pratt_p", c.signed_rank_p);
  put(out, "signed_rank_dropped_p", c.signed_rank_dropped_p);
  put(out, "hodges_lehmann", c.hodges_lehmann);
  put(out, "hodges_lehmann_interval", c.hodges_lehmann_interval);
  put(out, "sign_test_p", c.sign_test_p);
  put(out, "share_positive", c.share_positive);
  return out;
}

json attribute(const AttributeFinding& f, const SealedPlan& plan, bool several) {
  const Style style;
  const auto text = wording::finding_text(f, plan, style, several);
  json out{{"attribute", f.attribute.id},
           {"scale", f.attribute.scale == Scale::seconds ? "log_ratio" : "points"},
           {"a", level_text(plan.plan.lever, f.contrast.a, style)},
           {"b", level_text(plan.plan.lever, f.contrast.b, style)},
           {"deciding", f.deciding},
           {"margin", number(f.margin)},
           {"brew_pairs", f.brew_pairs},
           {"tasted_pairs", f.tasted_pairs},
           {"estimate", number(f.estimate)},
           {"engine", engine_name(f.engine)},
           {"method", f.method},
           {"word", word_name(f.word)},
           {"title", text.title},
           {"sentence", text.sentence},
           {"enough_to_matter", f.enough_to_matter},
           {"small_real_shift", f.small_real_shift},
           {"sensitivity_shown", f.sensitivity_shown},
           {"open_reason", reason_name(f.open_reason)},
           {"not_worth_it", f.not_worth_it},
           {"expected_outcome", outcome_name(f.outcome)},
           {"missing", f.missing},
           {"cut_off", f.cut_off},
           {"out_of_range_share", number(f.out_of_range_share)},
           {"lots_unlike", attribution(f.lots)},
           {"assessors_unlike", attribution(f.assessors)},
           {"by_lot", parts(f.by_lot)},
           {"by_assessor", parts(f.by_assessor)},
           {"checks", checks(f.checks)}};
  put(out, "se", f.se);
  put(out, "sd_brew_pairs", f.sd_brew_pairs);
  put(out, "df", f.df);
  put(out, "interval", f.interval);
  put(out, "interval_95", f.interval_95);
  put(out, "p_moved", f.p_moved);
  put(out, "p_moved_holm", f.p_moved_holm);
  put(out, "alpha_moved", f.alpha_moved);
  put(out, "p_held", f.p_held);
  put(out, "p_held_holm", f.p_held_holm);
  put(out, "alpha_held", f.alpha_held);
  put(out, "pairs_if_seen", f.pairs_if_seen);
  put(out, "pairs_if_margin", f.pairs_if_margin);
  put(out, "pairs_to_hold", f.pairs_to_hold);
  put(out, "lean", f.lean);
  put(out, "lean_interval", f.lean_interval);
  put(out, "estimate_with_late_exclusions", f.estimate_with_late_exclusions);
  put(out, "mean_a", f.mean_a);
  put(out, "mean_b", f.mean_b);
  if (f.direct) {
    json d{{"less", f.direct->less},
           {"cannot_tell", f.direct->cannot_tell},
           {"more", f.direct->more},
           {"engine", engine_name(f.direct->engine)}};
    put(d, "p", f.direct->p);
    put(d, "tau", f.direct->tau);
    put(d, "d_prime", f.direct->d_prime);
    put(d, "p_independent", f.direct->p_independent);
    out["direct"] = d;
  }
  return out;
}

json controls(const Findings& f) {
  json out{{"blanks", json::array()}, {"yardsticks", json::array()}, {"repeats", json::array()}};
  for (const auto& b : f.blanks)
    out["blanks"].push_back({{"attribute", b.attribute},
                             {"sheets", b.sheets},
                             {"mean_abs", number(b.mean_abs)},
                             {"largest", number(b.largest)},
                             {"at_least_margin", b.at_least_margin},
                             {"share_low", number(b.share.low)},
                             {"share_high", number(b.share.high)},
                             {"too_few", b.too_few}});
  for (const auto& y : f.yardsticks) {
    json one{{"attribute", y.attribute}, {"lot", y.lot},           {"dilution_percent", number(y.dilution_percent)},
             {"sheets", y.sheets},       {"mean", number(y.mean)}, {"noticed", y.noticed}};
    put(one, "interval", y.interval);
    out["yardsticks"].push_back(one);
  }
  for (const auto& r : f.repeats)
    out["repeats"].push_back({{"attribute", r.attribute},
                              {"pairs", r.pairs},
                              {"mean_abs", number(r.mean_abs)},
                              {"largest", number(r.largest)}});
  return out;
}

}  // namespace

std::string findings_json(const Findings& f, const Unmasked& unmasked) {
  const SealedPlan& plan = unmasked.plan();
  const Style style;
  const bool several = f.contrasts.size() > 1;
  json out{{"format", "likeleaf-findings"},
           {"version", 1},
           {"trial", plan.plan.id.text()},
           {"number", plan.plan.number},
           {"question", plan.plan.question},
           {"changes", wording::changes_text(plan.plan.lever, style)},
           {"headline", wording::headline(f, plan, style)},
           {"scope", wording::scope_sentence(f, plan, style)},
           {"brew_pairs", f.brew_pairs},
           {"tasted_pairs", f.tasted_pairs},
           {"lots", f.lot_codes},
           {"assessors", f.assessor_aliases},
           {"sheets", f.sheets},
           {"counted_sheets", f.counted_sheets},
           {"excluded_before", f.excluded_before},
           {"excluded_after", f.excluded_after},
           {"amended", f.amended},
           {"voided", f.voided},
           {"self_blinded", f.self_blinded},
           {"paper_import", f.paper_import},
           {"controls", controls(f)},
           {"attributes", json::array()},
           {"reasons", json::array()}};
  put(out, "lean", f.lean);
  if (f.tasting_temperature) out["tasted_at_milli_celsius"] = f.tasting_temperature->milli_celsius();
  for (const auto& a : f.attributes) out["attributes"].push_back(attribute(a, plan, several));
  for (const auto& r : wording::reasons(f, unmasked, style))
    out["reasons"].push_back({{"title", r.title}, {"text", r.text}, {"caution", r.amber}});
  if (f.rule && plan.plan.rule) {
    json rule{{"sentence", wording::rule_sentence(*plan.plan.rule, plan, style)},
              {"met", met_name(f.rule->met)},
              {"clauses", json::array()},
              {"leaves", json::array()}};
    for (const auto& c : f.rule->clauses)
      rule["clauses"].push_back({{"attribute", c.clause.attribute}, {"met", met_name(c.met)}});
    for (const auto& l : f.rule->leaves)
      rule["leaves"].push_back({{"lot", l.lot}, {"attribute", l.attribute}, {"estimate", number(l.estimate)}});
    out["rule"] = rule;
  }
  json guesses{{"sheets", f.guesses.sheets},
               {"saw_difference", f.guesses.saw_difference},
               {"guessed", f.guesses.guessed},
               {"right", f.guesses.right},
               {"possibly_unblinded", f.guesses.possibly_unblinded}};
  put(guesses, "p", f.guesses.p);
  out["guesses"] = guesses;
  json digests{{"plan", plan.plan_digest.hex()}, {"key", plan.key_digest.hex()}};
  if (unmasked.trial().unmasked) digests["sheets"] = unmasked.trial().unmasked->sheets_digest.hex();
  out["digests"] = digests;
  return out.dump(1) + "\n";
}

}  // namespace likeleaf::exchange
