#pragma once
// Bad on purpose: uses std::string and leaves it to others to include <string>.
inline std::string leaning() {
  return "on whoever includes me";
}
