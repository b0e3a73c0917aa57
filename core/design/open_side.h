#pragma once
// The open part of a deal: pair ids, codes, places, and who has which code left. It is made from the shape of the
// sittings alone: what it is not handed (lots, levels, kinds of pair) it cannot give away.
#include <cstddef>
#include <vector>

#include "core/base/entropy.h"
#include "core/base/result.h"
#include "core/design/codes.h"
#include "core/design/draw.h"
#include "core/domain/serving.h"

namespace likeleaf::design {

/// All that the open side knows of a plan.
struct OpenShape {
  struct Sitting {
    std::size_t pairs = 0;  ///< contrasts and controls together; the warm-up not counted
    bool warm_up = false;
  };
  std::vector<Sitting> sittings;
  /// Those who drink from the same brews: one table of all assessors, or a table for each where brews are their own.
  std::vector<std::vector<IdOf<Assessor>>> tables;
};

/// One pair on one table.
struct OpenSlot {
  IdOf<Pair> pair;
  std::size_t sitting = 0;  ///< 0-based
  std::size_t table = 0;
  int place = 0;  ///< 0 is the warm-up
  CodePair codes;
};

struct OpenSpare {
  IdOf<Pair> pair;
  CodePair codes;
};

struct OpenSide {
  std::vector<OpenSlot> slots;  ///< by sitting, place, table
  std::vector<OpenSpare> spares;
  std::vector<BlindServing> servings;
};

/// Refused when codes run out.
Result<OpenSide> deal_open_side(const OpenShape& shape, Draw& draw, Entropy& ids);

}  // namespace likeleaf::design
