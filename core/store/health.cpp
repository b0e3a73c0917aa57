#include "core/store/health.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/codec/seal.h"
#include "core/store/load.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace {

void check_file(Db& db, Health& health) {
  auto rows = bound(db, "PRAGMA integrity_check(100)");
  while (rows.executeStep())
    if (const auto line = text_at(rows, 0); line != "ok")
      health.findings.push_back({ErrorKind::damaged, "book", line, {}, {}});
  auto orphans = bound(db, "PRAGMA foreign_key_check");
  while (orphans.executeStep())
    health.findings.push_back({ErrorKind::damaged, text_at(orphans, 0), "a row without its owner", {}, {}});
}

bool seed_known(const Key& key) {
  return std::ranges::any_of(key.seed, [](std::uint8_t byte) { return byte != 0; });
}

void check_digests(const Trial& trial, Health& health) {
  const std::string where = fmt::format("trial {}", trial.draft.number);
  const auto changed = [&](std::string field) {
    health.findings.push_back({ErrorKind::damaged, std::move(field), "changed since its digest was taken", {}, where});
  };
  if (trial.sealed) {
    ++health.sealed;
    if (plan_digest(*trial.sealed) != trial.sealed->plan_digest) changed("sealed plan");
    // A key that came in a bundle has no seed, and its digest cannot be taken again from what is left.
    if (trial.key && seed_known(*trial.key) && key_digest(*trial.key) != trial.sealed->key_digest) changed("key");
  }
  for (const auto& [serving, sheet] : trial.sheets) {
    if (!sheet->locked) continue;
    ++health.locked_sheets;
    if (sheet_digest(*sheet) != sheet->digest) changed(fmt::format("sheet {}", serving.text()));
  }
  if (trial.unmasked && sheets_digest(trial) != trial.unmasked->sheets_digest) changed("sheets at the unmask");
}

}  // namespace

Health check_health(SQLite::Database& db) {
  Health health;
  try {
    check_file(db, health);
    for (const auto& id : all_trials(db)) {
      ++health.trials;
      const auto trial = load_trial(db, id);
      if (trial)
        check_digests(*trial, health);
      else
        health.findings.push_back(trial.error());
    }
    if (const auto registers = load_registers(db); !registers) health.findings.push_back(registers.error());
    if (const auto attributes = load_attributes(db); !attributes) health.findings.push_back(attributes.error());
  } catch (const SQLite::Exception& problem) {
    health.findings.push_back(error_of(problem, &db, {}));
  }
  return health;
}

}  // namespace likeleaf::store
