#pragma once
// What the flip test and its interval share: their limits, and the patterns that are drawn where there are too many to
// count. For the .cpp files of this folder.
#include <array>
#include <cstdint>
#include <span>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/task.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/random.h"
#include "core/stats/sign_flip.h"
#include "core/stats/wide.h"

namespace likeleaf::stats {

inline constexpr std::int64_t most_cells = std::int64_t{1} << 22;  ///< 32 MiB a table
inline constexpr std::size_t most_counted = 62;                    ///< 2^62 patterns and their double fit 64 bits
/// Most values whose patterns are counted by sorted halves where no table serves the test. The interval takes 0.2 s
/// there, and twice as long for each two values more.
inline constexpr std::size_t most_halved = 34;
/// Most values whose halves are merged at all: as a faster way than a table, and for the interval of a counted test.
inline constexpr std::size_t most_merged = 40;

inline tl::unexpected<Error> cancelled() {
  return fail(ErrorKind::cancelled);
}

/// Weights and values by value, then weight: nothing depends on the order of the rows, and the test and its interval
/// draw the same patterns.
Weighted in_order(const Weighted& values);

/// sign_flip counts the patterns of these values, or of any shift of them that is as fine. Where it draws, the interval
/// draws too, so that the two never contradict each other.
bool test_is_counted(const Weighted& values);

/// Adds up chosen members of up to many values, eight at a time from tables.
class Picker {
 public:
  explicit Picker(std::span<const std::int64_t> values) : blocks_((values.size() + 7) / 8) {
    for (std::size_t b = 0; b < blocks_.size(); ++b)
      for (std::size_t mask = 0; mask < 256; ++mask) {
        std::int64_t sum = 0;
        for (std::size_t i = 0; i < 8 && 8 * b + i < values.size(); ++i)
          if ((mask >> i) & 1u) sum += values[8 * b + i];
        blocks_[b][mask] = sum;
      }
  }
  [[nodiscard]] std::int64_t sum(std::span<const std::uint64_t> words) const {
    std::int64_t total = 0;
    for (std::size_t b = 0; b < blocks_.size(); ++b) total += blocks_[b][(words[b / 8] >> (8 * (b % 8))) & 255u];
    return total;
  }

 private:
  std::vector<std::array<std::int64_t, 256>> blocks_;
};

/// Calls use(words) for each random subset ("the values whose sign is turned"); false when stopped.
template <class Use>
bool random_subsets(std::size_t n, std::uint64_t seed, const std::stop_token& stop, const Progress& progress, Use use) {
  Draws draws(seed, Stream::sign_flip);
  std::vector<std::uint64_t> words((n + 63) / 64);
  for (std::uint64_t i = 0; i < flip_draws; ++i) {
    if (i % 8192 == 0) {
      if (stop.stop_requested()) return false;
      if (progress) progress(static_cast<double>(i) / static_cast<double>(flip_draws));
    }
    for (std::uint64_t& w : words) w = draws.bits();
    if (n % 64 != 0) words.back() &= (std::uint64_t{1} << (n % 64)) - 1;
    use(std::span<const std::uint64_t>(words));
  }
  return true;
}

}  // namespace likeleaf::stats
