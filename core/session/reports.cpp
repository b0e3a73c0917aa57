// Reports as they were made.
#include "core/store/reports.h"

#include "core/session/inner.h"

namespace likeleaf {

Result<Ticket> Session::keep_report(MadeReport report) {
  if (auto may = inner_->may_write(); !may) return tl::unexpected<Error>(may.error());
  const auto trial = read(report.trial);
  if (!trial) return tl::unexpected<Error>(trial.error());
  if (!(*trial)->unmasked) return fail(ErrorKind::not_allowed, "report", {}, "a trial whose key is open");
  if (report.document.empty()) return fail(ErrorKind::missing, "report", {}, "its document");
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  if (store::newest_report_document(inner_->book->reading(), report.trial) == report.document) return Ticket{0};
  report.id = IdOf<MadeReport>::make(inner_->services.entropy);
  report.made = inner_->services.clock.now();
  const std::string id = report.id.text();
  const auto ticket =
      inner_->keep([kept = std::move(report)](store::Connection& db) { store::persist_report(db, kept); });
  inner_->tell({Part::reports, id});
  return ticket;
}

Result<std::vector<MadeReport>> Session::reports(IdOf<Trial> trial) const {
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  return store::load_reports(inner_->book->reading(), trial);
}

Result<MadeReport> Session::report(IdOf<MadeReport> id) const {
  if (auto settled = inner_->settled(); !settled) return tl::unexpected<Error>(settled.error());
  return store::load_report(inner_->book->reading(), id);
}

}  // namespace likeleaf
