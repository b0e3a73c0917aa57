#include "core/store/ladder.h"

#include <fmt/format.h>

#include "core/base/embedded.h"

namespace likeleaf::store {

Ladder built_in_ladder() {
  Ladder ladder;
  while (const auto step = embedded(fmt::format("resources/schema/{:03}.sql", ladder.newest() + 1)))
    ladder.steps.push_back(*step);
  return ladder;
}

}  // namespace likeleaf::store
