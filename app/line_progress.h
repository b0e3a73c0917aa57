#pragma once
// Long work of the command line: "Looking the book over: 37 %" on standard error where that is a terminal, in one line
// that is wiped at the end; an interrupt (Ctrl+C) asks the work to stop, so that the book is closed as it should be.
#include <optional>
#include <stop_token>
#include <string>

#include "core/base/task.h"

namespace likeleaf::app {

class LineProgress {
 public:
  /// One at a time: an interrupt is the whole program's.
  explicit LineProgress(std::string what);
  ~LineProgress();
  LineProgress(const LineProgress&) = delete;
  LineProgress& operator=(const LineProgress&) = delete;

  [[nodiscard]] std::stop_token stop() const { return stop_.get_token(); }
  /// Valid as long as this lives.
  [[nodiscard]] Progress hear();
  /// Wipes the line and gives the interrupt back to the system.
  void done();

 private:
  void show(double share_done);

  std::string what_;
  std::stop_source stop_;
  bool terminal_;
  std::optional<int> shown_;  ///< per cent
  bool done_ = false;
};

}  // namespace likeleaf::app
