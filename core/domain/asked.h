#pragma once
// What a plan asks of a brew.
#include <cstdint>

#include "core/domain/plan.h"

namespace likeleaf {

/// What is taken where a plan gives a target and no tolerance (house conventions): ±2 °C, ±3 s, ±0.1 g of leaf (as
/// ISO 3103 allows its large pot), ±2 g of water; 0 for what has no number or is a limit.
std::int64_t default_tolerance(ConstantKind kind);

}  // namespace likeleaf
