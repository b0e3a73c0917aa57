#pragma once
// The means of up to 2^40 subsets without making them all. For the .cpp files of this folder.
#include <array>
#include <cstdint>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/task.h"
#include "core/stats/flip_means.h"

namespace likeleaf::stats {

/// Sorted halves: the mean of a subset is ≤ δ when Σ w(small − δ) ≤ 0, which two sorted lists of half sums count fast.
/// δ is a whole number of 2^-scale, found by bisection until few enough means are left to be listed.
class Halves {
 public:
  explicit Halves(const Reduced& r);
  /// The subset (weight, weighted sum) at rank `need` from below; nothing when stopped.
  std::optional<Cell<std::uint64_t>> lower_end(std::uint64_t need, const std::stop_token& stop,
                                               const Progress& progress, double from, double to);

 private:
  struct Item {
    std::int64_t w, small;
  };
  struct Sum {
    std::int64_t value;
    std::uint32_t members;
  };
  std::array<std::vector<Item>, 2> half_;
  std::array<std::vector<Sum>, 2> sums_;
  std::int64_t top_ = 0, weight_ = 0;
  int scale_ = 0;

  void make(std::int64_t delta);
  [[nodiscard]] std::uint64_t pairs_up_to(std::int64_t limit) const;
  [[nodiscard]] Cell<std::uint64_t> members(std::uint32_t first, std::uint32_t second) const;
  Cell<std::uint64_t> listed(std::int64_t low, std::int64_t high, std::uint64_t rank);
};

}  // namespace likeleaf::stats
