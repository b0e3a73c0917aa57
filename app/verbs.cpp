#include "app/verbs.h"

#include <fmt/format.h>
#include <QApplication>
#include <QLoggingCategory>

#include <iostream>

#include "app/line_progress.h"
#include "app/wiring.h"
#include "core/base/embedded.h"
#include "core/base/number_text.h"
#include "core/base/terminal_text.h"
#include "core/codec/builtin.h"
#include "core/evidence/find.h"
#include "core/exchange/atomic_file.h"
#include "core/exchange/bundle_read.h"
#include "core/exchange/bundle_write.h"
#include "core/exchange/findings_json.h"
#include "core/exchange/paper_csv.h"
#include "core/exchange/tidy_csv.h"
#include "core/report/staff_report.h"
#include "core/wording/errors.h"
#include "core/wording/opening_notes.h"
#include "ui/charts/charts.h"
#include "ui/render/pdf.h"

namespace likeleaf::app {
namespace {

Style style_of(bool fahrenheit, bool comma) {
  return {fahrenheit ? TemperatureUnit::fahrenheit : TemperatureUnit::celsius, comma ? ',' : '.'};
}

struct Answer {
  Unmasked unmasked;
  evidence::Findings findings;
};

Result<Answer> answer_of(const std::filesystem::path& book, const std::string& trial, const Services& services) {
  auto session = Session::open(book, OpenWay::read_only, services);
  if (!session) return tl::unexpected(session.error());
  if (auto taken = take_trial(**session, trial); !taken) return tl::unexpected(taken.error());
  auto unmasked = (*session)->unmasked();
  if (!unmasked) return tl::unexpected(unmasked.error());
  auto findings = evidence::find(*unmasked);
  if (!findings) return tl::unexpected(findings.error());
  return Answer{std::move(*unmasked), std::move(*findings)};
}

Result<IdOf<Trial>> import_into(const std::filesystem::path& book, const TrialImport& import,
                                const Services& services) {
  const bool there = std::filesystem::exists(book);
  auto session = there ? Session::open(book, OpenWay::write, services) : Session::create(book, services);
  if (!session) return tl::unexpected(session.error());
  const auto outcome = (*session)->import_trial(import);
  if (!outcome) return tl::unexpected(outcome.error());
  if (outcome->skipped)
    print(fmt::format("Trial {} was there already, unchanged; nothing to do.\n", outcome->number));
  else
    print(fmt::format("Trial {} is now in {}.\n", outcome->number, terminal_line(book.string())));
  return outcome->trial;
}

}  // namespace

int findings_verb(const FindingsOptions& o) {
  LineServices line;
  const auto answer = answer_of(o.book, o.trial, line.services());
  if (!answer) return refuse(answer.error());
  if (o.json)
    print_json(exchange::findings_json(answer->findings, answer->unmasked));
  else
    print(report::findings_text(answer->findings, answer->unmasked, style_of(o.fahrenheit, o.comma)));
  std::cout.flush();
  return std::cout ? success : refuse({ErrorKind::cannot_write, "standard output", {}, {}, {}});
}

int report_verb(const ReportOptions& o) {
  const std::string kind = o.out.extension().string();
  if (kind != ".pdf" && kind != ".html")
    return refuse({ErrorKind::bad_value, "report file", o.out.string(), "a name that ends in .pdf or .html", {}});
  LineServices line;
  const auto answer = answer_of(o.book, o.trial, line.services());
  if (!answer) return refuse(answer.error());
  report::ReportSettings settings;
  settings.style = style_of(o.fahrenheit, o.comma);
  settings.program = "Likeleaf " LIKELEAF_VERSION;
  const auto document = report::staff_report(answer->findings, answer->unmasked, settings);
  // Charts need a QApplication; on a machine without a screen the offscreen platform draws the same.
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM") && qEnvironmentVariableIsEmpty("DISPLAY") &&
      qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY"))
    qputenv("QT_QPA_PLATFORM", "offscreen");
  int argc = 1;
  char name[] = "likeleaf";
  char* argv[] = {name, nullptr};
  // What Qt has to say of a machine without a desktop is not for the reader of this line.
  QLoggingCategory::setFilterRules(QStringLiteral("default.warning=false\nqt.*.warning=false"));
  QApplication application(argc, argv);
  ui::load_fonts();
  std::string bytes;
  if (kind == ".pdf") {
    const QByteArray pdf = ui::pdf_bytes(document, o.letter ? ui::Paper::letter : ui::Paper::a4);
    bytes.assign(pdf.constData(), static_cast<std::size_t>(pdf.size()));
  } else {
    bytes = report::to_html(
        document, [](const report::Figure& f) { return ui::figure_svg(f, 680, ui::light_tokens()).toStdString(); });
  }
  if (const auto written = exchange::write_file_atomically(o.out, bytes); !written) return refuse(written.error());
  return success;
}

int import_verb(const ImportOptions& o) {
  LineServices line;
  Result<TrialImport> import = fail(ErrorKind::internal);
  if (!o.key) {
    import = exchange::read_bundle_file(o.bundle);
  } else {
    const auto sheets = exchange::read_file_limited(o.bundle, exchange::csv_size_limit);
    if (!sheets) return refuse(sheets.error());
    const auto key = exchange::read_file_limited(*o.key, exchange::csv_size_limit);
    if (!key) return refuse(key.error());
    exchange::PaperOptions paper;
    const auto day = parse_iso(o.tasted_on + "T12:00:00Z");
    if (!day)
      return refuse({ErrorKind::bad_value, "day of tasting (--tasted-on)", o.tasted_on, "a date like 2026-03-02", {}});
    paper.tasted = *day;
    paper.house = o.house;
    paper.question = o.question;
    paper.lever_name = o.changes;
    paper.present_way = o.reference;
    paper.sheets_file = o.bundle.filename().string();
    paper.key_file = o.key->filename().string();
    for (const auto& attribute : o.deciding) {
      const auto* known = find_attribute(builtin_attributes(), attribute);
      exchange::PaperDeciding deciding{attribute, std::nullopt};
      if (!known || known->scale != Scale::seconds) {
        const auto halves = parse_decimal(o.margin, 1, 5, 100, "margin", "0.5 to 10 points in half steps");
        if (!halves) return refuse(halves.error());
        if (*halves % 5 != 0)
          return refuse({ErrorKind::bad_value, "margin", o.margin, "0.5 to 10 points in half steps", {}});
        deciding.margin = *halves / 5;
      }
      paper.deciding.push_back(deciding);
    }
    if (!o.tasted_at.empty()) {
      const auto t = parse_temperature(o.tasted_at, {}, "tasting temperature");
      if (!t) return refuse(t.error());
      paper.tasting_temperature = *t;
    }
    if (std::filesystem::exists(o.into)) {
      auto session = Session::open(o.into, OpenWay::read_only, line.services());
      if (!session) return refuse(session.error());
      paper.known = (*session)->registers();
    }
    import = exchange::read_paper(*sheets, *key, paper);
  }
  if (!import) return refuse(import.error());
  const auto done = import_into(o.into, *import, line.services());
  return done ? success : refuse(done.error());
}

int export_verb(const ExportOptions& o) {
  LineServices line;
  auto session = Session::open(o.book, OpenWay::read_only, line.services());
  if (!session) return refuse(session.error());
  if (const auto taken = take_trial(**session, o.trial); !taken) return refuse(taken.error());
  const Trial& trial = *(*session)->trial();
  // All of it is made before anything is written. A plan that is not sealed has no tables yet.
  std::vector<exchange::CsvFile> files{
      {".json",
       exchange::bundle_text(trial, (*session)->registers(), (*session)->attributes(), "Likeleaf " LIKELEAF_VERSION)}};
  if (trial.sealed) {
    const auto tables = exchange::tidy_csv((*session)->trial());
    if (!tables) return refuse(tables.error());
    for (const auto& table : *tables) files.push_back({"-" + table.name, table.text});
  }
  std::error_code code;
  std::filesystem::create_directories(o.out, code);
  if (code)
    return refuse(
        {ErrorKind::cannot_write, "folder", o.out.string(), "a folder that can be made and written", code.message()});
  const std::string stem = fmt::format("trial-{}", trial.draft.number);
  for (const auto& file : files) {
    const auto path = o.out / (stem + file.name);
    if (const auto done = exchange::write_file_atomically(path, file.text); !done) return refuse(done.error());
    print(terminal_line(path.string()) + "\n");
  }
  return success;
}

int check_verb(const std::filesystem::path& book) {
  LineServices line;
  auto session = Session::open(book, OpenWay::read_only, line.services());
  if (!session) return refuse(session.error());
  for (const auto& note : (*session)->opening_notes()) print(terminal_line(wording::sentence(note)) + "\n");
  std::cout.flush();
  LineProgress progress("Looking the book over");
  const store::Health health = (*session)->check_book(progress.stop(), progress.hear());
  progress.done();
  if (health.stopped) return refuse({ErrorKind::cancelled, "check", {}, {}, {}});
  print(fmt::format("Looked at {} trials, {} sealed, {} locked sheets.\n", health.trials, health.sealed,
                    health.locked_sheets));
  for (const auto& finding : health.findings) complain(wording::sentence(finding));
  if (!health.findings.empty()) return bad_input;
  print("The book is sound.\n");
  return success;
}

int sample_verb(const std::filesystem::path& out) {
  if (std::filesystem::exists(out))
    return refuse({ErrorKind::conflict, "sample book", out.string(), "a file that is not there yet", {}});
  LineServices line;
  auto session = Session::create(out, line.services());
  if (!session) return refuse(session.error());
  for (const auto name : embedded_names("sample_sessions/trial-")) {
    const auto import = exchange::read_bundle(*embedded(name), std::string(name));
    if (!import) return refuse(import.error());
    const auto done = (*session)->import_trial(*import);
    if (!done) return refuse(done.error());
    print(fmt::format("Trial {}: {}\n", done->number, terminal_line(import->trial.draft.question)));
  }
  return success;
}

}  // namespace likeleaf::app
