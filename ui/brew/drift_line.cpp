#include "ui/brew/drift_line.h"

#include <QFontMetrics>
#include <QStringList>

#include "core/acts/drift.h"
#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

using namespace brewing;

DriftLine::DriftLine(const Style& style, QWidget* parent) : QLabel(parent), style_(style) {
  dress_as_label(this, face(15), tokens().caution);
  setObjectName(QStringLiteral("drift"));
  setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  // Room for four lines is kept: a drift that appears must not move the stamp away from under the finger.
  setMinimumHeight(4 * QFontMetrics(face(15)).lineSpacing());
}

void DriftLine::show_drifts(const Trial& trial, int sitting) {
  QStringList lines;
  for (const auto& d : drifts(trial, sitting)) lines << ui::text(wording::bench_drift_text(d, *trial.sealed, style_));
  setToolTip(tip_text(lines.join(QLatin1Char('\n'))));
  setAccessibleName(lines.join(QStringLiteral("; ")));
  const auto count = lines.size();
  if (count > 1) lines = QStringList{QStringLiteral("%1 drifts in this sitting").arg(count), lines.back()};
  setText(lines.join(QLatin1Char('\n')));
}

}  // namespace likeleaf::ui
