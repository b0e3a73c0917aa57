// Bad on purpose: the text of a double by the C locale, which core must not do.
#include <string>
std::string printed_by_locale(double value) {
  return std::to_string(value);
}
