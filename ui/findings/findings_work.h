#pragma once
// Findings worked out away from the GUI thread, on a copy of their own.
#include <QObject>
#include <atomic>
#include <cstdint>
#include <functional>
#include <list>
#include <memory>
#include <stop_token>
#include <thread>

#include "core/acts/unmask.h"
#include "core/base/result.h"
#include "core/base/task.h"
#include "core/evidence/memo.h"
#include "core/findings/findings.h"
#include "core/report/document.h"

namespace likeleaf::ui {

/// One trial's whole answer, and the report made from it.
struct Answer {
  Unmasked unmasked;
  evidence::Findings findings;
  report::Document document;
};
using AnswerResult = Result<std::shared_ptr<const Answer>>;
/// What works the findings out; replaced in tests.
using Finder = std::function<Result<evidence::Findings>(const Unmasked&, std::stop_token, const Progress&)>;

/// What has been worked out, for all screens that ask: the newest answer, which an unchanged trial gets as it is, and
/// the flips behind the answers of every trial looked at.
struct FindingsShelf {
  std::shared_ptr<const Answer> answer;  ///< read and written on the GUI thread
  Style style;                           ///< in which its report is said
  evidence::Memo memo;
};

/// One request stands at a time: a new one stops the old one, whose answer is dropped. Destroying it stops and joins.
class FindingsWork final : public QObject {
  Q_OBJECT
 public:
  /// Without a shelf it keeps one of its own.
  explicit FindingsWork(std::shared_ptr<FindingsShelf> shelf = nullptr, QObject* parent = nullptr);
  ~FindingsWork() override;
  void set_finder(Finder finder) { finder_ = std::move(finder); }
  void start(Unmasked unmasked, const Style& style);
  /// Stops what stands; nothing is announced.
  void stop();
  [[nodiscard]] bool busy() const { return busy_; }

  /// Heard on the GUI thread, never for a stale request.
  std::function<void(AnswerResult)> on_done;
  std::function<void(double)> on_progress;

 private:
  struct Job {
    std::shared_ptr<std::atomic<bool>> finished = std::make_shared<std::atomic<bool>>(false);
    std::jthread thread;
  };
  void deliver(std::uint64_t request, const Style& style, const AnswerResult& answer);

  std::shared_ptr<FindingsShelf> shelf_;
  Finder finder_;
  std::list<Job> jobs_;
  std::uint64_t request_ = 0;
  bool busy_ = false;
};

}  // namespace likeleaf::ui
