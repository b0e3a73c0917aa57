#pragma once
// Looking for aroma words while somebody types them.
#include <optional>
#include <string_view>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

namespace likeleaf {

/// Words that hold what was typed, capital letters or not: those that begin with it first, each in the lexicon's order,
/// at most `most`. Nothing for fewer than three letters.
std::vector<const AromaWord*> find_words(const std::vector<AromaWord>& lexicon, std::string_view typed,
                                         std::size_t most);
/// What a person typed as a mark of a cup: a word of the lexicon by its id, else the word as typed; "toasted nut 2" has
/// a strength of 2. `typed` has no white space at its ends. Nothing for no word.
std::optional<WordMark> parse_word(const std::vector<AromaWord>& lexicon, std::string_view typed);

}  // namespace likeleaf
