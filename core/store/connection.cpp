#include "core/store/connection.h"

#include <string_view>

namespace likeleaf::store {

SQLite::Statement& Connection::statement(const char* sql) {
  const auto found = kept_.find(std::string_view(sql));
  return found != kept_.end() ? found->second : kept_.try_emplace(sql, *this, sql).first->second;
}

}  // namespace likeleaf::store
