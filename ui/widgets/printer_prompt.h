#pragma once
#include <QString>
#include <functional>
#include <memory>

#include "ui/render/paper.h"

class QPrinter;

namespace likeleaf::ui {

/// Asks for a printer; nothing when the person turned back. Replaced in tests.
using PrinterPrompt = std::function<std::shared_ptr<QPrinter>(Paper paper)>;
/// The system's own dialog.
PrinterPrompt printer_dialog_prompt();

}  // namespace likeleaf::ui
