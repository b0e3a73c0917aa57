#include "core/store/health.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>

#include "core/codec/seal.h"
#include "core/store/load.h"
#include "core/store/sql.h"

namespace likeleaf::store {

namespace {

/// How much of the time SQLite's look at the file takes, measured on 1 000 trials.
constexpr double share_of_file = 0.25;

/// While it lives, SQLite asks between its own steps whether to go on; not inside the walk of one tree.
class Pulse {
 public:
  Pulse(Db& db, std::stop_token stop, std::function<void()> beat)
      : db_(db), stop_(std::move(stop)), beat_(std::move(beat)) {
    sqlite3_progress_handler(db_.getHandle(), steps_between_beats, &Pulse::ask, this);
  }
  ~Pulse() { sqlite3_progress_handler(db_.getHandle(), 0, nullptr, nullptr); }
  Pulse(const Pulse&) = delete;
  Pulse& operator=(const Pulse&) = delete;

 private:
  static constexpr int steps_between_beats = 1'000'000;
  static int ask(void* self) {
    const auto& pulse = *static_cast<Pulse*>(self);
    pulse.beat_();
    return pulse.stop_.stop_requested() ? 1 : 0;
  }
  Db& db_;
  std::stop_token stop_;
  std::function<void()> beat_;
};

void check_file(Db& db, Health& health) {
  auto rows = bound(db, "PRAGMA integrity_check(100)");
  while (rows.executeStep())
    if (const auto line = text_at(rows, 0); line != "ok")
      health.findings.push_back({ErrorKind::damaged, {}, line, {}, {}, Field::book});
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

Health check_health(SQLite::Database& db, const std::stop_token& stop, const Progress& progress) {
  Health health;
  double share = 0;
  const auto tell = [&] {
    if (progress) progress(share);
  };
  try {
    const Pulse pulse(db, stop, tell);
    check_file(db, health);
    const auto trials = all_trials(db);
    for (const auto& id : trials) {
      share = share_of_file + (1 - share_of_file) * health.trials / static_cast<double>(trials.size());
      tell();
      health.stopped = stop.stop_requested();
      if (health.stopped) return health;
      ++health.trials;
      const auto trial = load_trial(db, id);
      if (trial)
        check_digests(*trial, health);
      else if (!stop.stop_requested())
        health.findings.push_back(trial.error());
    }
    if (const auto registers = load_registers(db); !registers) health.findings.push_back(registers.error());
    if (const auto attributes = load_attributes(db); !attributes) health.findings.push_back(attributes.error());
    share = 1;
    tell();
  } catch (const SQLite::Exception& problem) {
    health.stopped = problem.getErrorCode() == SQLITE_INTERRUPT;
    if (!health.stopped) health.findings.push_back(error_of(problem, &db, {}));
  }
  return health;
}

}  // namespace likeleaf::store
