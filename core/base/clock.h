#pragma once
// Time is noted twice: as UTC with the offset it was noted at, and on a clock that no correction moves, so that setting
// the computer's clock in the middle of a steep does not become a finding.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/base/quantity.h"

namespace likeleaf {

struct Moment {
  std::int64_t utc_ms = 0;          ///< milliseconds since 1970-01-01T00:00:00Z
  std::int32_t offset_minutes = 0;  ///< local time minus UTC when it was noted
  std::int64_t boot_ms = 0;         ///< CLOCK_BOOTTIME in milliseconds; 0 when it is not known (typed or imported)
  auto operator<=>(const Moment&) const = default;
};

/// later − earlier: by the uncorrected clock when both have it and it is plausible (same boot), else by wall time.
Duration elapsed(const Moment& earlier, const Moment& later);

/// "2026-03-02T13:32:10.250+01:00"; the boot clock is not part of it.
std::string iso_text(const Moment& moment);
/// Reads what iso_text writes (fraction and offset optional; "Z" allowed). boot_ms is 0.
std::optional<Moment> parse_iso(std::string_view text);
/// A day of the calendar, where it was noted.
struct CalendarDay {
  int year = 1970;
  unsigned month = 1, day = 1;
  bool operator==(const CalendarDay&) const = default;
};
CalendarDay day_of(const Moment& moment);
/// Local "13:32:10" and local "2 March 2026".
std::string clock_text(const Moment& moment);
std::string date_text(const Moment& moment);
std::string date_text(const CalendarDay& day);

class Clock {
 public:
  virtual ~Clock() = default;
  [[nodiscard]] virtual Moment now() const = 0;
};

class SystemClock final : public Clock {
 public:
  [[nodiscard]] Moment now() const override;
};

/// Stands still until told to move; for tests.
class HandClock final : public Clock {
 public:
  explicit HandClock(Moment start) : now_(start) {}
  [[nodiscard]] Moment now() const override { return now_; }
  void advance(Duration by) {
    now_.utc_ms += by.count();
    now_.boot_ms += by.count();
  }

 private:
  Moment now_;
};

}  // namespace likeleaf
