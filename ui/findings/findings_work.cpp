#include "ui/findings/findings_work.h"

#include <QCoreApplication>
#include <QMetaObject>

#include "core/evidence/find.h"
#include "core/report/staff_report.h"

namespace likeleaf::ui {
namespace {

AnswerResult answer_of(Unmasked unmasked, const Finder& finder, const report::ReportSettings& settings,
                       const std::stop_token& stop, const Progress& progress) {
  auto findings = finder(unmasked, stop, progress);
  if (!findings) return tl::unexpected<Error>(findings.error());
  auto document = report::staff_report(*findings, unmasked, settings);
  return std::make_shared<const Answer>(Answer{std::move(unmasked), std::move(*findings), std::move(document)});
}

}  // namespace

FindingsWork::FindingsWork(QObject* parent)
    : QObject(parent), finder_([](const Unmasked& unmasked, std::stop_token stop, const Progress& progress) {
        return evidence::find(unmasked, {}, std::move(stop), progress);
      }) {}

FindingsWork::~FindingsWork() {
  for (auto& job : jobs_) job.thread.request_stop();
}

void FindingsWork::stop() {
  ++request_;
  busy_ = false;
  for (auto& job : jobs_) job.thread.request_stop();
  // A stopped thread ends by itself; only those that have ended are joined, so that the window never waits.
  jobs_.remove_if([](const Job& job) { return job.finished->load(); });
}

void FindingsWork::start(Unmasked unmasked, const Style& style) {
  stop();
  busy_ = true;
  const std::uint64_t request = request_;
  report::ReportSettings settings;
  settings.style = style;
  const QString version = QCoreApplication::applicationVersion();
  settings.program = version.isEmpty() ? "Likeleaf" : "Likeleaf " + version.toStdString();
  auto& job = jobs_.emplace_back();
  job.thread = std::jthread([this, request, settings, finder = finder_, finished = job.finished,
                             copy = std::move(unmasked)](const std::stop_token& token) mutable {
    const Progress progress = [this, request](double share) {
      QMetaObject::invokeMethod(
          this,
          [this, request, share] {
            if (request == request_ && on_progress) on_progress(share);
          },
          Qt::QueuedConnection);
    };
    auto answer = answer_of(std::move(copy), finder, settings, token, progress);
    QMetaObject::invokeMethod(
        this, [this, request, answer = std::move(answer)] { deliver(request, answer); }, Qt::QueuedConnection);
    finished->store(true);
  });
}

void FindingsWork::deliver(std::uint64_t request, const AnswerResult& answer) {
  if (request != request_) return;
  busy_ = false;
  if (on_done) on_done(answer);
}

}  // namespace likeleaf::ui
