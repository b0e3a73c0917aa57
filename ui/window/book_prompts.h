#pragma once
#include <QString>
#include <functional>

class QWidget;

namespace likeleaf::ui {

/// How the window asks for files; each gives a path, or nothing when the person turned back. Replaced in tests.
struct BookPrompts {
  std::function<QString(QWidget*over, const QString&folder)> open_book, new_book, bundle;
};
/// The system's own dialogs.
BookPrompts book_dialogs();

}  // namespace likeleaf::ui
