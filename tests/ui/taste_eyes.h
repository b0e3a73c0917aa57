#pragma once
// Everything a taster meets on one screen, and what the program says beside it: for the test that none of it depends on
// what only the key knows.
#include <unistd.h>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QDirIterator>
#include <QFileDialog>
#include <QImage>
#include <QLineEdit>
#include <QSettings>
#include <QTemporaryDir>
#include <QWidget>
#include <cstdio>
#include <string>
#include <vector>

namespace likeleaf::test {

struct Seen {
  QImage pixels;
  QStringList words;  ///< titles, tooltips, hints, object names, and the whole accessible tree
  bool operator==(const Seen&) const = default;
};

inline void read_tree(QAccessibleInterface* at, int depth, QStringList& words) {
  if (at == nullptr || !at->isValid()) return;
  const auto state = at->state();
  words << QStringLiteral("%1 %2 | %3 | %4 | %5 | %6 | %7 %8 %9 %10")
               .arg(depth)
               .arg(at->role())
               .arg(at->text(QAccessible::Name), at->text(QAccessible::Description), at->text(QAccessible::Value),
                    at->text(QAccessible::Help))
               .arg(state.focused)
               .arg(state.invisible)
               .arg(state.checked)
               .arg(state.disabled);
  if (auto* value = at->valueInterface()) words << value->currentValue().toString();
  for (int i = 0; i < at->childCount(); ++i) read_tree(at->child(i), depth + 1, words);
}

inline Seen look(QWidget* screen) {
  QApplication::processEvents();
  Seen seen{screen->grab().toImage(), {screen->window()->windowTitle(), screen->window()->windowFilePath()}};
  QList<QWidget*> all = screen->findChildren<QWidget*>();
  all.prepend(screen);
  for (auto* w : all) {
    seen.words << w->objectName() << w->toolTip() << w->statusTip() << w->whatsThis() << w->windowTitle();
    if (const auto* line = qobject_cast<QLineEdit*>(w)) seen.words << line->text() << line->placeholderText();
  }
  read_tree(QAccessible::queryAccessibleInterface(screen), 0, seen.words);
  for (auto* top : QApplication::topLevelWidgets())
    if (auto* dialog = qobject_cast<QFileDialog*>(top)) seen.words << "offered" << dialog->selectedFiles();
  return seen;
}

/// While it lives, standard output and error of this process and Qt's messages go to a file, and what the program
/// keeps for a person goes to an empty home.
class Overheard {
 public:
  Overheard() {
    for (const char* name : {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"}) {
      before_.emplace_back(name, qEnvironmentVariableIsSet(name) ? qgetenv(name) : QByteArray());
      qputenv(name, home_.path().toUtf8());
    }
    // Qt looks the folder of its settings up once a process, so the variables alone would do for the first of them
    // only.
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, home_.path());
    std::fflush(nullptr);
    for (int i = 0; i < 2; ++i) old_[i] = dup(i + 1);
    log_ = std::tmpfile();
    for (int i = 0; i < 2; ++i) dup2(fileno(log_), i + 1);
  }
  ~Overheard() { end(); }
  Overheard(const Overheard&) = delete;
  Overheard& operator=(const Overheard&) = delete;
  /// What was said, then every file that was kept: name and content.
  QStringList end() {
    if (log_ == nullptr) return {};
    std::fflush(nullptr);
    for (int i = 0; i < 2; ++i) {
      dup2(old_[i], i + 1);
      close(old_[i]);
    }
    QStringList out;
    std::rewind(log_);
    char piece[4096];
    QByteArray said;
    while (const auto got = std::fread(piece, 1, sizeof piece, log_)) said.append(piece, static_cast<int>(got));
    std::fclose(log_);
    log_ = nullptr;
    out << QString::fromUtf8(said);
    QStringList names;
    for (QDirIterator files(home_.path(), QDir::Files | QDir::Hidden, QDirIterator::Subdirectories); files.hasNext();)
      names << files.next();
    names.sort();
    for (const auto& name : names) {
      QFile file(name);
      out << QDir(home_.path()).relativeFilePath(name)
          << (file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString());
    }
    for (const auto& [name, value] : before_) qputenv(name, value);
    QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, QString::fromUtf8(qgetenv("XDG_CONFIG_HOME")));
    return out;
  }

 private:
  QTemporaryDir home_;
  std::vector<std::pair<const char*, QByteArray>> before_;
  int old_[2] = {};
  std::FILE* log_ = nullptr;
};

struct Walk {
  std::vector<Seen> pages;
  QStringList beside;  ///< log, settings, names of files
};

/// In words where two walks differ; empty when they are the same, byte for byte.
inline std::vector<std::string> differences(const Walk& one, const Walk& two) {
  std::vector<std::string> out;
  if (one.pages.size() != two.pages.size()) out.emplace_back("number of pages");
  for (std::size_t i = 0; i < std::min(one.pages.size(), two.pages.size()); ++i) {
    const Seen &a = one.pages[i], &b = two.pages[i];
    if (a.pixels != b.pixels) out.push_back("pixels of page " + std::to_string(i));
    if (a.words.size() != b.words.size()) out.push_back("number of words of page " + std::to_string(i));
    for (int w = 0; w < std::min(a.words.size(), b.words.size()); ++w)
      if (a.words[w] != b.words[w])
        out.push_back("words of page " + std::to_string(i) + ": " + a.words[w].toStdString() + " / " +
                      b.words[w].toStdString());
  }
  if (one.beside != two.beside)
    out.push_back("beside: " + one.beside.join('\n').toStdString() + " / " + two.beside.join('\n').toStdString());
  return out;
}

/// The canary words that are met anywhere.
inline std::vector<std::string> met(const Walk& walk, const QStringList& canaries) {
  std::vector<std::string> out;
  QString all = walk.beside.join('\n');
  for (const auto& page : walk.pages) all += '\n' + page.words.join('\n');
  for (const auto& canary : canaries)
    if (all.contains(canary, Qt::CaseInsensitive)) out.push_back(canary.toStdString());
  return out;
}

}  // namespace likeleaf::test
