#include "app/line_progress.h"

#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <iostream>

namespace likeleaf::app {
namespace {

// All that a handler may touch; the work sees it the next time it tells how far it is.
volatile std::sig_atomic_t interrupted = 0;
void interrupt(int) {
  interrupted = 1;
}

}  // namespace

LineProgress::LineProgress(std::string what) : what_(std::move(what)), terminal_(isatty(STDERR_FILENO) == 1) {
  interrupted = 0;
  std::signal(SIGINT, interrupt);
}

LineProgress::~LineProgress() {
  done();
}

Progress LineProgress::hear() {
  return [this](double share_done) { show(share_done); };
}

void LineProgress::done() {
  if (done_) return;
  done_ = true;
  std::signal(SIGINT, SIG_DFL);
  if (shown_) std::cerr << "\r\x1b[K" << std::flush;
}

void LineProgress::show(double share_done) {
  if (interrupted != 0) stop_.request_stop();
  const int percent = static_cast<int>(share_done * 100);
  if (!terminal_ || shown_ == percent) return;
  shown_ = percent;
  std::cerr << fmt::format("\r{}: {}\u00A0%\x1b[K", what_, percent) << std::flush;
}

}  // namespace likeleaf::app
