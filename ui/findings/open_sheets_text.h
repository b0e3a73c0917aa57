#pragma once
#include <QStringList>

#include "core/domain/trial.h"

namespace likeleaf::ui {

/// One line a taster: "K.: sitting 1, pair 3; sitting 2, warm-up and pairs 1–4". Places only, nothing of the key.
QStringList open_sheets_lines(const Trial& trial);

}  // namespace likeleaf::ui
