#include "core/store/writer.h"

#include <sqlite3.h>

#include <chrono>
#include <exception>
#include <utility>

#include "core/store/book.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace {
constexpr auto idle_before_checkpoint = std::chrono::seconds(2);
/// Pages of 4 KiB: under steady writing there is no idle moment, and the journal would grow without end.
constexpr int most_log_pages = 1000;
}  // namespace

Writer::Writer(Book& book, std::function<void(const Report&)> announce)
    : book_(book), announce_(std::move(announce)), thread_([this](const std::stop_token& stop) { work(stop); }) {}

Writer::~Writer() {
  ending_ = true;
  retry();
  thread_.request_stop();
  thread_.join();
  sqlite3_wal_hook(book_.writing().getHandle(), nullptr, nullptr);
}

std::uint64_t Writer::last_ticket() {
  const std::lock_guard lock(mutex_);
  return last_ticket_;
}

std::uint64_t Writer::add(Job job) {
  const std::lock_guard lock(mutex_);
  queue_.push_back({++last_ticket_, std::move(job)});
  try_ = true;
  wake_.notify_one();
  return last_ticket_;
}

Result<std::uint64_t> Writer::barrier(Job job) {
  if (auto clear = flush(); !clear) return tl::unexpected<Error>(clear.error());
  std::unique_lock lock(mutex_);
  const auto ticket = ++last_ticket_;
  queue_.push_back({ticket, std::move(job), true});
  try_ = true;
  wake_.notify_one();
  settled_.wait(lock, [&] { return kept_ >= ticket || refused_ == ticket; });
  if (refused_ == ticket) return tl::unexpected<Error>(*refusal_);
  return ticket;
}

Result<void> Writer::flush() {
  std::unique_lock lock(mutex_);
  settled_.wait(lock, [&] { return !busy_ && (queue_.empty() || (stands_ && !try_)); });
  if (stands_) return tl::unexpected<Error>(*stands_);
  return {};
}

void Writer::retry() {
  const std::lock_guard lock(mutex_);
  try_ = !queue_.empty();
  wake_.notify_one();
}

void Writer::work(const std::stop_token& stop) {
  bool checkpoint_due = false;
  count_log();
  std::unique_lock lock(mutex_);
  for (;;) {
    const auto ready = [&] { return try_; };
    const bool woken =
        checkpoint_due ? wake_.wait_for(lock, stop, idle_before_checkpoint, ready) : wake_.wait(lock, stop, ready);
    if (woken) {
      drain(lock);
      checkpoint_due = true;
    } else if (stop.stop_requested()) {
      return;
    } else {
      lock.unlock();
      checkpoint();
      checkpoint_due = false;
      lock.lock();
    }
  }
}

/// Everything that waits goes into one transaction. When that fails, one by one, so that what can be kept is kept and
/// the first that cannot be is known; those behind it were made on top of it and wait.
void Writer::drain(std::unique_lock<std::mutex>& lock) {
  while (try_ && !queue_.empty()) {
    try_ = false;
    busy_ = true;
    const std::size_t count = queue_.size();
    // Only this thread takes from the queue, and add() to a deque leaves references valid, but not its iterators.
    const std::deque<Waiting> batch(queue_.begin(), queue_.end());
    lock.unlock();
    std::optional<Error> error = commit(batch, 0, count);
    if (!error) {
      settle(batch.back().ticket, count);
    } else {
      std::size_t done = 0;
      if (count > 1)
        while (done < count && !(error = commit(batch, done, 1))) settle(batch[done++].ticket, 1);
      if (done < count) {
        const Waiting& failed = batch[done];
        {
          const std::lock_guard relock(mutex_);
          if (failed.barrier) {
            queue_.pop_front();
            refused_ = failed.ticket;
            refusal_ = error;
            if (!queue_.empty()) try_ = true;
          } else {
            stands_ = error;
          }
        }
        announce_({failed.ticket, error});
      }
    }
    lock.lock();
    busy_ = false;
    settled_.notify_all();
    if (log_pages_ < most_log_pages) continue;
    // After the news, so that nobody waits for it.
    lock.unlock();
    checkpoint();
    lock.lock();
  }
  try_ = false;
}

void Writer::settle(std::uint64_t up_to, std::size_t count) {
  {
    const std::lock_guard lock(mutex_);
    queue_.erase(queue_.begin(), queue_.begin() + static_cast<std::ptrdiff_t>(count));
    kept_ = up_to;
    stands_.reset();
  }
  announce_({up_to, std::nullopt});
  settled_.notify_all();
}

std::optional<Error> Writer::commit(const std::deque<Waiting>& batch, std::size_t from, std::size_t count) {
  Connection& db = book_.writing();
  // On the way out there is no later: then rather into the file that is open, wherever it lies now, than lost.
  if (!ending_)
    if (const auto there = book_.in_place(); !there) return there.error();
  try {
    SQLite::Transaction transaction(db, SQLite::TransactionBehavior::IMMEDIATE);
    for (std::size_t i = from; i < from + count; ++i) batch[i].job(db);
    transaction.commit();
    return std::nullopt;
  } catch (const SQLite::Exception& problem) {
    return error_of(problem, &db, book_.path().string());
  } catch (const BadRow& bad) {
    return bad.error;
  } catch (const std::exception& problem) {
    return Error{ErrorKind::internal, {}, problem.what(), {}, book_.path().string(), Field::book};
  }
}

void Writer::count_log() {
  const auto note = [](void* pages, sqlite3*, const char*, int count) {
    *static_cast<int*>(pages) = count;
    return SQLITE_OK;
  };
  sqlite3_wal_hook(book_.writing().getHandle(), note, &log_pages_);
}

void Writer::checkpoint() {
  log_pages_ = 0;
  try {
    // Readers may hold it back; the next idle moment or the close does the rest.
    text_of(book_.writing(), "PRAGMA wal_checkpoint(PASSIVE)");
  } catch (const SQLite::Exception&) {
    // What is kept stands in the journal; a checkpoint that fails loses nothing and is tried again.
  }
}

}  // namespace likeleaf::store
