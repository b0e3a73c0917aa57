#pragma once
// What stands between a taster's port and the session. It speaks of servings, sheets and marks only, so that the port's
// own source file can be read (and its includes checked) without meeting the key or the brews.
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/acts/sheet_commands.h"
#include "core/base/result.h"
#include "core/domain/sheet.h"
#include "core/session/taster_port.h"

namespace likeleaf {

using TasterAct =
    std::variant<StartSheet, PutMark, PutDirect, PutWords, PutFault, PutSheetNote, PutSippedFirst, PutSecondReading,
                 PutSecondAnswer, SettleReading, SettleAnswer, PutDayState, LockSheet, PutGuess>;

/// One trial's open side, on the session's thread.
class TasterDesk {
 public:
  virtual ~TasterDesk() = default;
  /// Grows when servings were added or voided: a flight that was read before is then out of date.
  [[nodiscard]] virtual std::size_t flight_state() const = 0;
  /// Read through the connection on which the keyed tables are refused.
  [[nodiscard]] virtual Result<std::vector<BlindServing>> flight(IdOf<Assessor> assessor) = 0;
  [[nodiscard]] virtual Sheet sheet(IdOf<Serving> serving) const = 0;
  [[nodiscard]] virtual std::optional<DayState> day(IdOf<Assessor> assessor, int sitting) const = 0;
  [[nodiscard]] virtual LockReview review(IdOf<Serving> serving) const = 0;
  virtual Result<std::uint64_t> act(const TasterAct& act) = 0;
  [[nodiscard]] virtual bool can_undo(IdOf<Serving> serving) const = 0;
  virtual Result<std::uint64_t> undo(IdOf<Serving> serving) = 0;
  [[nodiscard]] virtual Subscription on_kept(std::function<void(const Kept&)> hear) = 0;
  virtual void retry() = 0;
  [[nodiscard]] virtual Subscription on_flight(std::function<void()> hear) = 0;
};

/// A port for one assessor. The desk may end before the port: then everything is refused.
Result<std::unique_ptr<TasterPort>> make_taster_port(std::weak_ptr<TasterDesk> desk, IdOf<Assessor> assessor,
                                                     TasterSetup setup);

}  // namespace likeleaf
