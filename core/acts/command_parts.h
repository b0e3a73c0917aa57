#pragma once
// The pieces of apply(), one function a command. Only command*.cpp include this.
#include <memory>
#include <string>

#include "core/acts/command.h"

namespace likeleaf::commands {

using TrialPtr = std::shared_ptr<const Trial>;

// What several commands ask -----------------------------------------------------------------------------------------

/// A change of one part; the caller has already copied the trial.
Change change(std::shared_ptr<Trial> next, Part part, std::string record = {});
/// Nothing to do, nothing to keep.
Change no_change(const TrialPtr& trial, Part part, std::string record = {});
/// A copy whose parts are still shared.
inline std::shared_ptr<Trial> copy_of(const TrialPtr& trial) {
  return std::make_shared<Trial>(*trial);
}

/// Refused before the seal, or (when asked) after the unmasking; `act` is what was tried, `instead` what can be done.
Result<void> needs_seal(const Trial& trial, const char* act);
Result<void> needs_mask(const Trial& trial, const char* act, const char* instead);
/// Text that can be kept: UTF-8, not over the limit, and not blank where something must be said.
Result<void> check_text(const std::string& text, const char* field, bool required = false);
Result<void> check_text(const std::string& text, Field field, bool required = false);
const BlindServing* find_serving(const Trial& trial, IdOf<Serving> id);
bool is_voided(const Trial& trial, IdOf<Pair> pair);

// One function a command --------------------------------------------------------------------------------------------
Result<Change> run(const TrialPtr& trial, const SetPlan& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const ApplySeal& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const StartSheet& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutMark& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutDirect& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutWords& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutFault& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutSheetNote& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutSippedFirst& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutSecondReading& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutSecondAnswer& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const SettleReading& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const SettleAnswer& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const LockSheet& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutGuess& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutDayState& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const TickWeighed& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutStamp& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const UndoStamp& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutReading& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutBrewFacts& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const PutServed& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const OpenKey& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const CloseKey& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const VoidPair& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const Exclude& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const Amend& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const Unmask& command, const Moment& now);
Result<Change> run(const TrialPtr& trial, const AdoptRule& command, const Moment& now);

}  // namespace likeleaf::commands
