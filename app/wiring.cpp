#include "app/wiring.h"

#include <iostream>

#include "core/base/number_text.h"
#include "core/wording/errors.h"

namespace likeleaf::app {

int refuse(const Error& error) {
  std::string line = "likeleaf: " + wording::sentence(error);
  for (auto& c : line)
    if (c == '\n' || c == '\r') c = ' ';
  std::cerr << line << '\n';
  return bad_input;
}

Result<void> take_trial(Session& session, const std::string& which) {
  if (const auto id = IdOf<Trial>::parse(which)) return session.take(*id);
  const auto number = parse_decimal(which, 0, 1, 1'000'000, "trial", "a trial’s number or id");
  if (!number) return tl::unexpected(number.error());
  return session.take_number(static_cast<int>(*number));
}

}  // namespace likeleaf::app
