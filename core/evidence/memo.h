#pragma once
// Flips and shuffles by the whole numbers they were worked out from. One trial asks the same of the same numbers more
// than once (both ends of cut-off times, the interval at 95 %), and a trial that is looked at again asks all of it
// again.
#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <mutex>
#include <optional>
#include <span>
#include <stop_token>
#include <variant>
#include <vector>

#include "core/base/result.h"
#include "core/stats/brew_pairs.h"
#include "core/stats/equivalence.h"
#include "core/stats/flip_interval.h"
#include "core/stats/sign_flip.h"
#include "core/stats/unlike_assessors.h"
#include "core/stats/unlike_lots.h"

namespace likeleaf::evidence {

/// The functions of core/stats that take time, each worked out once. Threads may share it; two that ask the same at the
/// same time both work it out. Errors are those of the functions and are not kept.
class Memo {
 public:
  /// Keeps the newest `most` results: a trial of three attributes asks for some twenty.
  explicit Memo(std::size_t most = 2000) : most_(most) {}

  Result<stats::SignFlip> sign_flip(const stats::Weighted& values, std::uint64_t seed, const std::stop_token& stop);
  Result<stats::Equivalence> flip_equivalence(const stats::Weighted& values, const stats::Rational& margin,
                                              std::uint64_t seed, const std::stop_token& stop);
  Result<std::optional<stats::FlipInterval>> flip_interval(const stats::Weighted& values, double alpha,
                                                           std::uint64_t seed, const std::stop_token& stop);
  Result<stats::UnlikeLots> unlike_lots(const stats::Weighted& values, std::uint64_t seed, const std::stop_token& stop);
  Result<stats::UnlikeAssessors> unlike_assessors(std::span<const stats::TastedPair> tasted, std::int64_t grid,
                                                  std::uint64_t seed, const std::stop_token& stop);

  /// How often something had to be worked out.
  [[nodiscard]] std::size_t worked_out() const;

 private:
  using Key = std::vector<std::int64_t>;
  using Value = std::variant<stats::SignFlip, stats::Equivalence, std::optional<stats::FlipInterval>, stats::UnlikeLots,
                             stats::UnlikeAssessors>;
  template <class T, class Work>
  Result<T> once(Key key, Work work);

  const std::size_t most_;
  mutable std::mutex mutex_;
  std::map<Key, Value> known_;
  std::deque<std::map<Key, Value>::iterator> by_age_;  ///< oldest first
  std::size_t worked_out_ = 0;
};

}  // namespace likeleaf::evidence
