#include "core/store/reports.h"

namespace likeleaf::store {
namespace {

Result<MadeReport> read_row(SQLite::Statement& row) {
  MadeReport report;
  const auto id = IdOf<MadeReport>::parse(text_at(row, 0));
  const auto trial = IdOf<Trial>::parse(text_at(row, 1));
  const auto made = parse_iso(text_at(row, 2));
  if (!id || !trial || !made) return fail(ErrorKind::damaged, "report", text_at(row, 0).substr(0, 60));
  report.id = *id;
  report.trial = *trial;
  report.made = *made;
  report.program = text_at(row, 3);
  report.title = text_at(row, 4);
  report.form = text_at(row, 5);
  report.document = text_at(row, 6);
  return report;
}

}  // namespace

void persist_report(Connection& db, const MadeReport& report) {
  run(db,
      "INSERT INTO report (id, trial, position, made, program, title, form, document) VALUES "
      "(?, ?, (SELECT coalesce(max(position), 0) + 1 FROM report WHERE trial = ?), ?, ?, ?, ?, ?)",
      report.id, report.trial, report.trial, report.made, report.program, report.title, report.form, report.document);
}

Result<std::vector<MadeReport>> load_reports(Db& db, IdOf<Trial> trial) {
  try {
    std::vector<MadeReport> list;
    auto rows =
        bound(db, "SELECT id, trial, made, program, title, form, '' FROM report WHERE trial = ? ORDER BY position DESC",
              trial);
    while (rows.executeStep()) {
      auto report = read_row(rows);
      if (!report) return tl::unexpected<Error>(report.error());
      list.push_back(std::move(*report));
    }
    return list;
  } catch (const SQLite::Exception& problem) {
    return tl::unexpected<Error>(error_of(problem, &db, {}));
  }
}

Result<MadeReport> load_report(Db& db, IdOf<MadeReport> id) {
  try {
    auto row = bound(db, "SELECT id, trial, made, program, title, form, document FROM report WHERE id = ?", id);
    if (!row.executeStep()) return fail(ErrorKind::not_found, "report", id.text(), "a report of this book");
    return read_row(row);
  } catch (const SQLite::Exception& problem) {
    return tl::unexpected<Error>(error_of(problem, &db, {}));
  }
}

std::string newest_report_document(Db& db, IdOf<Trial> trial) {
  return text_of(db, "SELECT document FROM report WHERE trial = ? ORDER BY position DESC LIMIT 1", trial)
      .value_or(std::string());
}

}  // namespace likeleaf::store
