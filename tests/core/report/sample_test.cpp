// The verdicts on the three sample trials, and what the report says of them. The samples are invented, with true
// effects stated in sample_sessions/make/make_samples.cpp.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <stdexcept>

#include "core/base/embedded.h"
#include "core/evidence/find.h"
#include "core/exchange/bundle_read.h"
#include "core/report/document_json.h"
#include "core/report/staff_report.h"
#include "core/wording/findings_text.h"

namespace likeleaf {
namespace {

struct Sample {
  Unmasked unmasked;
  evidence::Findings findings;
};

Sample sample(const std::string& name) {
  const auto import = exchange::read_bundle(*embedded("sample_sessions/" + name), name);
  EXPECT_TRUE(import) << (import ? "" : import.error().where + " " + import.error().field);
  auto unmasked = open_unmasked(std::make_shared<const Trial>(import->trial));
  EXPECT_TRUE(unmasked);
  auto findings = evidence::find(*unmasked);
  EXPECT_TRUE(findings);
  return {std::move(*unmasked), std::move(*findings)};
}

const evidence::AttributeFinding& of(const evidence::Findings& f, const std::string& attribute,
                                     std::size_t contrast = 0) {
  for (const auto& a : f.attributes)
    if (a.attribute.id == attribute && a.contrast == f.contrasts.at(contrast)) return a;
  throw std::runtime_error("no " + attribute);
}

// k = 3 deciding attributes, margin 1 point each, alpha 0.05, nine brew pairs.
TEST(Sample, trial_14_gives_moved_enough_held_and_open) {
  const auto s = sample("trial-14.json");
  const auto& f = s.findings;
  EXPECT_EQ(f.brew_pairs, 9);
  EXPECT_EQ(f.tasted_pairs, 36);
  EXPECT_EQ(f.lots, 3);
  EXPECT_EQ(f.assessors, 4);
  EXPECT_EQ(f.voided, 1);
  EXPECT_EQ(f.amended, 1);
  ASSERT_EQ(f.drifts.size(), 1u);
  EXPECT_EQ(f.drifts[0].lot, "L-12");
  EXPECT_EQ(f.drifts[0].drift.set, 2);
  EXPECT_EQ(f.drifts[0].drift.actual, 50'000);
  EXPECT_EQ(of(f, "bitterness").engine, evidence::Engine::exact);
  EXPECT_EQ(of(f, "bitterness").word, evidence::Word::moved);
  EXPECT_TRUE(of(f, "bitterness").enough_to_matter);
  EXPECT_EQ(of(f, "body").word, evidence::Word::held);
  EXPECT_EQ(of(f, "sweetness").word, evidence::Word::open);
  EXPECT_EQ(of(f, "astringency").word, evidence::Word::noted);
  ASSERT_TRUE(f.rule);
  EXPECT_EQ(f.rule->met, evidence::ClauseOutcome::Met::met);
  EXPECT_EQ(wording::headline(f, s.unmasked.plan(), {}), "More bitter at 88\u00A0°C. Body holds. Sweetness is open.");
}

// One leaf, four brew sets, two tasters; two contrasts against 45 s, each with k = 2: Holm over four.
TEST(Sample, trial_15_is_judged_contrast_by_contrast_against_the_reference) {
  const auto s = sample("trial-15.json");
  ASSERT_EQ(s.findings.contrasts.size(), 2u);
  for (const auto& c : s.findings.contrasts) EXPECT_TRUE(c.a == 1 || c.b == 1) << "45 s is the reference";
  for (std::size_t c = 0; c < 2; ++c) {
    const auto& bitterness = of(s.findings, "bitterness", c);
    EXPECT_EQ(bitterness.brew_pairs, 4);
    EXPECT_EQ(bitterness.engine, evidence::Engine::t) << "four brew pairs cannot reach 0.05 exactly";
    EXPECT_NE(bitterness.word, evidence::Word::noted);
    ASSERT_TRUE(bitterness.p_moved_holm && bitterness.p_moved);
    EXPECT_GE(*bitterness.p_moved_holm, *bitterness.p_moved);
  }
}

TEST(Sample, trial_16_is_one_self_blinded_taster) {
  const auto s = sample("trial-16.json");
  EXPECT_TRUE(s.findings.self_blinded);
  EXPECT_EQ(s.findings.assessors, 1);
  EXPECT_EQ(of(s.findings, "body").brew_pairs, 6);
  EXPECT_FALSE(of(s.findings, "body").both_orders) << "one taster sips each brew pair in one order";
  EXPECT_EQ(of(s.findings, "body").engine, evidence::Engine::t);
  EXPECT_NE(wording::scope_sentence(s.findings, s.unmasked.plan(), {}).find("Self-blinded"), std::string::npos);
}

TEST(StaffReport, says_answer_rule_recipe_doubts_and_all_three_digests) {
  const auto s = sample("trial-14.json");
  const auto doc = report::staff_report(s.findings, s.unmasked, {});
  const std::string text = report::to_text(doc);
  for (const std::string& wanted :
       {std::string("More bitter at 88\u00A0°C"), std::string("House rule from 5 March 2026"),
        std::string("How we brewed"), std::string("What we do not know"), std::string("Taste it yourself"),
        std::string("scalds"), std::string("The answer"), std::string("Voided pairs"),
        std::string("Amended after lock"),
        std::string("Agreed in the open before the first sitting: body is how thick"),
        s.unmasked.plan().plan_digest.hex(), s.unmasked.plan().key_digest.hex(),
        s.unmasked.trial().unmasked->sheets_digest.hex()})
    EXPECT_NE(text.find(wanted), std::string::npos) << wanted;
  // The answer to "taste it yourself" is on a page after the invitation.
  const auto invitation = text.find("Two cups, one difference"), turn = text.find('\f', invitation),
             answer = text.find("Lift the cups first");
  EXPECT_LT(invitation, turn);
  EXPECT_LT(turn, answer);
  // The headline answers in attribute names, not in the question's words.
  EXPECT_EQ(wording::headline(s.findings, s.unmasked.plan(), {}).find("too hot"), std::string::npos);
}

TEST(StaffReport, the_kept_text_of_a_report_reads_back_the_same) {
  for (const char* name : {"trial-14.json", "trial-15.json", "trial-16.json"}) {
    const auto s = sample(name);
    const auto doc = report::staff_report(s.findings, s.unmasked, {});
    const std::string kept = report::document_text(doc);
    const auto again = report::read_document(kept);
    ASSERT_TRUE(again) << again.error().where << ' ' << again.error().value;
    EXPECT_EQ(report::document_text(*again), kept) << name;
    EXPECT_EQ(report::to_text(*again), report::to_text(doc)) << name;
    EXPECT_EQ(again->meta.program, doc.meta.program);
  }
}

TEST(StaffReport, a_kept_text_of_another_kind_is_refused_where_it_is_wrong) {
  EXPECT_EQ(report::read_document("{}").error().kind, ErrorKind::missing);
  EXPECT_EQ(report::read_document("not json").error().kind, ErrorKind::malformed);
  const std::string meta = R"("meta":{"foot":"","house":"","label":"","program":"","title":""})";
  EXPECT_TRUE(report::read_document("{\"blocks\":[]," + meta + ",\"shape\":1}"));
  EXPECT_EQ(report::read_document("{\"blocks\":[]," + meta + ",\"shape\":2}").error().kind, ErrorKind::newer_version);
  const auto odd = report::read_document("{\"blocks\":[{\"film\":{}}]," + meta + ",\"shape\":1}");
  EXPECT_EQ(odd.error().where, "/blocks/0");
}

TEST(StaffReport, a_rule_that_was_left_is_told_with_its_reason) {
  const auto s = sample("trial-14.json");
  auto trial = std::make_shared<Trial>(s.unmasked.trial());
  trial->rule = AdoptedRule{"L-12 goes to 68 °C.", {}, "", "H.", "", false, {}, true, "too little difference"};
  const auto unmasked = open_unmasked(trial);
  ASSERT_TRUE(unmasked);
  const std::string text = report::to_text(report::staff_report(s.findings, *unmasked, {}));
  EXPECT_NE(text.find("Not taken over: L-12 goes to 68 °C."), std::string::npos);
  EXPECT_NE(text.find("H. left it: too little difference"), std::string::npos);
}

TEST(StaffReport, html_escapes_what_people_typed_and_needs_nothing_from_outside) {
  const auto s = sample("trial-14.json");
  auto doc = report::staff_report(s.findings, s.unmasked, {});
  doc.blocks.emplace_back(report::Paragraph{"<script>alert('x')</script> & \"quoted\""});
  const std::string html = report::to_html(doc, [](const report::Figure&) { return "<svg></svg>"; });
  EXPECT_EQ(html.find("<script"), std::string::npos);
  EXPECT_NE(html.find("&lt;script&gt;alert(&#39;x&#39;)"), std::string::npos);
  for (const char* outside : {"http://", "https://", "src=", "@import", "url("})
    EXPECT_EQ(html.find(outside), std::string::npos) << outside;
}

/// Every place of a document that can hold what people typed.
report::Document full_of(const std::string& typed) {
  report::Document doc;
  doc.meta = {typed, typed, typed, typed, typed};
  report::IntervalPlot plot;
  plot.title = typed;
  report::Table table{typed, {typed}, {false}, {{typed}}};
  doc.blocks = {report::Heading{typed, 1},
                report::Paragraph{typed, report::Paragraph::Tone::lead},
                report::Steps{{typed}},
                table,
                report::Figure{plot, typed, typed},
                report::Aside{typed, typed},
                report::Columns{typed, {typed}, {typed}, typed, {typed}}};
  return doc;
}

TEST(StaffReport, html_makes_no_tag_of_what_people_typed_anywhere_in_it) {
  const auto tags = [](const std::string& html) {
    std::vector<std::string> out;
    for (auto at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1))
      out.push_back(html.substr(at, html.find_first_of(" >", at) - at));
    return out;
  };
  const auto plain = tags(report::to_html(full_of("K."), {}));
  for (const char* typed : {"<script>alert(1)</script>", "Round & full", "\"><img src=x onerror=alert(1)>",
                            "' onload='x", "]]>", "</style><b>", "<!--", "&lt;b&gt;"}) {
    const auto html = report::to_html(full_of(typed), {});
    EXPECT_EQ(tags(html), plain) << typed;
    EXPECT_EQ(html.find("aria-label=\"\""), std::string::npos) << "an alt text ended early";
  }
  for (const char c : report::to_html(full_of("a\x1B\x01\x0C"), {})) EXPECT_TRUE(c == '\n' || c < 0 || c >= ' ');
}

TEST(StaffReport, html_forbids_scripts_itself) {
  const auto html = report::to_html(full_of("K."), {});
  const auto policy = html.find("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; ");
  ASSERT_NE(policy, std::string::npos);
  EXPECT_LT(policy, html.find("<style>")) << "it holds for what comes after it only";
  EXPECT_EQ(html.find("script-src"), std::string::npos);
}

TEST(StaffReport, follows_the_reader_to_fahrenheit_and_decimal_comma) {
  const auto s = sample("trial-14.json");
  report::ReportSettings settings;
  settings.style = {TemperatureUnit::fahrenheit, ','};
  const std::string text = report::to_text(report::staff_report(s.findings, s.unmasked, settings));
  EXPECT_NE(text.find("190,4\u00A0°F"), std::string::npos);
  EXPECT_EQ(wording::headline(s.findings, s.unmasked.plan(), settings.style),
            "More bitter at 190,4\u00A0°F. Body holds. Sweetness is open.");
}

TEST(Plots, ticks_are_round_and_say_what_they_are) {
  const auto ticks = report::round_ticks(-2, 3, 6, true, {});
  ASSERT_EQ(ticks.size(), 6u);
  EXPECT_EQ(ticks.front().label, "\u22122");
  EXPECT_EQ(ticks.back().label, "+3");
  const auto quarters = report::round_ticks(-0.5, 0.5, 5, true, {});
  for (const auto& t : quarters) EXPECT_NEAR(t.at, std::round(t.at * 10) / 10, 1e-12);
}

}  // namespace
}  // namespace likeleaf
