#include "core/store/blind.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "core/codec/value_text.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace {

// A list of what is allowed, not of what is forbidden: a table that a later schema adds is closed until it is named.
constexpr std::array<std::string_view, 7> open_tables{"serving", "sheet",     "mark", "direct",
                                                      "word",    "day_state", "void"};

int allow(void*, int action, const char* table, const char*, const char*, const char*) {
  if (action == SQLITE_SELECT || action == SQLITE_FUNCTION) return SQLITE_OK;
  if (action == SQLITE_READ && table != nullptr && std::ranges::find(open_tables, table) != open_tables.end())
    return SQLITE_OK;
  return SQLITE_DENY;
}

}  // namespace

void make_blind(SQLite::Database& connection) {
  sqlite3_set_authorizer(connection.getHandle(), &allow, nullptr);
}

Result<std::vector<BlindServing>> read_flight(SQLite::Database& blind, IdOf<Trial> trial, IdOf<Assessor> assessor) {
  try {
    auto rows = bound(blind,
                      "SELECT document FROM serving WHERE trial = ? AND assessor = ? "
                      "AND NOT EXISTS (SELECT 1 FROM void v WHERE v.trial = serving.trial AND v.pair = serving.pair)",
                      trial, assessor);
    std::vector<BlindServing> flight;
    while (rows.executeStep()) {
      auto serving = codec::read<BlindServing>(text_at(rows, 0));
      if (!serving) return tl::unexpected<Error>(serving.error());
      flight.push_back(*serving);
    }
    std::ranges::stable_sort(flight, [](const BlindServing& x, const BlindServing& y) {
      return std::pair(x.sitting, x.place) < std::pair(y.sitting, y.place);
    });
    return flight;
  } catch (const SQLite::Exception& problem) {
    return tl::unexpected<Error>(error_of(problem, &blind, {}));
  }
}

}  // namespace likeleaf::store
