#include "core/base/line_text.h"

#include <gtest/gtest.h>

namespace likeleaf {
namespace {

TEST(LineText, IsCutOfWhiteSpaceAndKeepsEveryScriptAndSign) {
  EXPECT_EQ(*parse_line("  L-07 ", name_length, "code"), "L-07");
  EXPECT_EQ(*parse_line("\xF0\x9F\x8D\xB5", name_length, "code"), "\xF0\x9F\x8D\xB5");
  EXPECT_EQ(*parse_line("שלום", name_length, "code"), "שלום");
  EXPECT_EQ(*parse_line(" \t\n ", name_length, "code"), "");
}

TEST(LineText, APastedParagraphBecomesOneLineAndStaysAParagraphWhereThatIsAllowed) {
  EXPECT_EQ(*parse_line("first\r\n\r\nsecond\tthird", sentence_length, "notes"), "first second third");
  EXPECT_EQ(*parse_lines("\nfirst\n\nsecond\n", paragraph_length, "notes"), "first\n\nsecond");
}

TEST(LineText, CountsCharactersNotBytesAndNamesTheLimit) {
  std::string many;
  for (std::size_t i = 0; i < name_length; ++i) many += "ü";
  EXPECT_TRUE(parse_line(many, name_length, "code"));
  const auto refused = parse_line(many + "ü", name_length, "code");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().kind, ErrorKind::too_large);
  EXPECT_EQ(refused.error().field, "code");
  EXPECT_EQ(refused.error().value, "61 characters");
  EXPECT_EQ(refused.error().allowed, "at most 60 characters");
}

TEST(LineText, WhatIsNotUtf8IsRefused) {
  EXPECT_EQ(parse_line("\xFF", name_length, "code").error().kind, ErrorKind::bad_value);
}

}  // namespace
}  // namespace likeleaf
