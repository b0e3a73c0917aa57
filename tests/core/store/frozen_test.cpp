// A book of schema 1 as it was written when the bench was finished: every later program must open it and find the same.
// tests/reference/book-v1.leafbook is never made again; book-v1.txt says what is in it. To freeze a later schema, run
//   LIKELEAF_FREEZE_BOOK=FOLDER test_store --gtest_filter='FrozenBook.*'
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "core/codec/trial_document.h"
#include "core/session/session.h"
#include "tests/core/store/bench_book.h"
#include "tests/core/store/whole_life.h"

namespace likeleaf::test {
namespace {

/// A finished trial with its report, one in the middle of the tasting, and a draft.
void write_book(const std::filesystem::path& path) {
  World world;
  auto session = new_bench(path, world);
  Attribute brisk = *find_attribute(session->attributes(), "astringency");
  brisk.house_word = "brisk";
  session->put(brisk).value();
  live_through(*session, world);
  session->keep_report({{}, session->trial()->id(), {}, "Likeleaf 0.1.0", "Trial 15", "PDF", R"({"blocks":[]})"})
      .value();
  session->new_trial(FerryPier().trial_14()).value();
  if (const auto sealed = session->seal(); !sealed) throw std::runtime_error(words_of(sealed.error()));
  const auto flight = live_servings(*session->trial());
  const auto first = flight.front()->id, second = flight[1]->id;
  fill_sheet(*session, first);
  session->run(LockSheet{first}).value();
  session->run(StartSheet{second}).value();
  session->run(PutMark{second, Side::left, "body", *Score::from_halves(9)}).value();
  session->new_trial(FerryPier().trial_16()).value();
  done(session->flush());
}

/// One line a trial: number, stage, sheets, digest of its whole text.
std::string contents(Session& session) {
  std::ostringstream out;
  for (const auto& row : session.ledger()) {
    const auto trial = session.read(row.id).value();
    int stamps = 0;
    for (const auto& [id, brew] : trial->brews) stamps += static_cast<int>(brew->stamps.size());
    out << "trial " << row.number << ", stage " << static_cast<int>(row.stage) << ", " << row.sheets_locked << " of "
        << row.sheets << " sheets, " << trial->brews.size() << " brews, " << stamps << " stamps, "
        << session.reports(row.id).value().size() << " reports, "
        << trial_digest(*trial, session.registers(), session.attributes()) << '\n';
  }
  out << session.registers().lots.size() << " lots, " << session.registers().assessors.size() << " assessors, "
      << session.attributes().size() << " attributes\n";
  return out.str();
}

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

const std::filesystem::path reference = std::filesystem::path(LIKELEAF_SOURCE_DIR) / "tests/reference";

TEST(FrozenBook, IsMadeOnlyWhereItIsAskedFor) {
  const char* folder = std::getenv("LIKELEAF_FREEZE_BOOK");
  if (folder == nullptr) GTEST_SKIP() << "frozen once; see the head of this file";
  const auto book = std::filesystem::path(folder) / "book-v1.leafbook";
  write_book(book);
  World world;
  auto session = Session::open(book, OpenWay::read_only, world.services());
  ASSERT_OK(session);
  std::ofstream(std::filesystem::path(folder) / "book-v1.txt", std::ios::binary) << contents(**session);
}

TEST(FrozenBook, OpensForReadingWithEverythingAsItWas) {
  World world;
  const Folder folder;
  std::filesystem::copy_file(reference / "book-v1.leafbook", folder / "old.leafbook");
  auto session = Session::open(folder / "old.leafbook", OpenWay::read_only, world.services());
  ASSERT_OK(session);
  EXPECT_EQ(contents(**session), text_of(reference / "book-v1.txt"));
  const auto health = (*session)->check_book();
  EXPECT_TRUE(health.findings.empty()) << words_of(health.findings.front());
  EXPECT_EQ(health.trials, 3);
  EXPECT_EQ(find_attribute((*session)->attributes(), "astringency")->house_word, "brisk");
}

TEST(FrozenBook, OpensForWritingAndGoesOnWhereItStood) {
  World world;
  const Folder folder;
  std::filesystem::copy_file(reference / "book-v1.leafbook", folder / "old.leafbook");
  {
    auto session = Session::open(folder / "old.leafbook", OpenWay::write, world.services());
    ASSERT_OK(session);
    ASSERT_OK((*session)->take_number(16));
    const auto open = open_sheets(*(*session)->trial());
    ASSERT_FALSE(open.empty());
    fill_sheet(**session, open.front()->id);
    ASSERT_OK((*session)->run(LockSheet{open.front()->id}));
    done((*session)->flush());
  }
  auto session = Session::open(folder / "old.leafbook", OpenWay::read_only, world.services());
  ASSERT_OK(session);
  EXPECT_TRUE((*session)->check_book().findings.empty());
  for (const auto& row : (*session)->ledger())
    if (row.number == 16) {
      EXPECT_EQ(row.sheets_locked, 2);
    }
}

}  // namespace
}  // namespace likeleaf::test
