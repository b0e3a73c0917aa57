#pragma once
// What people typed, made fit for a terminal: a name must not move the cursor, colour what follows or turn it round.
#include <string>
#include <string_view>

namespace likeleaf {

/// Text for a terminal: every control character but the line end (C0, DEL, C1), every sign that turns the direction of
/// what follows, the separators of lines and paragraphs, U+FFFE and U+FFFF, and every byte that is not UTF-8 as U+FFFD.
std::string terminal_text(std::string_view text);
/// The same in one line: line ends become spaces.
std::string terminal_line(std::string_view text);
/// JSON text for a terminal, with the same meaning: such characters, which can only stand inside its strings, are
/// written as \uXXXX.
std::string terminal_json(std::string_view json);

}  // namespace likeleaf
