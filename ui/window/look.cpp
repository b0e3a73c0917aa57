#include "ui/window/look.h"

#include <QSettings>

namespace likeleaf::ui {
namespace {

constexpr const char* unit_key = "look/temperature";
constexpr const char* colours_key = "look/colours";

}  // namespace

Look kept_look(const QSettings& settings, const Look& otherwise) {
  Look look = otherwise;
  const QString unit = settings.value(QLatin1String(unit_key)).toString();
  if (unit == QLatin1String("C")) look.style.temperature = TemperatureUnit::celsius;
  if (unit == QLatin1String("F")) look.style.temperature = TemperatureUnit::fahrenheit;
  const QString colours = settings.value(QLatin1String(colours_key)).toString();
  if (colours == QLatin1String("light")) look.dark = false;
  if (colours == QLatin1String("dark")) look.dark = true;
  return look;
}

void keep_look(QSettings& settings, const Look& look) {
  settings.setValue(QLatin1String(unit_key),
                    look.style.temperature == TemperatureUnit::fahrenheit ? QStringLiteral("F") : QStringLiteral("C"));
  settings.setValue(QLatin1String(colours_key), look.dark ? QStringLiteral("dark") : QStringLiteral("light"));
}

}  // namespace likeleaf::ui
