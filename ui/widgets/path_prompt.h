#pragma once
#include <QString>
#include <functional>

namespace likeleaf::ui {

/// Asks where to save: given a suggested file name and a filter ("PDF (*.pdf)"), gives the path, or nothing when the
/// person turned back. Replaced in tests.
using PathPrompt = std::function<QString(const QString& suggested, const QString& filter)>;
/// The system's own dialog.
PathPrompt file_dialog_prompt();
/// Writes whole or not at all; "Saved: path", or why not, as one sentence.
QString save_said(const QString& path, const QByteArray& bytes, bool* saved = nullptr);

}  // namespace likeleaf::ui
