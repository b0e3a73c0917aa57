#pragma once
// The only writer of a book: one thread drains a queue of jobs into one transaction, which is one sync of the disk.
#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <functional>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

#include "core/base/result.h"

namespace likeleaf::store {

class Book;
class Connection;

class Writer {
 public:
  /// Writes rows; throws what SQLite throws. Runs on the writer's thread, perhaps more than once (again after a
  /// failure), so it must hold only values and shared immutable parts.
  using Job = std::function<void(Connection&)>;
  /// Everything up to a ticket is on disk, or (with an error) that ticket could not be written and waits.
  struct Report {
    std::uint64_t up_to = 0;
    std::optional<Error> not_kept;
  };

  /// `announce` is called on the writer's thread.
  Writer(Book& book, std::function<void(const Report&)> announce);
  /// Writes what waits, once more if it failed before, then ends the thread.
  ~Writer();
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  /// The ticket that was given out last; 0: none yet.
  std::uint64_t last_ticket();
  /// Queues a job and returns its ticket. A job after a failed one waits behind it, and tries it again first.
  std::uint64_t add(Job job);
  /// Runs one job at once after everything that waits, and only if all that is kept; on an error it is forgotten, so
  /// that a refused seal, lock or unmask cannot happen later by itself.
  Result<std::uint64_t> barrier(Job job);
  /// Waits until nothing waits or something stands in the way; that error.
  Result<void> flush();
  /// Lets the writer try again what it could not write.
  void retry();

 private:
  struct Waiting {
    std::uint64_t ticket;
    Job job;
    bool barrier = false;
  };
  void work(const std::stop_token& stop);
  void drain(std::unique_lock<std::mutex>& lock);
  std::optional<Error> commit(const std::deque<Waiting>& batch, std::size_t from, std::size_t count);
  void settle(std::uint64_t up_to, std::size_t count);
  void count_log();
  void checkpoint();

  Book& book_;
  std::function<void(const Report&)> announce_;
  std::mutex mutex_;
  std::condition_variable_any wake_;  ///< for the writer
  std::condition_variable settled_;   ///< for flush and barrier
  std::deque<Waiting> queue_;
  std::uint64_t last_ticket_ = 0, kept_ = 0;
  std::optional<Error> stands_;           ///< why the head of the queue could not be written
  std::optional<std::uint64_t> refused_;  ///< ticket of a barrier that failed
  std::optional<Error> refusal_;
  bool try_ = false;
  std::atomic<bool> ending_ = false;
  bool busy_ = false;
  int log_pages_ = 0;    ///< in the journal after the last commit; the writer's thread only
  std::jthread thread_;  ///< last: it starts when all the rest is there
};

}  // namespace likeleaf::store
