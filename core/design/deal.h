#pragma once
// From a plan to a key and servings: portions drawn to levels, blind codes, sides, order, sittings, spares.
#include <array>
#include <cstdint>
#include <vector>

#include "core/base/entropy.h"
#include "core/base/result.h"
#include "core/domain/key.h"
#include "core/domain/plan.h"
#include "core/domain/serving.h"

namespace likeleaf::design {

/// How well the draw is balanced, counted over contrast pairs; shown before the seal, stored with the sealed plan's
/// notes. Never more than one in a pair or for an assessor; the pour orders of each contrast never differ by more than
/// one, nor do those of all contrasts together.
struct Balance {
  int most_unequal_in_a_pair = 0;        ///< |times b left − times b right| within one brew pair over its assessors
  int most_unequal_for_an_assessor = 0;  ///< within one assessor over the trial
  int pour_order_difference = 0;         ///< brew pairs with b poured first minus a poured first
  std::uint64_t reference_set_log2 = 0;  ///< log2 of the number of equally likely level assignments: G
};

struct Deal {
  Key key;
  std::vector<BlindServing> servings;
  Balance balance;
};

/// The open parts (ids, codes, places) come from one stream, the keyed parts (levels, portions, kinds' brews) from
/// another, so that two plans alike but for the key give byte-identical open sides. Ids come from `ids`.
/// With own brews every taster has brews, pairs and codes of their own, and a lot's sets are numbered on over tasters.
/// Refuses a plan without what a draw needs (two levels, lots, tasters, 1 to 40 brew pairs, controls on levels and
/// sittings that exist; check() asks for more), a repeat serving whose sitting cannot hold a brew pair of its lot, and
/// a plan whose codes would run out (more than 900, spares included).
Result<Deal> deal(const Plan& plan, const std::array<std::uint8_t, 32>& seed, const std::array<std::uint8_t, 32>& salt,
                  Entropy& ids);

}  // namespace likeleaf::design
