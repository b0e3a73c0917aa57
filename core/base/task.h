#pragma once
// Long work: cancelled by std::stop_token, reported by a callback with the share done (0 to 1).
#include <functional>
#include <stop_token>

namespace likeleaf {
using Progress = std::function<void(double share_done)>;
}  // namespace likeleaf
