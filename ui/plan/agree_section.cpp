// Before the first sitting: the open reference pair and the words the panel agreed on.
#include <QBoxLayout>
#include <QLabel>
#include <QTextEdit>

#include "core/acts/agreed_words.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {

QString AgreeSection::signature(const Plan& plan) const {
  const auto trial = editor_.session().trial();
  return QStringLiteral("%1,%2,%3")
      .arg(plan.reference_pair.has_value())
      .arg(editor_.registers().lots.size())
      .arg(trial && words_still_open(*trial));
}

void AgreeSection::build(const Plan&, QVBoxLayout* down) {
  heading(QStringLiteral("Before the first sitting"), down);
  soft(QStringLiteral("Ten minutes in the open on a pair of known cups: what body, astringency, structure mean today."),
       down);
  form_row(QStringLiteral("reference pair"),
           choice(
               QStringLiteral("Leaf of the open reference pair"), QStringLiteral("reference"),
               [this](const Plan&) { return QStringList{QStringLiteral("none")} + lot_codes(editor_); },
               [this](const Plan& p) {
                 return p.reference_pair && !p.reference_pair->lot.empty()
                            ? lot_place(editor_, p.reference_pair->lot) + 1
                            : 0;
               },
               [this](Plan& p, int at) {
                 const std::string said = p.reference_pair ? p.reference_pair->words : std::string();
                 if (at == 0 && said.empty()) return p.reference_pair.reset();
                 if (!p.reference_pair) p.reference_pair.emplace();
                 p.reference_pair->lot = lot_at(editor_, at - 1);
               }),
           down, 0);
  notes_under(QStringLiteral("reference"), down);
  auto* agreed = own_text(
      QStringLiteral("Words the panel agreed on"), QStringLiteral("reference.words"),
      [this](const Plan&) {
        const auto trial = editor_.session().trial();
        return trial ? qt(agreed_words(*trial)) : QString();
      },
      [this](const QString& text) {
        const auto trial = editor_.session().trial();
        if (!trial) return QString();
        const auto command = keep_agreed_words(
            *trial, QString(text).replace(QChar::ParagraphSeparator, QLatin1Char('\n')).toStdString());
        if (!command) return qt(wording::sentence(command.error()));
        return PlanEditor::refusal(editor_.session().run(*command));
      });
  const auto trial = editor_.session().trial();
  // The pair is often tasted on the day: its words stay open after the seal, until somebody begins a sheet.
  const bool open = trial && !editor_.session().read_only() && words_still_open(*trial);
  agreed->set_read_only(!open);
  agreed->page()->setPlaceholderText(open ? QStringLiteral("body is how thick it is, not how strong …") : QString());
  form_row(QStringLiteral("words agreed"), agreed, down, 0);
  if (open) soft(QStringLiteral("Every taster reads these words: name no level in them."), down);
}

}  // namespace likeleaf::ui
