#include "ui/start/trial_answer.h"

#include "core/evidence/find.h"
#include "core/wording/attribute_text.h"
#include "core/wording/errors.h"
#include "core/wording/findings_text.h"
#include "core/wording/rule_text.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace

TrialAnswer answer_for(const Session& session, const store::LedgerRow& row, const Style& style) {
  TrialAnswer out;
  if (row.stage != Stage::unmasked) {
    out.empty =
        row.stage == Stage::plan
            ? QStringLiteral("This trial is still a draft.")
            : QStringLiteral("Sealed. What it found is shown once every sheet is locked and the key is opened.");
    return out;
  }
  const auto trial = session.read(row.id);
  const auto unmasked = trial ? open_unmasked(*trial) : Result<Unmasked>(tl::unexpected(trial.error()));
  const auto findings =
      unmasked ? evidence::find(*unmasked) : Result<evidence::Findings>(tl::unexpected(unmasked.error()));
  if (!findings) {
    out.empty = text(wording::sentence(findings.error()));
    return out;
  }
  const SealedPlan& plan = unmasked->plan();
  out.headline = text(wording::headline(*findings, plan, style));
  out.scope = text(wording::scope_sentence(*findings, plan, style));
  for (const auto& f : findings->attributes) {
    const auto said = wording::finding_text(f, plan, style, findings->contrasts.size() > 1);
    out.lines.push_back({static_cast<int>(f.word), text(said.title), text(said.sentence)});
  }
  if (plan.plan.rule && findings->rule)
    out.rule = text(wording::rule_sentence(*plan.plan.rule, plan, style) + " " +
                    wording::rule_outcome(*findings->rule, plan, style));
  return out;
}

}  // namespace likeleaf::ui
