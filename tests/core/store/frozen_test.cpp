// A book of schema 1 as it was written when the bench was finished: every later program must open it and find the same.
// tests/reference/book-v1.leafbook is never made again; book-v1.txt says what is in it. A later schema is frozen by
// tests/reference/make/freeze_book.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "core/session/session.h"
#include "tests/core/store/bench_book.h"
#include "tests/core/store/book_contents.h"

namespace likeleaf::test {
namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

const std::filesystem::path reference = std::filesystem::path(LIKELEAF_SOURCE_DIR) / "tests/reference";

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
    const auto trial = (*session)->trial();
    const auto open = open_sheets(*trial);
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
