#pragma once
// What a taster's connection may read: codes, places, sheets. Everything else, the keyed side first of all, is refused
// by SQLite's authorizer, whatever the query. This header reaches neither the key nor the brews.
#include <vector>

#include "core/base/result.h"
#include "core/domain/serving.h"

namespace SQLite {
class Database;
}

namespace likeleaf {
struct Trial;
}

namespace likeleaf::store {

/// Puts the authorizer on a connection: reading the open tables, and nothing else.
void make_blind(SQLite::Database& connection);

/// One assessor's live servings, warm-ups included, in the order of sitting and place.
Result<std::vector<BlindServing>> read_flight(SQLite::Database& blind, IdOf<Trial> trial, IdOf<Assessor> assessor);

}  // namespace likeleaf::store
