// The composition root: reads the command line, starts a verb or the window.
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QIcon>
#include <QLocale>
#include <QSettings>
#include <clocale>
#include <iostream>

#include "app/verbs.h"
#include "app/wiring.h"
#include "ui/theme/theme.h"
#include "ui/window/main_window.h"
#include "ui/window/qt_dispatcher.h"

namespace {

using namespace likeleaf;

int open_window(const std::string& book, bool dark, bool fahrenheit) {
  int argc = 1;
  char name[] = "likeleaf";
  char* argv[] = {name, nullptr};
  QApplication application(argc, argv);
  // QApplication sets the user's locale for all of C; core's numbers must not depend on it.
  std::setlocale(LC_NUMERIC, "C");
  QApplication::setApplicationName(QStringLiteral("Likeleaf"));
  QApplication::setApplicationVersion(QStringLiteral(LIKELEAF_VERSION));
  QApplication::setWindowIcon(QIcon(QStringLiteral(":/icons/likeleaf.svg")));
  // What was chosen in the window last time; what the command line says holds for this once.
  QSettings settings(QStringLiteral("Likeleaf"), QStringLiteral("Likeleaf"));
  ui::Look look = ui::kept_look(
      settings, {{TemperatureUnit::celsius, QLocale().decimalPoint() == QLatin1String(",") ? ',' : '.'}, false});
  look.dark = look.dark || dark;
  if (fahrenheit) look.style.temperature = TemperatureUnit::fahrenheit;
  ui::apply_theme(application, look.dark);
  SystemClock clock;
  SystemEntropy entropy;
  ui::QtDispatcher dispatcher;
  const Services services{clock, entropy, dispatcher};
  ui::MainWindow window(services, look);
  QObject::connect(&window, &ui::MainWindow::look_changed,
                   [&settings](const ui::Look& now) { ui::keep_look(settings, now); });
  if (!book.empty()) window.open_book_soon(std::filesystem::path(book));
  window.show();
  return QApplication::exec();
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App program{"Likeleaf: a side-by-side cupping bench for tea.", "likeleaf"};
  program.set_version_flag("--version", "Likeleaf " LIKELEAF_VERSION);
  program.require_subcommand(0, 1);
  std::string book;
  bool dark = false, fahrenheit = false;
  program.add_option("BOOK", book, "the bench book to open in the window (ends in .leafbook)");
  program.add_flag("--dark", dark, "the dark colours");
  program.add_flag("--fahrenheit", fahrenheit, "the window in °F");
  int code = app::success;

  app::FindingsOptions findings;
  auto* f = program.add_subcommand("findings", "print what a finished trial found");
  f->add_option("BOOK", findings.book, "the bench book")->required();
  f->add_option("--trial", findings.trial, "its number or id")->required();
  f->add_flag("--json", findings.json, "for machines");
  f->add_flag("--fahrenheit", findings.fahrenheit, "temperatures in °F");
  f->add_flag("--comma", findings.comma, "decimal comma");
  f->callback([&] { code = app::findings_verb(findings); });

  app::ReportOptions report;
  auto* r = program.add_subcommand("report", "write the staff report");
  r->add_option("BOOK", report.book, "the bench book")->required();
  r->add_option("--trial", report.trial, "its number or id")->required();
  r->add_option("--out", report.out, "FILE.pdf or FILE.html")->required();
  r->add_flag("--fahrenheit", report.fahrenheit, "temperatures in °F");
  r->add_flag("--comma", report.comma, "decimal comma");
  r->add_flag("--letter", report.letter, "US Letter instead of A4");
  r->callback([&] { code = app::report_verb(report); });

  app::ImportOptions import;
  auto* i = program.add_subcommand("import", "take a trial into a book: a bundle, or two tables of a paper trial");
  i->add_option("BUNDLE", import.bundle, "a bundle (JSON), or with --key the sheets table (CSV)")->required();
  i->add_option("--into", import.into, "the bench book; made when it is not there")->required();
  i->add_option("--key", import.key, "the key table (CSV): code, lot, brew pair, level");
  i->add_option("--changes", import.changes, "what changes, when the levels are words");
  i->add_option("--question", import.question, "the question of the paper trial");
  i->add_option("--house", import.house, "the house, for the report's head");
  i->add_option("--now", import.reference, "the level that is the house's way now");
  i->add_option("--deciding", import.deciding, "attributes that were named beforehand to decide")->delimiter(',');
  i->add_option("--margin", import.margin, "their margin in points");
  i->add_option("--tasted-at", import.tasted_at, "tasting temperature");
  i->add_option("--tasted-on", import.tasted_on, "the day it was tasted, like 2026-03-02 (needed with --key)");
  i->callback([&] { code = app::import_verb(import); });

  app::ExportOptions exported;
  auto* e = program.add_subcommand("export", "write a trial as bundle and tidy CSV");
  e->add_option("BOOK", exported.book, "the bench book")->required();
  e->add_option("--trial", exported.trial, "its number or id")->required();
  e->add_option("--out", exported.out, "a folder")->required();
  e->callback([&] { code = app::export_verb(exported); });

  std::filesystem::path checked;
  auto* c = program.add_subcommand("check", "look a book over: its file, its records, its seals");
  c->add_option("BOOK", checked, "the bench book")->required();
  c->callback([&] { code = app::check_verb(checked); });

  std::filesystem::path sample;
  auto* s = program.add_subcommand("sample", "make a book with the invented sample trials");
  s->add_option("--out", sample, "the new book")->required();
  s->callback([&] { code = app::sample_verb(sample); });

  try {
    program.parse(argc, argv);
    if (program.get_subcommands().empty()) return open_window(book, dark, fahrenheit);
    return code;
  } catch (const CLI::CallForHelp& help) {
    return program.exit(help);
  } catch (const CLI::CallForAllHelp& help) {
    return program.exit(help);
  } catch (const CLI::CallForVersion& version) {
    return program.exit(version);
  } catch (const CLI::ParseError& error) {
    app::complain(std::string(error.what()) + "; see likeleaf --help");
    return app::bad_use;
  } catch (const std::exception& error) {
    return app::refuse({ErrorKind::internal, {}, error.what(), {}, {}});
  }
}
