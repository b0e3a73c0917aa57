#include "core/base/terminal_text.h"

#include <gtest/gtest.h>

#include "core/base/utf8.h"

namespace likeleaf {
namespace {

TEST(TerminalText, LeavesNothingThatSteersATerminal) {
  EXPECT_EQ(terminal_text("a\x1B[2Jb"), "a\uFFFD[2Jb");
  EXPECT_EQ(terminal_text("a\r\tb\x7F"), "a\uFFFD\uFFFDb\uFFFD");
  EXPECT_EQ(terminal_text("\xC2\x9B"
                          "31m"),
            "\uFFFD"
            "31m")
      << "C1, as UTF-8";
  EXPECT_EQ(terminal_text("\x9B"
                          "31m"),
            "\uFFFD"
            "31m")
      << "C1, as a byte";
  for (const char* turning :
       {"\u202A", "\u202B", "\u202C", "\u202D", "\u202E", "\u2066", "\u2067", "\u2068", "\u2069", "\u2028", "\u2029"})
    EXPECT_EQ(terminal_text(std::string("K") + turning + "."), "K\uFFFD.");
}

TEST(TerminalText, LeavesEveryScriptAndTheLineEndAsTheyAre) {
  for (const char* text : {"K.\nM.", "88\u00A0°C, −1.5 ‰", "שלום", "\xF0\x9F\x8D\xB5 茶", "\u200E\u200D"})
    EXPECT_EQ(terminal_text(text), text);
  EXPECT_EQ(terminal_line("K.\nThe book is sound."), "K. The book is sound.");
}

TEST(TerminalText, JsonKeepsItsMeaning) {
  EXPECT_EQ(terminal_json("{\"a\":\n\"\u202Ex\xC2\x9B\x7F\"}"), "{\"a\":\n\"\\u202ex\\u009b\\u007f\"}");
}

TEST(TerminalText, IsAlwaysUtf8) {
  for (int lead = 0; lead < 256; ++lead)
    for (int next = 0; next < 256; ++next) {
      const std::string two{static_cast<char>(lead), static_cast<char>(next)};
      const auto shown = terminal_text(two);
      EXPECT_TRUE(valid_utf8(shown)) << lead << ' ' << next;
      EXPECT_EQ(terminal_text(shown), shown);
    }
}

}  // namespace
}  // namespace likeleaf
