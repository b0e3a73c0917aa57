#pragma once
// What the program is made of, put together in one place: clock, entropy, dispatcher, a session on a book.
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/session/session.h"

namespace likeleaf::app {

/// Exit codes of design: 0 success, 2 bad use, 3 bad input.
enum ExitCode : int { success = 0, bad_use = 2, bad_input = 3 };

/// The services of the command line: news of the writer is pumped when a verb flushes.
struct LineServices {
  SystemClock clock;
  SystemEntropy entropy;
  HandDispatcher dispatcher;
  [[nodiscard]] Services services() { return {clock, entropy, dispatcher}; }
};

/// The door of the command line: whatever a person typed goes through one of these, so that it cannot steer a terminal.
void print(std::string_view text);
/// JSON, in the same meaning.
void print_json(std::string_view json);
/// "likeleaf: …" and a line end, on standard error.
void complain(std::string_view line);

/// One line on standard error that says what and where.
int refuse(const Error& error);

/// A trial by number or by id text, put on the bench of the session.
Result<void> take_trial(Session& session, const std::string& which);

}  // namespace likeleaf::app
