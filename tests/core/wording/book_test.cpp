#include "tests/core/wording/book.h"

#include <gtest/gtest.h>

#include <ostream>

namespace likeleaf::book {

void PrintTo(const NamedPage& page, std::ostream* out) {
  *out << page.name;
}

namespace {

/// With "~" for each no-break space.
std::string shown(std::string text) {
  for (auto at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0", at)) text.replace(at, 2, "~");
  return text;
}

class BookOfSentences : public ::testing::TestWithParam<NamedPage> {};

TEST_P(BookOfSentences, says_of_each_case_what_is_written_here) {
  const Page page = GetParam().page();
  ASSERT_FALSE(page.empty());
  for (const Line& line : page) EXPECT_EQ(shown(line.said), line.sentence) << "of: " << line.facts;
}

INSTANTIATE_TEST_SUITE_P(Page, BookOfSentences, ::testing::ValuesIn(book()),
                         [](const auto& page) { return std::string(page.param.name); });

}  // namespace
}  // namespace likeleaf::book
