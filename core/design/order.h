#pragma once
// Order: in which order the pairs of a sitting come, and which sitting a lot's brew pairs fall into.
#include <cstddef>
#include <vector>

#include "core/design/draw.h"

namespace likeleaf::design {

/// Rows of a Williams design for so many treatments (0-based): the first row runs 1, 2, N, 3, N − 1, …, the others are
/// its cyclic shifts; with an odd number the mirrored rows follow, 2N in all. Every treatment stands once in every
/// place of each square, and follows every other equally often (Williams 1949, Australian Journal of Scientific
/// Research A 2).
std::vector<std::vector<std::size_t>> williams_rows(std::size_t treatments);

/// For each owner of brews the order in which a sitting's pairs (0-based) come. One owner (everybody takes the same
/// pair together): any order, drawn at random for the sitting. Several: rows of a Williams design over pairs in random
/// order.
std::vector<std::vector<std::size_t>> pair_orders(Draw& draw, std::size_t pairs, std::size_t owners);

/// A wish that a sitting holds a brew set of some lot (for a repeat serving).
struct Wish {
  std::size_t sitting = 0, lot = 0;
};

/// The lot of each brew set in the order in which sets fill the sittings: lots in turn, so that a lot's sets lie one a
/// sitting as evenly as the sittings' sizes allow, and then changed by trades between near sittings where a wish needs
/// one. sitting_of_set[i] is the sitting of the i-th set; its size is a multiple of lots. A wish that cannot be met is
/// left unmet.
std::vector<std::size_t> spread_lots(Draw& draw, std::size_t lots, const std::vector<std::size_t>& sitting_of_set,
                                     const std::vector<Wish>& wishes);

}  // namespace likeleaf::design
