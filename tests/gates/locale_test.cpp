// core reads and prints numbers alike on every machine: from_chars and fmt, never what follows the C or C++ locale.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <set>

#include "sources.h"

namespace likeleaf::gates {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

const std::set<std::string_view> banned_words{
    "strtod",    "strtof",  "strtold",  "atof",     "stod",      "stof",      "stold",
    "scanf",     "fscanf",  "sscanf",   "vsscanf",  "printf",    "fprintf",   "sprintf",
    "snprintf",  "vprintf", "vfprintf", "vsprintf", "vsnprintf", "dprintf",   "asprintf",
    "setlocale", "imbue",   "wcstod",   "strfmon",  "uselocale", "newlocale", "localeconv"};
const std::set<std::string_view> banned_headers{"locale", "clocale", "locale.h", "codecvt"};

Offences locale_offences(const Sources& sources) {
  Offences offences;
  for (const auto& [path, text] : sources) {
    const auto object = [&, &at = path](int line, std::string_view what) {
      offences.push_back(at + ":" + std::to_string(line) + ": " + std::string(what) + " follows the locale");
    };
    for (const Include& include : includes_of(text))
      if (include.angled && banned_headers.contains(include.name)) object(include.line, "<" + include.name + ">");
    const std::string code = code_of(text, Literals::blank);
    int line = 1;
    std::string_view before;  // the word before, when only "::" lies between
    for (std::size_t i = 0; i < code.size();) {
      if (code[i] == '\n') ++line;
      const auto in_word = [&](std::size_t at) {
        return at < code.size() && (std::isalnum(static_cast<unsigned char>(code[at])) != 0 || code[at] == '_');
      };
      std::size_t end = i;
      while (in_word(end)) ++end;
      if (end == i) {
        if (code[i] != ':') before = {};
        ++i;
        continue;
      }
      const std::string_view word = std::string_view(code).substr(i, end - i);
      if (banned_words.contains(word) || (word == "locale" && before == "std")) object(line, word);
      before = word;
      i = end;
    }
  }
  return offences;
}

TEST(Locale, CoreUsesNothingThatFollowsIt) {
  const Offences offences = locale_offences(project_sources({"core"}));
  EXPECT_TRUE(offences.empty()) << joined(offences);
}

TEST(Locale, WhatFollowsItIsSeen) {
  EXPECT_THAT(
      locale_offences(
          {{"a.cpp", "#include <clocale>\nint x;\ndouble d = std::stod(text);\nout.imbue(std::locale(\"\"));\n"}}),
      ElementsAre("a.cpp:1: <clocale> follows the locale", "a.cpp:3: stod follows the locale",
                  "a.cpp:4: imbue follows the locale", "a.cpp:4: locale follows the locale"));
  for (const auto* bad :
       {"strtod(a, b)", "::snprintf(a, 9, \"%f\", x)", "std::printf (\"x\")", "setlocale(LC_ALL, \"\")",
        "auto f = &std::sprintf;", "fmt::printf(\"x\")", "x = R\"(\")\" + std::stof(y)"})
    EXPECT_EQ(locale_offences({{"a.cpp", bad}}).size(), 1U) << bad;
}

TEST(Locale, CommentsTextsAndOtherNamesAreNot) {
  EXPECT_THAT(
      locale_offences(
          {{"a.cpp",
            "// never strtod\n/* printf\n stod */\nauto s = \"use printf(\\\"x\\\")\";\nauto n = 1'000; // '\n"
            "auto r = R\"x(stod)x\";\nsqlite3_snprintf(3, b, s);\nint locale = my::locale;\nfmt::print(s);\n"}}),
      IsEmpty());
}

// std::to_string is fine for whole numbers and not for others; what it was called with only the compiler knows.
Offences compiled_locale_offences(const std::string& object_file) {
  Offences offences;
  const std::string symbols = output_of("'" LIKELEAF_NM "' -C -A '" + object_file + "' 2>/dev/null");
  for (std::size_t at = 0; at < symbols.size();) {
    const auto end = std::min(symbols.find('\n', at), symbols.size());
    const std::string line = symbols.substr(at, end - at);
    at = end + 1;
    if (line.find("__gnu_cxx::__to_xstring") != std::string::npos ||
        line.find("__gnu_cxx::__stoa<double") != std::string::npos)
      offences.push_back(line);
  }
  return offences;
}

TEST(Locale, CompiledCoreTurnsNoDoubleIntoTextByIt) {
  int libraries = 0;
  for (const auto& entry : std::filesystem::directory_iterator(LIKELEAF_BINARY_DIR "/core")) {
    if (entry.path().extension() != ".a") continue;
    ++libraries;
    const Offences offences = compiled_locale_offences(entry.path().string());
    EXPECT_TRUE(offences.empty()) << "std::to_string of a double in" << joined(offences);
  }
  EXPECT_GT(libraries, 0) << "no compiled area of core was found: this gate looks in the wrong place";
}

TEST(Locale, ACompiledToStringOfADoubleIsSeen) {
  EXPECT_THAT(compiled_locale_offences(LIKELEAF_SAMPLE_OBJECT), testing::SizeIs(1));
}

}  // namespace
}  // namespace likeleaf::gates
