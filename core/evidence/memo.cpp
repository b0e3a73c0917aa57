#include "core/evidence/memo.h"

#include <bit>
#include <utility>

namespace likeleaf::evidence {
namespace {

enum Question : std::int64_t { difference, equivalence, interval, lots, assessors };

std::vector<std::int64_t> key_of(Question question, const stats::Weighted& v, std::uint64_t seed) {
  std::vector<std::int64_t> key{question, std::bit_cast<std::int64_t>(seed), v.d_den, v.w_den, v.lots};
  for (std::size_t g = 0; g < v.size(); ++g) key.insert(key.end(), {v.d[g], v.w[g], v.lot[g], v.order[g]});
  return key;
}

}  // namespace

template <class T, class Work>
Result<T> Memo::once(Key key, Work work) {
  {
    const std::lock_guard lock(mutex_);
    if (const auto found = known_.find(key); found != known_.end()) return std::get<T>(found->second);
  }
  Result<T> made = work();
  if (!made) return made;
  const std::lock_guard lock(mutex_);
  ++worked_out_;
  const auto [place, added] = known_.emplace(std::move(key), *made);
  if (added) by_age_.push_back(place);
  if (by_age_.size() > most_) {
    known_.erase(by_age_.front());
    by_age_.pop_front();
  }
  return made;
}

Result<stats::SignFlip> Memo::sign_flip(const stats::Weighted& values, std::uint64_t seed,
                                        const std::stop_token& stop) {
  return once<stats::SignFlip>(key_of(difference, values, seed), [&] { return stats::sign_flip(values, seed, stop); });
}

Result<stats::Equivalence> Memo::flip_equivalence(const stats::Weighted& values, const stats::Rational& margin,
                                                  std::uint64_t seed, const std::stop_token& stop) {
  auto key = key_of(equivalence, values, seed);
  key.insert(key.end(), {margin.num, margin.den});
  return once<stats::Equivalence>(std::move(key), [&] { return stats::flip_equivalence(values, margin, seed, stop); });
}

Result<std::optional<stats::FlipInterval>> Memo::flip_interval(const stats::Weighted& values, double alpha,
                                                               std::uint64_t seed, const std::stop_token& stop) {
  auto key = key_of(interval, values, seed);
  key.push_back(std::bit_cast<std::int64_t>(alpha));
  return once<std::optional<stats::FlipInterval>>(std::move(key),
                                                  [&] { return stats::flip_interval(values, alpha, seed, stop); });
}

Result<stats::UnlikeLots> Memo::unlike_lots(const stats::Weighted& values, std::uint64_t seed,
                                            const std::stop_token& stop) {
  return once<stats::UnlikeLots>(key_of(lots, values, seed), [&] { return stats::unlike_lots(values, seed, stop); });
}

Result<stats::UnlikeAssessors> Memo::unlike_assessors(std::span<const stats::TastedPair> tasted, std::int64_t grid,
                                                      std::uint64_t seed, const std::stop_token& stop) {
  Key key{assessors, std::bit_cast<std::int64_t>(seed), grid};
  for (const auto& t : tasted) key.insert(key.end(), {t.brew_pair, t.assessor, t.d, t.b_first ? 1 : 0, t.halves});
  return once<stats::UnlikeAssessors>(std::move(key),
                                      [&] { return stats::unlike_assessors(tasted, grid, seed, stop); });
}

std::size_t Memo::worked_out() const {
  const std::lock_guard lock(mutex_);
  return worked_out_;
}

}  // namespace likeleaf::evidence
