#pragma once
#include <string>

#include "core/base/result.h"

namespace likeleaf::wording {

/// One sentence in the user's words: field, value, what is allowed, where.
std::string sentence(const Error& error);

}  // namespace likeleaf::wording
