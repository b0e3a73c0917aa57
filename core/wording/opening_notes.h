#pragma once
#include <string>

#include "core/domain/opening_note.h"

namespace likeleaf::wording {

/// One sentence or two of a book that was opened, with its path.
std::string sentence(const OpeningNote& note);

}  // namespace likeleaf::wording
