#include "core/design/codes.h"

#include <algorithm>
#include <string>

namespace likeleaf::design {

namespace {

constexpr int first_code = 100;

bool alike(int a, int b) {
  return digits_shared(*BlindCode::from(a), *BlindCode::from(b)) > 1;
}

/// The pool is all 900 codes in random order; codes 2i and 2i + 1 make pair i, what lies beyond is unused. A pair whose
/// codes are alike trades its second code with a random place of the pool, as long as that makes no other pair alike.
/// Permuting digits within a place leaves the rule as it is, so no code is favoured by the trades.
bool part_alike_codes(Draw& draw, std::vector<int>& pool, std::size_t pairs) {
  for (std::size_t i = 0; i < pairs; ++i) {
    int& second = pool[2 * i + 1];
    for (int tries = 0; alike(pool[2 * i], second); ++tries) {
      if (tries == 100000) return false;
      const auto j = static_cast<std::size_t>(draw.below(pool.size()));
      if (j / 2 == i || alike(pool[2 * i], pool[j])) continue;
      const bool breaks_the_other = j / 2 < i && alike(second, pool[j ^ 1U]);
      if (!breaks_the_other) std::swap(second, pool[j]);
    }
  }
  return true;
}

}  // namespace

int digits_shared(BlindCode a, BlindCode b) {
  int shared = 0;
  for (int x = a.number(), y = b.number(); x > 0; x /= 10, y /= 10) shared += x % 10 == y % 10 ? 1 : 0;
  return shared;
}

std::size_t spare_pairs(std::size_t pairs) {
  return std::max<std::size_t>(6, (pairs + 3) / 4);
}

Result<std::vector<CodePair>> draw_codes(Draw& draw, std::size_t pairs) {
  if (2 * pairs > codes_there_are)
    return fail(ErrorKind::too_large, "blind codes", std::to_string(2 * pairs),
                "at most 900 three-digit codes in a trial, spare codes included");
  std::vector<int> pool(codes_there_are);
  for (std::size_t i = 0; i < pool.size(); ++i) pool[i] = first_code + static_cast<int>(i);
  draw.shuffle(pool);
  if (!part_alike_codes(draw, pool, pairs)) return fail(ErrorKind::internal, "blind codes");
  std::vector<CodePair> result;
  result.reserve(pairs);
  for (std::size_t i = 0; i < pairs; ++i)
    result.push_back({*BlindCode::from(pool[2 * i]), *BlindCode::from(pool[2 * i + 1])});
  return result;
}

}  // namespace likeleaf::design
