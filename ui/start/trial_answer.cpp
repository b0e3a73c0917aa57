#include "ui/start/trial_answer.h"

#include "core/wording/attribute_text.h"
#include "core/wording/findings_text.h"
#include "core/wording/rule_text.h"
#include "ui/findings/findings_work.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {

TrialAnswer said(const Answer& answer, const Style& style) {
  TrialAnswer out;
  const auto& findings = answer.findings;
  const SealedPlan& plan = answer.unmasked.plan();
  out.headline = text(wording::headline(findings, plan, style));
  out.scope = text(wording::scope_sentence(findings, plan, style));
  for (const auto& f : findings.attributes) {
    const auto words = wording::finding_text(f, plan, style, findings.contrasts.size() > 1);
    out.lines.push_back({f.word, text(words.title), text(words.sentence)});
  }
  if (plan.plan.rule && findings.rule)
    out.rule = text(wording::rule_sentence(*plan.plan.rule, plan, style) + " " +
                    wording::rule_outcome(*findings.rule, plan, style));
  return out;
}

}  // namespace likeleaf::ui
