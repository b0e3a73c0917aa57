#include "core/base/clock.h"

#include <fmt/format.h>
#include <time.h>

#include <array>
#include <charconv>
#include <chrono>

namespace likeleaf {
namespace {

struct Local {
  std::chrono::year_month_day date{};
  std::chrono::hh_mm_ss<std::chrono::milliseconds> time;
};

Local local(const Moment& m) {
  using namespace std::chrono;
  const sys_time<milliseconds> at{milliseconds(m.utc_ms) + std::chrono::minutes(m.offset_minutes)};
  const auto day = floor<days>(at);
  return {year_month_day(day), hh_mm_ss<milliseconds>(at - day)};
}

bool take_number(std::string_view& text, std::size_t digits, int& out) {
  if (text.size() < digits) return false;
  const auto [end, code] = std::from_chars(text.data(), text.data() + digits, out);
  if (code != std::errc() || end != text.data() + digits || text[0] == '-') return false;
  text.remove_prefix(digits);
  return true;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text[0] != c) return false;
  text.remove_prefix(1);
  return true;
}

}  // namespace

Duration elapsed(const Moment& earlier, const Moment& later) {
  const std::int64_t wall = later.utc_ms - earlier.utc_ms;
  if (earlier.boot_ms == 0 || later.boot_ms == 0) return Duration(wall);
  const std::int64_t boot = later.boot_ms - earlier.boot_ms;
  // A negative difference means another boot in between: only wall time is left.
  return Duration(boot >= 0 ? boot : wall);
}

std::string iso_text(const Moment& m) {
  const Local l = local(m);
  std::string out =
      fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}", int(l.date.year()), unsigned(l.date.month()),
                  unsigned(l.date.day()), l.time.hours().count(), l.time.minutes().count(), l.time.seconds().count());
  if (const auto ms = l.time.subseconds().count(); ms != 0) out += fmt::format(".{:03}", ms);
  if (m.offset_minutes == 0) return out + "Z";
  const int off = m.offset_minutes < 0 ? -m.offset_minutes : m.offset_minutes;
  return out + fmt::format("{}{:02}:{:02}", m.offset_minutes < 0 ? '-' : '+', off / 60, off % 60);
}

std::optional<Moment> parse_iso(std::string_view text) {
  using namespace std::chrono;
  int y = 0, mo = 0, d = 0, h = 0, mi = 0, s = 0, ms = 0;
  if (!(take_number(text, 4, y) && take(text, '-') && take_number(text, 2, mo) && take(text, '-') &&
        take_number(text, 2, d) && take(text, 'T') && take_number(text, 2, h) && take(text, ':') &&
        take_number(text, 2, mi) && take(text, ':') && take_number(text, 2, s)))
    return std::nullopt;
  if (take(text, '.')) {
    int scale = 100;
    bool any = false;
    while (!text.empty() && text[0] >= '0' && text[0] <= '9') {
      ms += (text[0] - '0') * scale;
      scale /= 10;
      any = true;
      text.remove_prefix(1);
    }
    if (!any) return std::nullopt;
  }
  Moment out;
  if (take(text, 'Z')) {
    // UTC
  } else if (!text.empty() && (text[0] == '+' || text[0] == '-')) {
    const int sign = text[0] == '-' ? -1 : 1;
    text.remove_prefix(1);
    int oh = 0, om = 0;
    if (!(take_number(text, 2, oh) && take(text, ':') && take_number(text, 2, om)) || oh > 14 || om > 59)
      return std::nullopt;
    out.offset_minutes = sign * (oh * 60 + om);
  } else if (!text.empty()) {
    return std::nullopt;
  }
  if (!text.empty() || h > 23 || mi > 59 || s > 59) return std::nullopt;
  const year_month_day date{year(y), month(static_cast<unsigned>(mo)), day(static_cast<unsigned>(d))};
  if (!date.ok()) return std::nullopt;
  const sys_time<milliseconds> at = sys_days(date) + hours(h) + std::chrono::minutes(mi - out.offset_minutes) +
                                    std::chrono::seconds(s) + milliseconds(ms);
  out.utc_ms = at.time_since_epoch().count();
  return out;
}

std::string clock_text(const Moment& m) {
  const Local l = local(m);
  return fmt::format("{:02}:{:02}:{:02}", l.time.hours().count(), l.time.minutes().count(), l.time.seconds().count());
}

CalendarDay day_of(const Moment& m) {
  const Local l = local(m);
  return {int(l.date.year()), unsigned(l.date.month()), unsigned(l.date.day())};
}

std::string date_text(const CalendarDay& day) {
  static constexpr std::array names{"January", "February", "March",     "April",   "May",      "June",
                                    "July",    "August",   "September", "October", "November", "December"};
  return fmt::format("{} {} {}", day.day, names.at(day.month - 1), day.year);
}

std::string date_text(const Moment& m) {
  return date_text(day_of(m));
}

Moment SystemClock::now() const {
  timespec wall{}, boot{};
  clock_gettime(CLOCK_REALTIME, &wall);
  clock_gettime(CLOCK_BOOTTIME, &boot);
  tm parts{};
  const time_t whole = wall.tv_sec;
  localtime_r(&whole, &parts);
  const auto ms = [](const timespec& t) { return static_cast<std::int64_t>(t.tv_sec) * 1000 + t.tv_nsec / 1000000; };
  return {ms(wall), static_cast<std::int32_t>(parts.tm_gmtoff / 60), ms(boot)};
}

}  // namespace likeleaf
