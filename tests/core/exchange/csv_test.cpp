#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "core/exchange/atomic_file.h"
#include "core/exchange/csv_text.h"
#include "core/exchange/paper_csv.h"
#include "core/exchange/tidy_csv.h"
#include "tests/core/exchange/trial_maker.h"

namespace likeleaf::exchange {
namespace {

using ::testing::HasSubstr;
using testing::make_trial;
using ::testing::Not;
using testing::Upto;

TEST(CsvWriter, GuardsTextThatASpreadsheetWouldRunAndNeverNumbers) {
  for (const char* cell : {"=1+1", "+1", "-x", "@sum", "\tx", "\rx"}) {
    CsvWriter out;
    out.text(cell);
    EXPECT_THAT(out.take(), HasSubstr(std::string("'") + cell)) << cell;
  }
  CsvWriter out;
  out.scaled(-15, 1).number(-3).scaled(88000, 3).text("a,\"b\"").end_row();
  EXPECT_EQ(out.take(), "-1.5,-3,88,\"a,\"\"b\"\"\"\r\n");
}

TEST(ReadCsv, TakesWhatSpreadsheetsWrite) {
  for (const char* text : {"\xEF\xBB\xBF"
                           "a;b\r\n7,5;\"x;\"\"y\"\"\n2\"\r\n\r\n",
                           "a\tb\n7,5\t\"x;\"\"y\"\"\n2\"", "a,b\n\"7,5\",\"x;\"\"y\"\"\n2\"\n"}) {
    const auto table = read_csv(text, "t.csv");
    ASSERT_TRUE(table) << table.error().allowed;
    ASSERT_EQ(table->rows.size(), 1u);
    EXPECT_EQ(table->rows[0].cells, (std::vector<std::string>{"7,5", "x;\"y\"\n2"}));
  }
}

TEST(ReadCsv, RefusesWithFileAndLine) {
  EXPECT_EQ(read_csv(std::string_view("\xFF\xFE"
                                      "a\0",
                                      4),
                     "t.csv")
                .error()
                .value,
            "UTF-16");
  EXPECT_THAT(read_csv("a,b\n1,2,3\n", "t.csv").error().where, HasSubstr("t.csv, line 2"));
  EXPECT_THAT(read_csv("a,b\n1,\"2\n", "t.csv").error().field, HasSubstr("quote"));
  EXPECT_THAT(read_csv("a,b\n1,\xE9\n", "t.csv").error().allowed, HasSubstr("UTF-8"));
  EXPECT_EQ(read_csv("", "t.csv").error().kind, ErrorKind::missing);
}

const char* const key_csv =
    "code,lot,brew pair,level\n417,L-07,1,88 \xC2\xB0"
    "C\n203,L-07,1,68 \xC2\xB0"
    "C\n555,L-07,2,88 \xC2\xB0"
    "C\n666,L-07,2,68 \xC2\xB0"
    "C\n";
const char* const sheets_csv =
    "code;assessor;attribute;value;first cup\n417;K.;Bitterness;7,5;417\n203;K.;bitterness;5;\n"
    "555;K.;bitterness;6.5;no\n666;K.;bitterness;not tasted;\n555;K.;finish length;<3;\n666;K.;FINISH_LENGTH;41;\n";

PaperOptions paper() {
  PaperOptions options;
  options.tasted = testing::noon;
  options.house = "Ferry pier counter";
  return options;
}

TEST(Paper, BecomesAnUnmaskedTrialWithNumbersForLevels) {
  const auto read = read_paper(sheets_csv, key_csv, paper());
  ASSERT_TRUE(read) << read.error().field << read.error().allowed << read.error().where;
  const Trial& trial = read->trial;
  EXPECT_TRUE(trial.sealed->paper_import);
  EXPECT_EQ(stage(trial), Stage::unmasked);
  EXPECT_EQ(trial.draft.lever.kind, LeverKind::water_temperature);
  EXPECT_EQ(trial.draft.lever.levels[1].value, 68000);
  const auto open = open_unmasked(std::make_shared<const Trial>(trial));
  ASSERT_TRUE(open);
  ASSERT_EQ(open->pairings().size(), 2u);
  for (const auto& attribute : trial.draft.attributes) EXPECT_FALSE(attribute.deciding);
  const auto& one = open->pairings()[0];
  const Side hot = one.levels.a == 0 ? other(one.side_b) : one.side_b;
  EXPECT_EQ(one.first, hot);
  EXPECT_EQ(one.sheet->cup(hot).marks.at("bitterness"), Mark(*Score::from_halves(15)));
  const auto& two = open->pairings()[1];
  EXPECT_NE(two.first, two.levels.a == 0 ? other(two.side_b) : two.side_b);
}

TEST(Paper, ReadTwiceIsTheSameTrial) {
  const auto one = read_paper(sheets_csv, key_csv, paper());
  const auto two = read_paper(sheets_csv, key_csv, paper());
  ASSERT_TRUE(one && two);
  EXPECT_EQ(one->digest, two->digest);
  EXPECT_EQ(one->trial.id(), two->trial.id());
  EXPECT_EQ(one->trial.id().text()[14], '4');
}

TEST(Paper, NamesACodeThatTheKeyDoesNotHold) {
  const auto read = read_paper(std::string(sheets_csv) + "999;K.;body;4;\n", key_csv, paper());
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().value, "999");
  EXPECT_THAT(read.error().where, HasSubstr("sheets.csv, line 8"));
}

TEST(Paper, RefusesBadRowsWithValueAndWhatIsAllowed) {
  const auto error = [](const std::string& row) {
    return read_paper(std::string(sheets_csv) + row, key_csv, paper()).error();
  };
  EXPECT_EQ(error("417;K.;body;11;\n").allowed, "0 to 10 in half steps");
  EXPECT_EQ(error("417;K.;body;7,3;\n").value, "7,3");
  EXPECT_THAT(error("417;K.;umami;7;\n").allowed, HasSubstr("savoury"));
  EXPECT_EQ(error("417;K.;bitterness;7;\n").kind, ErrorKind::duplicate);
  EXPECT_EQ(error("417;M.;body;7;417\n").kind, ErrorKind::missing);
  EXPECT_EQ(read_paper(sheets_csv, std::string(key_csv) + "417,L-07,3,88\n", paper()).error().kind,
            ErrorKind::duplicate);
}

TEST(Paper, HoldsNamesAndLevelsToTheLimitsOfTheHouse) {
  const auto long_name =
      read_paper(std::string(sheets_csv) + "417;" + std::string(200'000, 'K') + ";body;4;417\n", key_csv, paper())
          .error();
  EXPECT_EQ(long_name.kind, ErrorKind::too_large);
  EXPECT_EQ(long_name.field, "assessor");
  EXPECT_THAT(long_name.value, HasSubstr("200000 characters"));
  EXPECT_LT(long_name.value.size(), 120u);
  EXPECT_EQ(long_name.allowed, "at most 60 characters");
  EXPECT_THAT(long_name.where, HasSubstr("sheets.csv, line 8"));
  const auto level = [](const std::string& one, const std::string& two) {
    return read_paper("code,assessor,attribute,value,first cup\n101,R.,body,4,101\n202,R.,body,5,\n",
                      "code,lot,brew pair,level\n101,L-25,1," + one + "\n202,L-25,1," + two + "\n", paper());
  };
  EXPECT_TRUE(level("100 °C", "68 °C"));
  EXPECT_EQ(level("120 °C", "68 °C").error().value, "120 °C");
  EXPECT_THAT(level("-5 °C", "68 °C").error().where, HasSubstr("key.csv, line 2"));
  EXPECT_EQ(level("0 s", "45 s").error().kind, ErrorKind::bad_value);
  EXPECT_EQ(level("0 g", "4 g").error().kind, ErrorKind::bad_value);
  auto options = paper();
  options.question = std::string(301, 'q');
  EXPECT_EQ(read_paper(sheets_csv, key_csv, options).error().field, "question");
}

TEST(Paper, TakesThreeLevelsAgainstTheReference) {
  const auto read = read_paper(
      "code,assessor,attribute,value,first cup\n101,R.,body,4,101\n202,R.,body,5,\n303,R.,body,4,no\n404,R.,body,6,\n",
      "code,lot,brew pair,level\n101,L-25,1,45 s\n202,L-25,1,30 s\n303,L-25,2,45 s\n404,L-25,2,60 s\n", paper());
  ASSERT_TRUE(read) << read.error().field << " " << read.error().value << " " << read.error().allowed;
  EXPECT_EQ(read->trial.draft.lever.levels.size(), 3u);
  EXPECT_EQ(read->trial.draft.lever.kind, LeverKind::steep_time);
}

TEST(TidyCsv, HoldsCodesOnlyBeforeUnmask) {
  Trial trial = make_trial(Upto::tasted).trial;
  const auto files = tidy_csv(std::make_shared<const Trial>(trial));
  ASSERT_TRUE(files);
  trial.key.reset();
  trial.brews.clear();
  EXPECT_EQ(*tidy_csv(std::make_shared<const Trial>(trial)), *files);
  ASSERT_EQ(files->size(), 2u);
  for (const auto& file : *files) {
    EXPECT_THAT(file.text, Not(HasSubstr("level"))) << file.name;
    EXPECT_THAT(file.text, Not(HasSubstr("L-1"))) << file.name;
  }
}

TEST(TidyCsv, SaysHowAMarkCameInAndWhetherAPaperSheetWasTypedTwice) {
  Trial trial = make_trial(Upto::tasted).trial;
  const auto count = [&](const char* way) {
    const auto files = tidy_csv(std::make_shared<const Trial>(trial));
    const auto& text = files.value()[0].text;
    int n = 0;
    for (auto at = text.find(std::string(",") + way + "\r\n"); at != std::string::npos;
         at = text.find(std::string(",") + way + "\r\n", at + 1))
      ++n;
    return n;
  };
  for (auto& [id, sheet] : trial.sheets) {
    auto typed = std::make_shared<Sheet>(*sheet);
    typed->entered_by = EnteredBy::paper;
    typed->second = {typed->left.marks, {}, {}};
    sheet = typed;
  }
  int left = 0, right = 0;
  for (const auto& [id, sheet] : trial.sheets) {
    left += static_cast<int>(sheet->left.marks.size());
    right += static_cast<int>(sheet->right.marks.size());
  }
  EXPECT_EQ(count("paper twice"), left);
  EXPECT_EQ(count("paper once"), right);
  EXPECT_EQ(count("screen"), 0);
}

TEST(TidyCsv, HasARowForEveryFieldOfEveryCupAfterUnmask) {
  const auto made = make_trial(Upto::unmasked);
  const auto files = tidy_csv(std::make_shared<const Trial>(made.trial));
  ASSERT_TRUE(files) << files.error().field;
  ASSERT_EQ(files->size(), 3u);
  const auto marks = read_csv((*files)[0].text, "marks.csv");
  ASSERT_TRUE(marks) << marks.error().allowed << marks.error().where;
  EXPECT_EQ(marks->rows.size(), made.trial.servings.size() * 2 * 5);
  EXPECT_THAT((*files)[1].text, HasSubstr("'=1+1"));
  EXPECT_THAT((*files)[2].text, HasSubstr("'-steady"));
  EXPECT_EQ(read_csv((*files)[2].text, "brews.csv")->rows.size(), made.trial.brews.size());
}

TEST(AtomicFile, WritesWholeOrLeavesTheOldFileAndNothingBeside) {
  const auto folder = std::filesystem::temp_directory_path() / "likeleaf-atomic-test";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder / "taken");
  ASSERT_TRUE(write_file_atomically(folder / "a.csv", "old"));
  ASSERT_TRUE(write_file_atomically(folder / "a.csv", "new"));
  EXPECT_EQ(*read_file_limited(folder / "a.csv", 10), "new");
  EXPECT_EQ(read_file_limited(folder / "a.csv", 2).error().kind, ErrorKind::too_large);
  EXPECT_EQ(read_file_limited(folder / "b.csv", 2).error().kind, ErrorKind::not_found);
  const auto missing = write_file_atomically(folder / "no" / "a.csv", "x");
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().kind, ErrorKind::cannot_write);
  EXPECT_THAT(missing.error().where, HasSubstr("a.csv"));
  EXPECT_FALSE(write_file_atomically(folder / "taken", "x"));
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder), {}), 2);
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace likeleaf::exchange
