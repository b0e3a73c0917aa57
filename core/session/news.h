#pragma once
// What the session tells whoever listens, in words that a taster's side may hear too.
#include <cstdint>
#include <functional>
#include <optional>
#include <utility>

#include "core/base/clock.h"
#include "core/base/result.h"

namespace likeleaf {

using Ticket = std::uint64_t;  ///< 0: nothing had to be kept

struct Kept {
  Ticket up_to = 0;  ///< everything up to here is on disk
  Moment at;
  std::optional<Error> not_kept;  ///< set when ticket `up_to` could not be written; it stays on screen, retry offered
};

/// Lives as long as the subscriber wants to hear; destroying it ends the subscription.
class Subscription {
 public:
  Subscription() = default;
  explicit Subscription(std::function<void()> end) : end_(std::move(end)) {}
  Subscription(Subscription&& other) noexcept : end_(std::exchange(other.end_, nullptr)) {}
  Subscription& operator=(Subscription&& other) noexcept {
    if (this != &other) {
      if (end_) end_();
      end_ = std::exchange(other.end_, nullptr);
    }
    return *this;
  }
  Subscription(const Subscription&) = delete;
  Subscription& operator=(const Subscription&) = delete;
  ~Subscription() {
    if (end_) end_();
  }

 private:
  std::function<void()> end_;
};

}  // namespace likeleaf
