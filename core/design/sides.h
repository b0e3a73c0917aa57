#pragma once
// Sides: who has which cup left, and with it first.
//
// The open side fixes, for every pair, which assessors have its first-named code left. The keyed side fixes which of
// the two codes holds level b. An assessor's balance over the trial needs both, yet the open side must look the same
// whatever the key says. There is just one way: the assessors are parted into two halves once for the whole trial, and
// one half always has the first code left. (If two pairs parted the assessors differently, somebody would have the two
// pairs' first codes on the same side and somebody else on different sides; were those two the only contrasts, one of
// them would be out of balance by two whichever codes held b.) With one parting, an assessor's balance is the balance
// of "the first code holds b" over the contrast pairs, which is dealt out evenly below.
#include <cstddef>
#include <vector>

#include "core/design/deal.h"
#include "core/design/draw.h"

namespace likeleaf::design {

/// For each assessor: has the first code of every pair left. The halves differ by one where the number is odd.
std::vector<char> part_assessors(Draw& draw, std::size_t assessors);

/// Yes or no for every owner of brews, lot, contrast and brew set, in random order, as even as can be: whatever of
/// owner, lot and contrast is held (one, two, all three or none of them), the yeses and noes among the rest differ by
/// at most one.
class EvenTable {
 public:
  EvenTable(Draw& draw, std::size_t owners, std::size_t lots, std::size_t contrasts, std::size_t sets);
  [[nodiscard]] bool at(std::size_t owner, std::size_t lot, std::size_t contrast, std::size_t set) const {
    return cells_[((owner * lots_ + lot) * contrasts_ + contrast) * sets_ + set] != 0;
  }

 private:
  std::size_t lots_, contrasts_, sets_;
  std::vector<char> cells_;
};

/// What a finished deal really achieved, counted from its servings and key alone, over contrast pairs.
Balance measure_balance(const Key& key, const std::vector<BlindServing>& servings);

}  // namespace likeleaf::design
