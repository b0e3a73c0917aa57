// Where one answer of the base turns into the next: one step on either side.
#include <gtest/gtest.h>

#include "core/base/clock.h"
#include "core/base/digest.h"
#include "core/base/id.h"
#include "core/base/number_text.h"
#include "core/base/utf8.h"

namespace likeleaf {
namespace {

const Style fahrenheit{TemperatureUnit::fahrenheit, ','};

TEST(Boundaries, a_typed_temperature_lies_between_those_that_are_named) {
  EXPECT_EQ(parse_temperature("-20", {}, "pour").value(), Temperature(-20'000));
  EXPECT_EQ(parse_temperature("150", {}, "pour").value(), Temperature(150'000));
  EXPECT_EQ(parse_temperature("−4", fahrenheit, "pour").value(), Temperature(-20'000));
  EXPECT_EQ(parse_temperature("302 °F", {}, "pour").value(), Temperature(150'000));
  EXPECT_EQ(parse_temperature("88 c", fahrenheit, "pour").value(), Temperature(88'000));
  EXPECT_EQ(parse_temperature("88°", {}, "pour").value(), Temperature(88'000));
  for (const char* typed : {"-20.01", "150.01", "88.001", "°C", ""}) {
    const auto read = parse_temperature(typed, {}, "pour");
    ASSERT_FALSE(read) << typed;
    EXPECT_EQ(read.error().value, typed);
    EXPECT_EQ(read.error().allowed, "−20 to 150 °C");
  }
  for (const char* typed : {"-4.01", "302.01"}) {
    const auto read = parse_temperature(typed, fahrenheit, "pour");
    ASSERT_FALSE(read) << typed;
    EXPECT_EQ(read.error().allowed, "−4 to 302 °F");
  }
}

TEST(Boundaries, a_typed_mass_is_grams_or_kilograms_up_to_a_hundred_kilograms) {
  EXPECT_EQ(parse_mass("0", "leaf").value(), Mass(0));
  EXPECT_EQ(parse_mass("4.005 g", "leaf").value(), Mass(4'005));
  EXPECT_EQ(parse_mass("100000", "leaf").value(), Mass(100'000'000));
  EXPECT_EQ(parse_mass("100 kg", "leaf").value(), Mass(100'000'000));
  EXPECT_EQ(parse_mass("0.000001 kg", "leaf").value(), Mass(1));
  EXPECT_EQ(parse_mass("100000.001", "leaf").error().allowed, "0 to 100000 g");
  EXPECT_EQ(parse_mass("100.000001 kg", "leaf").error().allowed, "0 to 100 kg");
  EXPECT_EQ(parse_mass("-1 kg", "leaf").error().value, "-1 kg");
  EXPECT_FALSE(parse_mass("g", "leaf"));
}

TEST(Boundaries, a_typed_time_is_seconds_minutes_or_both_up_to_a_day) {
  EXPECT_EQ(parse_duration("0", "steep").value(), seconds(0));
  EXPECT_EQ(parse_duration("86400 sec", "steep").value(), seconds(86'400));
  EXPECT_EQ(parse_duration("1440 min", "steep").value(), seconds(86'400));
  EXPECT_EQ(parse_duration("1440:59", "steep").value(), seconds(86'459));
  EXPECT_EQ(parse_duration("0:00", "steep").value(), seconds(0));
  EXPECT_EQ(parse_duration("0.5 min", "steep").value(), seconds(30));
  for (const char* typed : {"86401", "1441 min", "1441:00", "1:60", "-1:00", "1:-1", ":", "x:30", "1:x"})
    EXPECT_FALSE(parse_duration(typed, "steep")) << typed;
}

TEST(Boundaries, a_number_is_read_whole_or_not_at_all) {
  EXPECT_EQ(parse_decimal("+1.50", 1, 0, 100, "x").value(), 15) << "a zero more is no other number";
  EXPECT_EQ(parse_decimal(".5", 1, 0, 100, "x").value(), 5);
  EXPECT_EQ(parse_decimal("5.", 1, 0, 100, "x").value(), 50);
  EXPECT_EQ(parse_decimal("\u2009\u202F 7\t\n\r\u00A0", 0, 0, 100, "x").value(), 7);
  EXPECT_EQ(parse_decimal("10", 0, -10, 10, "x").value(), 10);
  EXPECT_EQ(parse_decimal("-10", 0, -10, 10, "x").value(), -10);
  for (const char* typed : {"11", "-11", "1.5", "1.2.3", "1,2,3", "--1", "+-1", "-", ".", "", "1/", "1:", "0x1", "1 0"})
    EXPECT_FALSE(parse_decimal(typed, 0, -10, 10, "x")) << typed;
  EXPECT_EQ(parse_decimal("11", 1, -5, 105, "x").error().allowed, "−0.5 to 10.5") << "the range, where nothing is said";
  EXPECT_FALSE(parse_decimal("99999999999999999999", 0, 0, INT64_MAX, "x"));
  EXPECT_FALSE(parse_decimal("9223372036854775807", 3, 0, INT64_MAX, "x"));
}

TEST(Boundaries, a_number_for_people_takes_no_more_room_than_it_needs) {
  EXPECT_EQ(duration_text(Duration(599'000), {}), "599\u00A0s");
  EXPECT_EQ(duration_text(Duration(600'000), {}), "10\u00A0min");
  EXPECT_EQ(duration_text(Duration(601'000), {}), "601\u00A0s");
  EXPECT_EQ(duration_text(Duration(660'000), {}), "11\u00A0min");
  EXPECT_EQ(duration_text(Duration(30'050), fahrenheit), "30,1\u00A0s");
  EXPECT_EQ(volume_text(Volume(999'900), {}), "999.9\u00A0ml");
  EXPECT_EQ(volume_text(Volume(1'000'000), {}), "1.0\u00A0litres");
  EXPECT_EQ(temperature_text(Temperature(88'049), {}), "88\u00A0°C");
  EXPECT_EQ(temperature_text(Temperature(88'050), {}), "88.1\u00A0°C");
  EXPECT_EQ(temperature_text(Temperature(-10'000), {}), "−10\u00A0°C");
  EXPECT_EQ(temperature_text(Temperature(-20'000), fahrenheit), "−4\u00A0°F");
  EXPECT_EQ(step_text(TemperatureStep(1'500), fahrenheit), "2,7\u00A0°F");
  EXPECT_EQ(decimal_text(25, 1, 0, {}), "3") << "half goes away from zero";
  EXPECT_EQ(decimal_text(-25, 1, 0, {}), "−3");
  EXPECT_EQ(decimal_text(24, 1, 0, {}), "2");
  EXPECT_EQ(decimal_text(5, 0, 2, fahrenheit), "5,00");
  EXPECT_EQ(decimal_text(5, 2, 2, {}), "0.05");
  EXPECT_EQ(decimal_text(INT64_MIN, 0, 0, {}), "−9223372036854775808");
}

TEST(Boundaries, signs_stand_before_numbers_that_are_not_zero) {
  EXPECT_EQ(signed_text(1.9, 1, {}), "+1.9");
  EXPECT_EQ(signed_text(-1.9, 1, fahrenheit), "−1,9");
  EXPECT_EQ(signed_text(0.04, 1, {}), "0.0");
  EXPECT_EQ(signed_text(-0.04, 1, {}), "0.0");
  EXPECT_EQ(signed_text(9, 0, {}), "+9");
  EXPECT_EQ(signed_text(1, 0, {}), "+1");
  EXPECT_EQ(number_text(1.0 / 0.0, 1, {}), "–");
}

TEST(Boundaries, a_p_is_said_as_finely_as_it_matters) {
  EXPECT_EQ(p_text(0.0009, {}), "under 0.001");
  EXPECT_EQ(p_text(0.001, {}), "0.001");
  EXPECT_EQ(p_text(0.0994, fahrenheit), "0,099");
  EXPECT_EQ(p_text(0.1, {}), "0.10");
  EXPECT_EQ(p_text(0, {}), "under 0.001");
  EXPECT_EQ(p_text(1, {}), "1.00");
  EXPECT_EQ(p_text(-0.1, {}), "–");
  EXPECT_EQ(p_text(0.0 / 0.0, {}), "–");
}

TEST(Boundaries, user_text_in_an_error_is_cut_between_characters_and_shows_no_control_sign) {
  const std::string sixty(60, 'a');
  EXPECT_EQ(shown_value(sixty), sixty);
  EXPECT_EQ(shown_value(sixty + "a"), sixty + "…");
  EXPECT_EQ(shown_value(std::string(59, 'a') + "é"), std::string(59, 'a') + "é") << "not cut in two";
  EXPECT_EQ(shown_value("a\nb\x1F \x7F~"), "a b   ~");
  EXPECT_EQ(shown_value("é€🍵"), "é€🍵");
  EXPECT_EQ(shown_value("\xC3"), "\uFFFD") << "cut off at the end";
  EXPECT_EQ(shown_value("\xE2\x82z"), "\uFFFD\uFFFDz");
  EXPECT_EQ(shown_value("\x80\xFFz"), "\uFFFD\uFFFDz");
}

TEST(Boundaries, only_the_shortest_form_of_a_character_is_utf_8) {
  for (const char* text :
       {"", "a\x7F", "\u0080", "\u07FF", "\u0800", "\uD7FF", "\uE000", "\uFFFF", "\U00010000", "\U0010FFFF", "é€🍵"})
    EXPECT_TRUE(valid_utf8(text)) << text;
  for (const char* text :
       {"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC2", "\xC2z", "\xC2\xC2", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xE2\x82",
        "\xE2\x82z", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xF8\x80\x80\x80", "\xFF", "a\x80"})
    EXPECT_FALSE(valid_utf8(text)) << text;
}

TEST(Boundaries, a_moment_is_read_to_the_last_of_each_unit) {
  for (const char* good : {"2026-12-31T23:59:59Z", "2024-02-29T00:00:00Z", "2026-03-02T13:32:10.250+01:00",
                           "2026-03-02T13:32:10.005-03:30", "2026-03-02T13:32:10+14:00", "2026-03-02T13:32:10-14:59"}) {
    const auto read = parse_iso(good);
    ASSERT_TRUE(read) << good;
    EXPECT_EQ(iso_text(*read), good);
    EXPECT_EQ(read->boot_ms, 0);
  }
  for (const char* bad :
       {"2026-03-02T24:00:00Z", "2026-03-02T13:60:00Z", "2026-03-02T13:00:60Z", "2023-02-29T00:00:00Z",
        "2026-13-01T00:00:00Z", "2026-00-01T00:00:00Z", "2026-03-02T13:32:10+15:00", "2026-03-02T13:32:10+01:60",
        "2026-03-02T13:32:10.Z", "2026-03-02T13:32:10Zz", "2026-03-02T13:32:10 ", "2026-03-02T13:32:10+01",
        "2026-03-02T13:32:1", "2026-3-02T13:32:10Z", "-026-03-02T13:32:10Z", "2026/03/02T13:32:10Z"})
    EXPECT_FALSE(parse_iso(bad)) << bad;
  EXPECT_EQ(parse_iso("1970-01-01T01:00:00.1+01:00")->utc_ms, 100);
  EXPECT_EQ(parse_iso("1970-01-01T00:00:00.9999")->utc_ms, 999) << "finer than a thousandth is cut";
  EXPECT_EQ(parse_iso("1969-12-31T20:30:00-03:30")->utc_ms, 0);
  EXPECT_EQ(parse_iso("1969-12-31T20:30:00-03:30")->offset_minutes, -210);
  EXPECT_EQ(clock_text({0, -210, 0}), "20:30:00");
  EXPECT_EQ(date_text(Moment{0, -210, 0}), "31 December 1969");
  EXPECT_EQ(date_text(Moment{0, 0, 0}), "1 January 1970");
}

TEST(Boundaries, time_elapsed_follows_the_clock_that_no_correction_moves_within_one_boot) {
  const Moment start{1'000'000, 0, 50'000};
  EXPECT_EQ(elapsed(start, {1'900'000, 0, 50'000}), Duration(0)) << "no time has gone, whatever the wall says";
  EXPECT_EQ(elapsed(start, {1'900'000, 0, 49'999}), Duration(900'000)) << "another boot";
  EXPECT_EQ(elapsed({1'000'000, 0, 0}, {1'900'000, 0, 60'000}), Duration(900'000));
}

TEST(Boundaries, a_digest_is_64_small_hex_digits) {
  const std::string hex = Digest::of("abc").hex();
  EXPECT_FALSE(Digest::parse(hex + "0"));
  EXPECT_FALSE(Digest::parse(hex.substr(1)));
  for (const char wrong : {'g', '/', ':', '`', 'A', ' '}) EXPECT_FALSE(Digest::parse(hex.substr(1) + wrong)) << wrong;
  const std::string all = "0123456789abcdef0123456789abcdeffedcba9876543210fedcba9876543210";
  EXPECT_EQ(Digest::parse(all)->hex(), all);
}

TEST(Boundaries, an_id_is_32_hex_digits_in_five_groups) {
  struct Thing;
  const std::string text = "01234567-89ab-4def-8123-456789abcdef";
  ASSERT_TRUE(IdOf<Thing>::parse(text));
  EXPECT_EQ(IdOf<Thing>::parse(text)->text(), text);
  EXPECT_EQ(IdOf<Thing>::parse("01234567-89AB-4DEF-8123-456789ABCDEF")->text(), text);
  EXPECT_FALSE(IdOf<Thing>::parse(text + "0"));
  EXPECT_FALSE(IdOf<Thing>::parse(text.substr(1)));
  for (const std::size_t dash : {8u, 13u, 18u, 23u})
    EXPECT_FALSE(IdOf<Thing>::parse(std::string(text).replace(dash, 1, "0"))) << dash;
  for (const std::size_t digit : {0u, 1u, 34u, 35u})
    for (const char* wrong : {"-", "g", "G", "/", ":", "@", "`"})
      EXPECT_FALSE(IdOf<Thing>::parse(std::string(text).replace(digit, 1, wrong))) << digit << wrong;
}

}  // namespace
}  // namespace likeleaf
