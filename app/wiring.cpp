#include "app/wiring.h"

#include <iostream>

#include "core/base/number_text.h"
#include "core/base/terminal_text.h"
#include "core/wording/errors.h"

namespace likeleaf::app {

void print(std::string_view text) {
  std::cout << terminal_text(text);
}

void print_json(std::string_view json) {
  std::cout << terminal_json(json);
}

void complain(std::string_view line) {
  std::cerr << "likeleaf: " << terminal_line(line) << '\n';
}

int refuse(const Error& error) {
  complain(wording::sentence(error));
  return bad_input;
}

Result<void> take_trial(Session& session, const std::string& which) {
  if (const auto id = IdOf<Trial>::parse(which)) return session.take(*id);
  const auto number = parse_decimal(which, 0, 1, 1'000'000, "trial", "a trial’s number or id");
  if (!number) return tl::unexpected(number.error());
  return session.take_number(static_cast<int>(*number));
}

}  // namespace likeleaf::app
