#include "ui/widgets/path_prompt.h"

#include <QApplication>
#include <QDir>
#include <QFileDialog>
#include <QStandardPaths>
#include <filesystem>
#include <string_view>

#include "core/exchange/atomic_file.h"
#include "core/wording/errors.h"

namespace likeleaf::ui {

PathPrompt file_dialog_prompt() {
  return [](const QString& suggested, const QString& filter) {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    return QFileDialog::getSaveFileName(QApplication::activeWindow(), QStringLiteral("Save"),
                                        QDir(folder).filePath(suggested), filter);
  };
}

QString save_said(const QString& path, const QByteArray& bytes, bool* saved) {
  const auto done =
      exchange::write_file_atomically(std::filesystem::path(path.toStdU16String()),
                                      std::string_view(bytes.constData(), static_cast<std::size_t>(bytes.size())));
  if (saved) *saved = done.has_value();
  return done ? QStringLiteral("Saved: %1").arg(QDir::toNativeSeparators(path))
              : QString::fromStdString(wording::sentence(done.error()));
}

}  // namespace likeleaf::ui
