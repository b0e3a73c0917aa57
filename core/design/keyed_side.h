#pragma once
// The keyed part of a deal: which lot, levels and kind of pair each slot of the open side holds, which of its two codes
// is level b, the order of brewing, and which portion of leaf goes into which brew.
#include <vector>

#include "core/base/entropy.h"
#include "core/base/result.h"
#include "core/design/draw.h"
#include "core/design/open_side.h"
#include "core/domain/key.h"
#include "core/domain/plan.h"
#include "core/planning/needs.h"

namespace likeleaf::design {

/// Brews, pairs and spares of the key; seed, salt and generator are filled in by deal(). The plan has passed the checks
/// of deal() and `open` was dealt for `shapes`. Refuses a repeat serving whose sitting cannot hold a brew pair of its
/// lot.
Result<Key> deal_keyed_side(const Plan& plan, const std::vector<SittingShape>& shapes, const OpenSide& open,
                            std::size_t owners, Draw& draw, Entropy& ids);

}  // namespace likeleaf::design
