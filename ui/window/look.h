#pragma once
// What one person likes to see on this computer: temperatures in °C or °F, light or dark. Kept in the settings of the
// program, not in the book: two people may look at one book in two ways.
#include "core/base/style.h"

class QSettings;

namespace likeleaf::ui {

struct Look {
  Style style;
  bool dark = false;
};

/// What was kept; `otherwise` where nothing was, or what was kept cannot be understood.
Look kept_look(const QSettings& settings, const Look& otherwise);
/// Keeps unit and light or dark; the decimal mark follows the system's locale and is not kept.
void keep_look(QSettings& settings, const Look& look);

}  // namespace likeleaf::ui
