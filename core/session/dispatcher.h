#pragma once
// How the writer's thread hands news back to the session's thread. The window queues it in its event loop, tests pump
// it by hand, the command line runs it when it flushes.
#include <deque>
#include <functional>
#include <mutex>

namespace likeleaf {

class Dispatcher {
 public:
  virtual ~Dispatcher() = default;
  /// May be called from any thread; the function runs later on the session's thread.
  virtual void post(std::function<void()> work) = 0;
};

/// Keeps the work until pump() is called.
class HandDispatcher final : public Dispatcher {
 public:
  void post(std::function<void()> work) override {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(std::move(work));
  }
  /// Runs everything that waits; returns how many ran.
  int pump() {
    int ran = 0;
    for (;;) {
      std::function<void()> next;
      {
        const std::lock_guard lock(mutex_);
        if (waiting_.empty()) return ran;
        next = std::move(waiting_.front());
        waiting_.pop_front();
      }
      next();
      ++ran;
    }
  }

 private:
  std::mutex mutex_;
  std::deque<std::function<void()>> waiting_;
};

}  // namespace likeleaf
