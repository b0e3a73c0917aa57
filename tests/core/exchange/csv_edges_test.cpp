// Tables as spreadsheets and hands really write them, and where exactly a bad one is told to be bad.
#include <gtest/gtest.h>

#include "core/exchange/csv_text.h"

namespace likeleaf::exchange {
namespace {

using Cells = std::vector<std::string>;

std::vector<Cells> read(std::string_view text) {
  const auto table = read_csv(text, "t.csv");
  if (!table) throw std::runtime_error(table.error().field + ": " + table.error().where);
  std::vector<Cells> out{table->head.cells};
  for (const auto& row : table->rows) out.push_back(row.cells);
  return out;
}

Error refused(std::string_view text) {
  const auto table = read_csv(text, "t.csv");
  return table ? Error{} : table.error();
}

char separator(std::string_view text) {
  return read_csv(text, "t.csv").value().separator;
}

TEST(CsvWriter, QuotesOnlyWhatWouldBeReadOtherwise) {
  CsvWriter out;
  out.plain("a b").plain("a,b").plain("a\"b").plain("a\nb").plain("a\rb").plain("").text("a=b").blank().end_row();
  out.number(-3).text("").end_row();
  EXPECT_EQ(out.take(), "a b,\"a,b\",\"a\"\"b\",\"a\nb\",\"a\rb\",,a=b,\r\n-3,\r\n");
}

TEST(CsvWriter, WritesScaledNumbersToTheLastOfTheirDigits) {
  CsvWriter out;
  out.scaled(0, 3).scaled(5, 3).scaled(-5, 3).scaled(1'050, 3).scaled(999, 3).scaled(1'000, 3).scaled(7, 0);
  out.scaled(INT64_MIN, 0).end_row();
  EXPECT_EQ(out.take(), "0,0.005,-0.005,1.05,0.999,1,7,-9223372036854775808\r\n");
}

TEST(ReadCsv, TakesTheSeparatorThatTheHeadUsesMost) {
  EXPECT_EQ(separator("a\n1\n"), ',');
  EXPECT_EQ(separator("a,b\n1;2,3;4\n"), ',');
  EXPECT_EQ(separator("a;b\n1,5;2\n"), ';');
  EXPECT_EQ(separator("a\tb\n1,5\t2\n"), '\t');
  EXPECT_EQ(separator("a,b;c\n1,2\n"), ',') << "as many of both: a comma";
  EXPECT_EQ(separator("a\tb,c\n1,2\n"), ',');
  EXPECT_EQ(separator("a;b\tc\n1;2\n"), ';');
  EXPECT_EQ(separator("\"a,b,c\";d\n1;2\n"), ';') << "what is quoted does not count";
  EXPECT_EQ(separator("\n\r\na;b\n1,1;2,2\n"), ';') << "the first line with a separator is the head";
}

TEST(ReadCsv, TakesEveryEndOfALineAndLeavesEmptyOnesOut) {
  const std::vector<Cells> two{{"a", "b"}, {"1", "2"}};
  for (const char* text :
       {"a,b\n1,2", "a,b\r1,2\r", "a,b\r\n1,2\r\n", "\n\na,b\n , \n,,\n1,2\n\n", "a,b,\n1,2,,\n", "a,b\n1,2,\"\"\n"})
    EXPECT_EQ(read(text), two) << text;
}

TEST(ReadCsv, CutsWhiteSpaceAroundACellUnlessItIsQuoted) {
  EXPECT_EQ(read(" a\t, b \n \" 1 \" ,\t2\t\n"), (std::vector<Cells>{{"a", "b"}, {" 1 ", "2"}}));
  EXPECT_EQ(read("a,b\n\"\",x \"y\" z\n"), (std::vector<Cells>{{"a", "b"}, {"", "x \"y\" z"}}));
  EXPECT_EQ(read("a,b\n\"\"\"\",\"x\r\ny\"\n"), (std::vector<Cells>{{"a", "b"}, {"\"", "x\r\ny"}}));
}

TEST(ReadCsv, CountsLinesAlsoInsideACell) {
  const auto table = read_csv("a,b\n\"1\n1\n\",2\n\n3,4\n", "t.csv");
  ASSERT_TRUE(table);
  EXPECT_EQ(table->head.line, 1);
  ASSERT_EQ(table->rows.size(), 2u);
  EXPECT_EQ(table->rows[0].line, 2);
  EXPECT_EQ(table->rows[1].line, 6);
}

TEST(ReadCsv, TellsARowThatIsTooWideOrTooNarrow) {
  const Error wide = refused("a,b\n1,2\n7,5,2\n");
  EXPECT_EQ(wide.value, "3 cells");
  EXPECT_EQ(wide.where, "t.csv, line 3");
  EXPECT_EQ(
      wide.allowed,
      "2 cells between commas, as in the first line (a decimal comma needs quotes around the number, or semicolons "
      "between the cells)");
  EXPECT_EQ(refused("a,b\n1\n").allowed, "2 cells between commas, as in the first line");
  EXPECT_EQ(refused("a;b\n1;2;3\n").allowed, "2 cells between semicolons, as in the first line");
  EXPECT_EQ(refused("a\tb\n1\t2\t3\n").allowed, "2 cells between tabs, as in the first line");
}

TEST(ReadCsv, TellsTheCellOfABadQuoteOrEncoding) {
  const Error open = refused("a,b\n1,\"2\n3\n");
  EXPECT_EQ(open.value, "2 3 ");
  EXPECT_EQ(open.where, "t.csv, line 2, column 2 (b)") << "where the quote was opened";
  const Error behind = refused("a,b\n\"1\" x,2\n");
  EXPECT_EQ(behind.allowed, "nothing between a closing quote and the next cell");
  EXPECT_EQ(behind.where, "t.csv, line 2, column 1 (a)");
  EXPECT_EQ(refused("a,b\n1,\xE9\n").where, "t.csv, line 2, column 2 (b)");
  EXPECT_EQ(refused("a,b\n1,2,\xE9\n").where, "t.csv, line 2, column 3") << "the head has no name for it";
  EXPECT_EQ(refused(std::string_view("a,b\n1,\0\n", 8)).field, "text encoding");
  EXPECT_EQ(refused("\xFE\xFF").value, "UTF-16");
}

TEST(ReadCsv, WantsAHeadAndNoMoreThanItsLimit) {
  for (const char* text : {"", "\xEF\xBB\xBF", "\n\r\n", ",,\n,\n"})
    EXPECT_EQ(refused(text).kind, ErrorKind::missing) << text;
  std::string full(csv_size_limit, '\xFF');
  full[1] = '\xFE';
  EXPECT_EQ(refused(full).value, "UTF-16") << "looked into";
  full += ' ';
  EXPECT_EQ(refused(full).kind, ErrorKind::too_large);
}

}  // namespace
}  // namespace likeleaf::exchange
