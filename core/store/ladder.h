#pragma once
// The ladder of schemas: step n takes a book from version n − 1 to n.
#include <string_view>
#include <vector>

namespace likeleaf::store {

struct Ladder {
  std::vector<std::string_view> steps;  ///< SQL; the texts live as long as the program
  /// The newest version it leads to.
  [[nodiscard]] int newest() const { return static_cast<int>(steps.size()); }
};

/// The program's own: resources/schema/001.sql, 002.sql, …
Ladder built_in_ladder();

}  // namespace likeleaf::store
