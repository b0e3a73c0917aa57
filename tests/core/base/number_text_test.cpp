#include "core/base/number_text.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <clocale>
#include <cstdlib>
#include <limits>

#include "core/base/clock.h"
#include "core/base/digest.h"
#include "core/base/entropy.h"
#include "core/base/id.h"

namespace likeleaf {
namespace {

TEST(ParseDecimal, takes_both_decimal_marks_and_both_minus_signs) {
  for (const char* typed : {"7.5", "7,5", " 7.5 ", "+7.5", "7.50"})
    EXPECT_EQ(parse_decimal(typed, 1, 0, 100, "score").value(), 75) << typed;
  for (const char* typed : {"-2", "\u22122"}) EXPECT_EQ(parse_decimal(typed, 0, -9, 9, "step").value(), -2) << typed;
}

TEST(ParseDecimal, names_field_value_and_what_is_allowed) {
  for (const char* typed : {"", "x", "7.55", "1.2.3", "11", "--1", "1e3", "99999999999999999999", "\xF0\x9F\x8D\xB5"}) {
    const auto read = parse_decimal(typed, 1, 0, 100, "score", "0 to 10 in half steps");
    ASSERT_FALSE(read) << typed;
    EXPECT_EQ(read.error().field, "score");
    EXPECT_EQ(read.error().allowed, "0 to 10 in half steps");
  }
}

TEST(Temperatures, points_and_steps_convert_differently) {
  const Style f{TemperatureUnit::fahrenheit, '.'};
  EXPECT_EQ(parse_temperature("190F", {}, "water").value().milli_celsius(), 87'778);
  EXPECT_EQ(parse_temperature("88", {}, "water").value(), celsius(88));
  EXPECT_EQ(parse_temperature("88 °C", f, "water").value(), celsius(88));
  EXPECT_EQ(temperature_text(celsius(80), f), "176\u00A0°F");       // checks.csv C40: F = 1.8 C + 32
  EXPECT_EQ(step_text(celsius(45) - celsius(40), f), "9\u00A0°F");  // checks.csv C41: dF = 1.8 dC
  EXPECT_EQ(step_text(TemperatureStep(2'000), f), "3.6\u00A0°F");
  EXPECT_FALSE(parse_temperature("hot", {}, "water"));
  EXPECT_FALSE(parse_temperature("200", {}, "water"));
}

// Common practice, no source: the trade rounds °C to °F within 2 °F.
TEST(Temperatures, trade_roundings_lie_within_two_fahrenheit) {
  const Style f{TemperatureUnit::fahrenheit, '.'};
  for (const auto& [c, rounded] : {std::pair{95, 203}, {80, 175}, {70, 160}, {88, 190}, {50, 122}, {40, 104}}) {
    const auto back = parse_temperature(std::to_string(rounded), f, "water").value();
    EXPECT_LE(std::abs((back - celsius(c)).count() * 9 / 5), 2'000) << c;
  }
}

TEST(NumberText, writes_real_minus_signs_and_never_minus_zero) {
  EXPECT_EQ(number_text(-1.25, 1, {}), "\u22121.2");
  EXPECT_EQ(number_text(-0.04, 1, {}), "0.0");
  EXPECT_EQ(signed_text(0.6, 1, {TemperatureUnit::celsius, ','}), "+0,6");
  EXPECT_EQ(number_text(std::numeric_limits<double>::quiet_NaN(), 1, {}), "–");
  EXPECT_EQ(decimal_text(-75, 1, 1, {}), "\u22127.5");
  EXPECT_EQ(mass_text(Mass(50), {}), "0.05\u00A0g");
  EXPECT_EQ(volume_text(millilitres(6000), {}), "6.0\u00A0litres");
  EXPECT_EQ(duration_text(seconds(45), {}), "45\u00A0s");
}

TEST(NumberText, does_not_follow_the_systems_locale) {
  if (!std::setlocale(LC_ALL, "de_DE.UTF-8") && !std::setlocale(LC_ALL, "de_DE.utf8"))
    GTEST_SKIP() << "this machine has no German locale; tests/run.sh makes one where it can";
  EXPECT_EQ(number_text(1.5, 1, {}), "1.5");
  EXPECT_EQ(parse_decimal("1.5", 1, 0, 100, "x").value(), 15);
  std::setlocale(LC_ALL, "C");
}

RC_GTEST_PROP(NumberText, what_is_printed_reads_back, ()) {
  const auto v = *rc::gen::inRange<std::int64_t>(-1'000'000, 1'000'000);
  const int decimals = *rc::gen::inRange(0, 4);
  const Style style{TemperatureUnit::celsius, *rc::gen::element('.', ',')};
  RC_ASSERT(parse_decimal(decimal_text(v, decimals, decimals, style), decimals, -1'000'000, 1'000'000, "x").value() ==
            v);
}

RC_GTEST_PROP(NumberText, no_typed_text_is_more_than_an_error, (const std::string& typed)) {
  (void)parse_decimal(typed, 2, -1000, 1000, "x");
  (void)parse_temperature(typed, {}, "x");
  (void)parse_mass(typed, "x");
  (void)parse_duration(typed, "x");
  RC_ASSERT(shown_value(typed).size() <= 70);
}

TEST(Durations, take_seconds_minutes_and_clock_form) {
  EXPECT_EQ(parse_duration("1:30", "steep").value(), seconds(90));
  EXPECT_EQ(parse_duration("45 s", "steep").value(), seconds(45));
  EXPECT_EQ(parse_duration("2 min", "steep").value(), minutes(2));
  EXPECT_FALSE(parse_duration("1:75", "steep"));
  EXPECT_FALSE(parse_duration("soon", "steep"));
}

TEST(Moments, keep_the_offset_they_were_noted_at) {
  const auto m = parse_iso("2026-03-02T13:32:10+01:00");
  ASSERT_TRUE(m);
  EXPECT_EQ(iso_text(*m), "2026-03-02T13:32:10+01:00");
  EXPECT_EQ(clock_text(*m), "13:32:10");
  EXPECT_EQ(date_text(*m), "2 March 2026");
  for (const char* bad : {"", "2026-02-30T00:00:00Z", "2026-03-02", "2026-03-02T25:00:00Z", "2026-03-02T13:32:10+1"})
    EXPECT_FALSE(parse_iso(bad)) << bad;
}

TEST(Moments, a_corrected_clock_does_not_change_what_elapsed) {
  Moment start{1'000'000, 0, 50'000}, end{400'000, 0, 95'000};  // the wall clock was set back in between
  EXPECT_EQ(elapsed(start, end), seconds(45));
  end.boot_ms = 0;
  EXPECT_EQ(elapsed(start, end), Duration(-600'000));
}

// FIPS 180-2 appendix B.1: SHA-256 of "abc".
TEST(Digests, are_sha_256) {
  EXPECT_EQ(Digest::of("abc").hex(), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(Digest::parse(Digest::of("abc").hex()), Digest::of("abc"));
  EXPECT_FALSE(Digest::parse("ba78"));
}

TEST(Ids, are_random_version_4_and_read_back) {
  struct Thing;
  SystemEntropy entropy;
  const auto a = IdOf<Thing>::make(entropy), b = IdOf<Thing>::make(entropy);
  EXPECT_NE(a, b);
  EXPECT_EQ(a.text().size(), 36u);
  EXPECT_EQ(a.text()[14], '4');
  EXPECT_EQ(IdOf<Thing>::parse(a.text()), a);
  EXPECT_FALSE(IdOf<Thing>::parse("not an id"));
}

}  // namespace
}  // namespace likeleaf
