#pragma once
// Letters of a text for people; typed text and its bytes are core/base/utf8.h.
#include <string>

namespace likeleaf {

/// With a capital at its beginning, where that is a letter a to z: names are not ours to turn.
std::string upper_first(std::string text);
/// Without one, where it begins with A to Z.
std::string lower_first(std::string text);

}  // namespace likeleaf
