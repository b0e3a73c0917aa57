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

FindingsWork::FindingsWork(std::shared_ptr<FindingsShelf> shelf, QObject* parent)
    : QObject(parent), shelf_(shelf ? std::move(shelf) : std::make_shared<FindingsShelf>()) {
  finder_ = [known = shelf_](const Unmasked& unmasked, std::stop_token stop, const Progress& progress) {
    return evidence::find(unmasked, known->memo, {}, std::move(stop), progress);
  };
}

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
  // Trials are never changed where they lie: the same one has the same findings.
  const auto& known = shelf_->answer;
  if (known && &known->unmasked.trial() == &unmasked.trial() && shelf_->style == style) {
    QMetaObject::invokeMethod(
        this, [this, request, style, known] { deliver(request, style, known); }, Qt::QueuedConnection);
    return;
  }
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
        this, [this, request, style = settings.style, answer = std::move(answer)] { deliver(request, style, answer); },
        Qt::QueuedConnection);
    finished->store(true);
  });
}

void FindingsWork::deliver(std::uint64_t request, const Style& style, const AnswerResult& answer) {
  if (request != request_) return;
  busy_ = false;
  if (answer) {
    shelf_->answer = *answer;
    shelf_->style = style;
  }
  if (on_done) on_done(answer);
}

}  // namespace likeleaf::ui
