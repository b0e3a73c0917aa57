#pragma once
// The words the panel agreed on at its open reference pair, before the first sitting: written into the draft, or after
// the seal as a note on the plan, since the pair is often tasted on the day itself.
#include <string>

#include "core/acts/command.h"

namespace likeleaf {

/// The field of the plan note that keeps them after the seal.
inline constexpr const char* agreed_words_field = "agreed words";

/// The words as they stand: the newest note, else the plan's; empty when nothing was agreed.
std::string agreed_words(const Trial& trial);
/// Nobody has begun a sheet, the warm-up's included: what the words mean may still be settled.
bool words_still_open(const Trial& trial);
/// The command that keeps them, in the draft or as a note. Refused once a sheet was begun, after the seal when there is
/// nothing to say, and for text that cannot be kept.
Result<Command> keep_agreed_words(const Trial& trial, const std::string& words);

}  // namespace likeleaf
