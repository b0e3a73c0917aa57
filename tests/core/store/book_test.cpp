// Opening, refusing and closing.
#include "core/store/book.h"

#include <sqlite3.h>

#include "core/store/ladder.h"
#include "tests/core/store/bench_book.h"

namespace likeleaf::test {
namespace {

namespace fs = std::filesystem;

int sql(const fs::path& file, const char* statement) {
  sqlite3* db = nullptr;
  sqlite3_open(file.c_str(), &db);
  const int code = sqlite3_exec(db, statement, nullptr, nullptr, nullptr);
  sqlite3_close(db);
  return code;
}

std::string bytes_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

void write_bytes(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

/// Opening is refused with this kind, and the file stays byte for byte what it was.
Error refused(const fs::path& file, World& world, const store::Seams& seams = {}) {
  const auto before = bytes_of(file);
  Error error;
  for (const auto way : {OpenWay::write, OpenWay::read_only}) {
    const auto session = Session::open(file, way, world.services(), seams);
    EXPECT_FALSE(session);
    if (!session) error = session.error();
  }
  EXPECT_EQ(bytes_of(file), before);
  return error;
}

class BookFile : public ::testing::Test {
 protected:
  void make() { new_bench(book_, world_); }
  Folder folder_;
  World world_;
  fs::path book_ = folder_ / "bench.leafbook";
};

TEST_F(BookFile, IsOneFileAgainAfterACleanCloseAndHasALockAndAJournalWhileOpen) {
  {
    auto session = new_bench(book_, world_);
    done(session->flush());
    EXPECT_TRUE(fs::exists(folder_ / "bench.leafbook-wal"));
    EXPECT_TRUE(fs::exists(folder_ / "bench.leafbook.lock"));
  }
  EXPECT_EQ(folder_.names(), (std::set<std::string>{"bench.leafbook"}));
  const std::string head = bytes_of(book_).substr(0, 100);
  EXPECT_EQ(head.substr(68, 4), "LLF1");
  EXPECT_EQ(head[18], 1) << "not back in the rollback journal's format";
}

TEST_F(BookFile, ATextFileAndAForeignDatabaseAreRefusedAndNotTouched) {
  write_bytes(book_, "Dear diary, today we drank the L-07.\n");
  EXPECT_EQ(refused(book_, world_).kind, ErrorKind::foreign_file);
  write_bytes(book_, std::string(5000, 'x'));
  EXPECT_EQ(refused(book_, world_).kind, ErrorKind::foreign_file);
  write_bytes(book_, "");
  EXPECT_EQ(refused(book_, world_).kind, ErrorKind::foreign_file);
  fs::remove(book_);
  sql(book_, "CREATE TABLE recipe (name); PRAGMA user_version = 1");
  EXPECT_EQ(refused(book_, world_).kind, ErrorKind::foreign_file);
  fs::remove(book_);
  fs::create_directory(book_);
  EXPECT_EQ(Session::open(book_, OpenWay::write, world_.services()).error().kind, ErrorKind::foreign_file);
}

TEST_F(BookFile, CutInHalfIsDamaged) {
  make();
  fs::resize_file(book_, fs::file_size(book_) / 2);
  EXPECT_EQ(refused(book_, world_).kind, ErrorKind::damaged);
}

TEST_F(BookFile, OfANewerVersionIsRefusedWithBothVersions) {
  make();
  const int newest = store::built_in_ladder().newest();
  sql(book_, ("PRAGMA user_version = " + std::to_string(newest + 1)).c_str());
  const auto error = refused(book_, world_);
  EXPECT_EQ(error.kind, ErrorKind::newer_version);
  EXPECT_EQ(error.value, "version " + std::to_string(newest + 1));
  EXPECT_EQ(error.allowed, "up to version " + std::to_string(newest));
}

TEST_F(BookFile, OpenElsewhereIsRefusedAndNamesTheHolderAndTheFirstGoesOn) {
  auto first = new_bench(book_, world_);
  for (const auto way : {OpenWay::write, OpenWay::read_only}) {
    const auto second = Session::open(book_, way, world_.services());
    ASSERT_FALSE(second);
    EXPECT_EQ(second.error().kind, ErrorKind::in_use);
    EXPECT_NE(second.error().value.find("process " + std::to_string(getpid())), std::string::npos)
        << second.error().value;
    EXPECT_NE(second.error().value.find("2026-03-02T"), std::string::npos) << second.error().value;
  }
  first->new_trial(Plan{}).value();
  ASSERT_OK(first->flush());
  first.reset();
  EXPECT_TRUE(Session::open(book_, OpenWay::write, world_.services()));
}

TEST_F(BookFile, TwoMayReadAtOnceAndThenNobodyWrites) {
  make();
  auto one = Session::open(book_, OpenWay::read_only, world_.services());
  auto two = Session::open(book_, OpenWay::read_only, world_.services());
  ASSERT_OK(one);
  ASSERT_OK(two);
  EXPECT_EQ(Session::open(book_, OpenWay::write, world_.services()).error().kind, ErrorKind::in_use);
  EXPECT_EQ((*one)->new_trial(Plan{}).error().kind, ErrorKind::read_only);
  one->reset();
  two->reset();
  EXPECT_TRUE(Session::open(book_, OpenWay::write, world_.services()));
}

TEST_F(BookFile, OnReadOnlyMediaIsReadWithoutASingleFileBesideItAndRefusedForWriting) {
  make();
  store::Seams seams;
  seams.writable = [](const fs::path&) { return false; };
  EXPECT_EQ(Session::open(book_, OpenWay::write, world_.services(), seams).error().kind, ErrorKind::read_only);
  auto session = Session::open(book_, OpenWay::read_only, world_.services(), seams);
  ASSERT_OK(session);
  EXPECT_EQ((*session)->registers(), FerryPier().registers);
  EXPECT_EQ((*session)->opening_notes().at(0).kind, OpeningNote::Kind::write_protected);
  EXPECT_EQ(folder_.names(), (std::set<std::string>{"bench.leafbook"}));
  EXPECT_EQ(Session::create(folder_ / "new.leafbook", world_.services(), seams).error().kind, ErrorKind::read_only);
}

TEST_F(BookFile, WithAJournalBesideItOnReadOnlyMediaIsRefusedInsteadOfReadWithoutIt) {
  make();
  write_bytes(folder_ / "bench.leafbook-wal", "not empty");
  store::Seams seams;
  seams.writable = [](const fs::path&) { return false; };
  const auto session = Session::open(book_, OpenWay::read_only, world_.services(), seams);
  ASSERT_FALSE(session);
  EXPECT_EQ(session.error().kind, ErrorKind::read_only);
}

TEST_F(BookFile, OnANetworkDriveSaysSoAndKeepsTheOlderJournal) {
  store::Seams seams;
  seams.network_drive = [](const fs::path&) { return std::string("NFS"); };
  auto session = new_bench(book_, world_, seams);
  const auto& note = session->opening_notes().at(0);
  EXPECT_EQ(note.kind, OpeningNote::Kind::network_drive);
  EXPECT_EQ(note.drive, "NFS");
  session->new_trial(Plan{}).value();
  ASSERT_OK(session->flush());
  EXPECT_EQ(session->ledger().size(), 1U);
  EXPECT_FALSE(fs::exists(folder_ / "bench.leafbook-wal"));
}

TEST_F(BookFile, ALeftOverJournalIsRecoveredAndSaid) {
  Folder crashed;
  {
    auto session = new_bench(book_, world_);
    session->new_trial(FerryPier().trial_15()).value();
    done(session->flush());
    // The files as a power cut would leave them.
    for (const char* name : {"bench.leafbook", "bench.leafbook-wal"}) fs::copy_file(folder_ / name, crashed / name);
  }
  for (const auto way : {OpenWay::read_only, OpenWay::write}) {
    Folder again;
    for (const char* name : {"bench.leafbook", "bench.leafbook-wal"}) fs::copy_file(crashed / name, again / name);
    auto session = Session::open(again / "bench.leafbook", way, world_.services());
    ASSERT_OK(session);
    EXPECT_EQ((*session)->ledger().size(), 1U);
    if (way == OpenWay::write) {
      ASSERT_EQ((*session)->opening_notes().size(), 1U);
      EXPECT_EQ((*session)->opening_notes().at(0).kind, OpeningNote::Kind::recovered);
    }
  }
}

TEST_F(BookFile, ABackupIsAWholeBookAndNeverWritesOverAnything) {
  auto session = new_bench(book_, world_);
  session->new_trial(FerryPier().trial_15()).value();
  ASSERT_OK(session->backup_to(folder_ / "copy.leafbook"));
  EXPECT_EQ(session->backup_to(folder_ / "copy.leafbook").error().kind, ErrorKind::duplicate);
  EXPECT_FALSE(fs::exists(folder_ / "copy.leafbook.part"));
  auto copy = Session::open(folder_ / "copy.leafbook", OpenWay::read_only, world_.services());
  ASSERT_OK(copy);
  EXPECT_EQ((*copy)->ledger().size(), 1U);
  EXPECT_TRUE((*copy)->check_book().findings.empty());
}

TEST_F(BookFile, ABackupWithoutRoomIsRefusedWithBothSizes) {
  store::Seams seams;
  seams.free_bytes = [](const fs::path&) { return std::uint64_t{1000}; };
  auto session = new_bench(book_, world_, seams);
  const auto copied = session->backup_to(folder_ / "copy.leafbook");
  ASSERT_FALSE(copied);
  EXPECT_EQ(copied.error().kind, ErrorKind::disk_full);
  EXPECT_EQ(copied.error().value, "1000 bytes free");
  EXPECT_FALSE(fs::exists(folder_ / "copy.leafbook"));
}

TEST_F(BookFile, CreatingOverAFileIsRefusedAndTheFileStays) {
  write_bytes(book_, "shopping list");
  EXPECT_EQ(Session::create(book_, world_.services()).error().kind, ErrorKind::duplicate);
  EXPECT_EQ(bytes_of(book_), "shopping list");
  EXPECT_EQ(Session::create(folder_ / "no/such/folder.leafbook", world_.services()).error().kind, ErrorKind::not_found);
  EXPECT_EQ(Session::open(folder_ / "none.leafbook", OpenWay::write, world_.services()).error().kind,
            ErrorKind::not_found);
}

}  // namespace
}  // namespace likeleaf::test
