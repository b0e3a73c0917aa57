#pragma once
// Everything that can be done to one trial, as values, and apply(): a pure function from snapshot to snapshot.
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/acts/sheet_commands.h"
#include "core/base/clock.h"
#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

// Plan (until the seal)
struct SetPlan {
  Plan plan;
};                  ///< the whole draft; id and number stay
struct ApplySeal {  ///< made by Session::seal, never by hand
  std::shared_ptr<const SealedPlan> sealed;
  std::shared_ptr<const Key> key;
  std::vector<BlindServing> servings;
};
// Brew (stamps until unmask)
struct TickWeighed {
  IdOf<Lot> lot;
  bool weighed = true;
};
struct PutStamp {
  IdOf<Brew> brew;
  StampKind kind;
  int infusion = 1;
};
struct UndoStamp {
  IdOf<Brew> brew;
};  ///< the newest stamp of that brew that is not undone
struct PutReading {
  IdOf<Brew> brew;
  Temperature temperature;
  std::string place;
};
struct PutBrewFacts {  ///< what was weighed and measured; absent stays absent
  IdOf<Brew> brew;
  std::optional<Mass> leaf;
  std::vector<Infusion> infusions;
  std::optional<std::int64_t> tds_permyriad, ph_hundredths;
  std::string chill, note;
};
struct PutServed {
  ServedPair served;
};
struct OpenKey {
  IdOf<Assessor> preparer;
};
struct CloseKey {
  IdOf<Assessor> preparer;
};
// Any time after the seal, with a reason
struct VoidPair {
  IdOf<Pair> pair;
  std::string who, why;
};  ///< takes the next spare; refused to the preparer once a sheet of the pair is locked
struct Exclude {
  IdOf<Serving> serving;
  std::string who, why;
};
struct Amend {
  Amendment amendment;
};  ///< old_value and time are filled in by apply
// The end
struct Unmask {
  std::string who;
};
struct AdoptRule {
  AdoptedRule rule;
};

using Command = std::variant<SetPlan, ApplySeal, StartSheet, PutMark, PutDirect, PutWords, PutFault, PutSheetNote,
                             PutSippedFirst, PutSecondReading, PutSecondAnswer, SettleReading, SettleAnswer, LockSheet,
                             PutGuess, PutDayState, TickWeighed, PutStamp, UndoStamp, PutReading, PutBrewFacts,
                             PutServed, OpenKey, CloseKey, VoidPair, Exclude, Amend, Unmask, AdoptRule>;

/// What a change touched; views refresh only that.
enum class Part {
  plan,
  seal,
  sheet,
  day,
  weighed,
  brew,
  served,
  key_log,
  voids,
  exclusions,
  amendments,
  unmask,
  rule,
  registers,
  reports
};
struct Notice {
  Part part = Part::plan;
  std::string record;  ///< id text of the serving, brew, pair …; empty for the whole part
};

/// Undo by scope: a plan until the seal, a sheet until its lock, a stamp until unmask.
struct Scope {
  enum class Kind { plan, sheet, brew } kind = Kind::plan;
  std::string record;  ///< serving or brew id text
  auto operator<=>(const Scope&) const = default;
};

struct Change {
  std::shared_ptr<const Trial> next;
  Notice notice;
  std::optional<Command> inverse;  ///< absent when it cannot be undone or changed nothing
  std::optional<Scope> scope;      ///< where the inverse goes
  bool changed = true;             ///< false: a no-op, nothing to keep
};

/// Validates and applies. Errors name field, value and what is allowed, and the trial stays as it was.
Result<Change> apply(const std::shared_ptr<const Trial>& trial, const Command& command, const Moment& now);

/// What locking this sheet would leave blank or contradictory.
LockReview review(const SealedPlan& plan, const BlindServing& serving, const Sheet& sheet);

}  // namespace likeleaf
