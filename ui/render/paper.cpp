#include "ui/render/paper.h"

#include <QSettings>
#include <algorithm>
#include <array>

namespace likeleaf::ui {
namespace {

constexpr const char* setting = "paper";

QSettings settings() {
  return QSettings(QStringLiteral("Likeleaf"), QStringLiteral("Likeleaf"));
}

}  // namespace

QString paper_name(Paper paper) {
  return paper == Paper::a4 ? QStringLiteral("A4") : QStringLiteral("US Letter");
}

Paper usual_paper(const QLocale& locale) {
  // The territories whose everyday paper is Letter (Unicode CLDR, paper size data); all others use A4.
  static constexpr std::array letter{
      QLocale::UnitedStates, QLocale::Canada,      QLocale::Mexico,     QLocale::Belize,    QLocale::Chile,
      QLocale::Colombia,     QLocale::CostaRica,   QLocale::ElSalvador, QLocale::Guatemala, QLocale::Nicaragua,
      QLocale::Panama,       QLocale::Philippines, QLocale::PuertoRico, QLocale::Venezuela};
  return std::ranges::find(letter, locale.territory()) == letter.end() ? Paper::a4 : Paper::letter;
}

Paper chosen_paper() {
  const QString kept = settings().value(QLatin1String(setting)).toString();
  if (kept == QLatin1String("letter")) return Paper::letter;
  if (kept == QLatin1String("a4")) return Paper::a4;
  return usual_paper(QLocale());
}

void choose_paper(Paper paper) {
  settings().setValue(QLatin1String(setting), paper == Paper::a4 ? QStringLiteral("a4") : QStringLiteral("letter"));
}

}  // namespace likeleaf::ui
