// Books of an older schema, climbed with a step of the tests' own on top of the program's ladder.
#include <sqlite3.h>

#include <fstream>

#include "core/session/taster_port.h"
#include "core/store/ladder.h"
#include "tests/core/store/bench_book.h"
#include "tests/core/store/book_contents.h"

namespace likeleaf::test {
namespace {

namespace fs = std::filesystem;

store::Seams seams_with(std::string_view step) {
  store::Seams seams;
  seams.ladder.steps.push_back(step);
  return seams;
}

/// Leaves a mark, and touches rows that were there.
constexpr std::string_view next_step =
    "CREATE TABLE tests_own (word TEXT NOT NULL) STRICT; INSERT INTO tests_own VALUES ('climbed');"
    "UPDATE lot SET name = name || ' of old'";

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

std::string asked(const fs::path& file, const char* sql) {
  sqlite3* db = nullptr;
  sqlite3_open(file.c_str(), &db);
  std::string answer;
  sqlite3_exec(
      db, sql,
      [](void* to, int, char** values, char**) {
        *static_cast<std::string*>(to) = values[0];
        return 0;
      },
      &answer, nullptr);
  sqlite3_close(db);
  return answer;
}

class OldBook : public ::testing::Test {
 protected:
  void SetUp() override {
    auto session = new_bench(book_, world_);
    sealed_trial(*session);
    before_ = contents(*session);
    done(session->flush());
  }
  int newest() const { return store::built_in_ladder().newest(); }
  Folder folder_;
  World world_;
  fs::path book_ = folder_ / "bench.leafbook";
  std::string before_;
};

TEST_F(OldBook, OpenedClimbedAndClosedIsOneFileInTheRollbackJournalsFormatBesideItsCopy) {
  const std::string old = bytes_of(book_);
  const std::string copy = "bench.leafbook.version-" + std::to_string(newest());
  {
    auto session = Session::open(book_, OpenWay::write, world_.services(), seams_with(next_step));
    ASSERT_OK(session);
    EXPECT_EQ(contents(**session), before_);
    ASSERT_EQ((*session)->opening_notes().size(), 1U);
    EXPECT_EQ((*session)->opening_notes().at(0),
              (OpeningNote{OpeningNote::Kind::climbed, folder_ / copy.c_str(), {}, newest()}));
  }
  EXPECT_EQ(folder_.names(), (std::set<std::string>{"bench.leafbook", copy}));
  EXPECT_EQ(bytes_of(book_)[18], 1) << "left in WAL mode";
  EXPECT_EQ(asked(book_, "PRAGMA user_version"), std::to_string(newest() + 1));
  EXPECT_EQ(asked(book_, "SELECT word FROM tests_own"), "climbed");
  EXPECT_EQ(asked(folder_ / copy.c_str(), "PRAGMA user_version"), std::to_string(newest()));
  // Opened again it stands where it climbed to, and says nothing more.
  auto again = Session::open(book_, OpenWay::write, world_.services(), seams_with(next_step));
  ASSERT_OK(again);
  EXPECT_TRUE((*again)->opening_notes().empty());
  EXPECT_TRUE((*again)->check_book().findings.empty());
}

TEST_F(OldBook, IsReadWithoutAChangeOnDiskHoweverItLies) {
  const std::string old = bytes_of(book_);
  for (const bool protected_media : {false, true}) {
    auto seams = seams_with(next_step);
    if (protected_media) seams.writable = [](const fs::path&) { return false; };
    {
      auto session = Session::open(book_, OpenWay::read_only, world_.services(), seams);
      ASSERT_OK(session);
      EXPECT_TRUE((*session)->read_only());
      EXPECT_EQ(contents(**session), before_);
      const auto& notes = (*session)->opening_notes();
      ASSERT_EQ(notes.size(), protected_media ? 2U : 1U);
      EXPECT_EQ(notes.at(0), (OpeningNote{OpeningNote::Kind::climbed_in_memory, book_, {}, newest()}));
      EXPECT_TRUE((*session)->check_book().findings.empty());
      EXPECT_EQ((*session)->new_trial(Plan{}).error().kind, ErrorKind::read_only);
      ASSERT_OK((*session)->take_number(15));
      ASSERT_OK((*session)->taster(FerryPier().r));
    }
    EXPECT_EQ(bytes_of(book_), old);
    EXPECT_EQ(folder_.names(), (std::set<std::string>{"bench.leafbook"}));
  }
}

TEST_F(OldBook, WithALeftOverJournalIsRecoveredForReadingAndStillNotClimbedOnDisk) {
  Folder crashed;
  {
    auto session = Session::open(book_, OpenWay::write, world_.services());
    ASSERT_OK(session);
    ASSERT_OK((*session)->new_trial(Plan{}));
    done((*session)->flush());
    for (const char* name : {"bench.leafbook", "bench.leafbook-wal"}) fs::copy_file(folder_ / name, crashed / name);
  }
  {
    auto session =
        Session::open(crashed / "bench.leafbook", OpenWay::read_only, world_.services(), seams_with(next_step));
    ASSERT_OK(session);
    EXPECT_EQ((*session)->ledger().size(), 2U);
    EXPECT_EQ((*session)->opening_notes().size(), 2U);
  }
  EXPECT_EQ(crashed.names(), (std::set<std::string>{"bench.leafbook"}));
  EXPECT_EQ(asked(crashed / "bench.leafbook", "PRAGMA user_version"), std::to_string(newest()));
}

TEST_F(OldBook, AStepThatFailsLeavesTheBookAtTheVersionBeforeIt) {
  for (const std::string_view step :
       {"UPDATE lot SET name = 'half'; CREATE TABLE lot (x)", "INSERT INTO weighed VALUES ('no such trial', 'x', 0)"}) {
    for (const auto way : {OpenWay::write, OpenWay::read_only})
      EXPECT_FALSE(Session::open(book_, way, world_.services(), seams_with(step))) << step;
    auto session = Session::open(book_, OpenWay::write, world_.services());
    ASSERT_OK(session);
    EXPECT_EQ(contents(**session), before_);
    EXPECT_TRUE((*session)->check_book().findings.empty());
  }
}

}  // namespace
}  // namespace likeleaf::test
