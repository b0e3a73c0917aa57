#pragma once
// What every step of a finding is handed. Private to core/evidence.
#include <stop_token>

#include "core/evidence/memo.h"

namespace likeleaf::evidence {

struct Work {
  std::stop_token stop;
  Memo& memo;  ///< of the caller of find()
};

}  // namespace likeleaf::evidence
