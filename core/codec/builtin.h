#pragma once
// The attributes and aroma words that every book knows, from the embedded resources.
#include <vector>

#include "core/domain/attribute.h"

namespace likeleaf {

/// The eight of resources/attributes.json, in the order of tasting.
const std::vector<Attribute>& builtin_attributes();
/// resources/lexicon.json.
const std::vector<AromaWord>& builtin_lexicon();

}  // namespace likeleaf
