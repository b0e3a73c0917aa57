#pragma once
// Blind codes: three digits, unique in a trial, and the two of a pair unlike enough not to be taken for each other.
#include <vector>

#include "core/base/result.h"
#include "core/design/draw.h"
#include "core/domain/serving.h"

namespace likeleaf::design {

/// The two codes of one pair; which of them holds what is settled elsewhere, from another stream.
struct CodePair {
  BlindCode one, two;
  bool operator==(const CodePair&) const = default;
};

inline constexpr std::size_t codes_there_are = 900;  ///< 100 to 999

/// Digits that two codes have in common in the same place, 0 to 3.
int digits_shared(BlindCode a, BlindCode b);

/// So many pairs of codes, all different, the two of a pair sharing at most one digit in place. Every code is equally
/// likely for every cup. Refused when more than 900 codes would be needed.
Result<std::vector<CodePair>> draw_codes(Draw& draw, std::size_t pairs);

/// Pairs kept in reserve for a trial of so many pairs: a quarter of them, rounded up, and at least six.
std::size_t spare_pairs(std::size_t pairs);

}  // namespace likeleaf::design
