#pragma once
// Reports as they were made: rows that are only added.
#include <vector>

#include "core/base/result.h"
#include "core/domain/made_report.h"
#include "core/store/sql.h"

namespace likeleaf::store {

/// Adds one at the end of its trial's list. Throws SQLite::Exception.
void persist_report(Connection& db, const MadeReport& report);
/// Newest first, without their documents. Errors: damaged; what SQLite said.
Result<std::vector<MadeReport>> load_reports(Db& db, IdOf<Trial> trial);
/// One with its document. Errors: not_found; damaged; what SQLite said.
Result<MadeReport> load_report(Db& db, IdOf<MadeReport> id);
/// The newest one's document; empty when there is none.
std::string newest_report_document(Db& db, IdOf<Trial> trial);

}  // namespace likeleaf::store
