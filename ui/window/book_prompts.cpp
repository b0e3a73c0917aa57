#include "ui/window/book_prompts.h"

#include <QDir>
#include <QFileDialog>

namespace likeleaf::ui {
namespace {

QString books() {
  return QStringLiteral("Bench books (*.leafbook)");
}

}  // namespace

BookPrompts book_dialogs() {
  BookPrompts prompts;
  prompts.open_book = [](QWidget* over, const QString& folder) {
    return QFileDialog::getOpenFileName(over, QStringLiteral("Open a bench book"), folder, books());
  };
  prompts.new_book = [](QWidget* over, const QString& folder) {
    return QFileDialog::getSaveFileName(over, QStringLiteral("A new bench book"),
                                        QDir(folder).filePath(QStringLiteral("house.leafbook")), books());
  };
  prompts.bundle = [](QWidget* over, const QString& folder) {
    return QFileDialog::getOpenFileName(over, QStringLiteral("Import a trial"), folder,
                                        QStringLiteral("Bundles (*.json)"));
  };
  return prompts;
}

}  // namespace likeleaf::ui
