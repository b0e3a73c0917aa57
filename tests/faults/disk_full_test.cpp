// A disk without room, by a limit on the size of files: not kept, said so, nothing lost, and a retry works.
#include "tests/core/store/bench_book.h"
#include "tests/faults/full_disk.h"

namespace likeleaf::test {
namespace {

class DiskFull : public ::testing::Test {
 protected:
  void SetUp() override {
    session_ = new_bench(folder_ / "a.leafbook", world_);
    trial_ = sealed_trial(*session_);
    serving_ = session_->trial()->servings.front().id;
    session_->run(StartSheet{serving_}).value();
    done(session_->flush());
    world_.dispatcher.pump();
    size_ = std::filesystem::file_size(folder_ / "a.leafbook-wal");
  }
  Folder folder_;
  World world_;
  std::unique_ptr<Session> session_;
  IdOf<Trial> trial_;
  IdOf<Serving> serving_;
  std::uintmax_t size_ = 0;
};

TEST_F(DiskFull, IsSaidForTheTicketAndEverythingIsKeptAfterARetry) {
  std::vector<Kept> heard;
  const auto hear = session_->on_kept([&](const Kept& kept) { heard.push_back(kept); });
  Ticket first = 0, second = 0;
  {
    const FullDisk full(size_);
    first = session_->run(PutSheetNote{serving_, "a note"}).value();
    const auto flushed = session_->flush();
    ASSERT_FALSE(flushed);
    EXPECT_EQ(flushed.error().kind, ErrorKind::disk_full);
    second = session_->run(PutMark{serving_, Side::left, "body", *Score::from_halves(3)}).value();
    EXPECT_FALSE(session_->flush());
    world_.dispatcher.pump();
    ASSERT_FALSE(heard.empty());
    for (const auto& kept : heard) {
      EXPECT_EQ(kept.up_to, first);
      ASSERT_TRUE(kept.not_kept);
      EXPECT_EQ(kept.not_kept->kind, ErrorKind::disk_full);
    }
    // On screen it stays as it was written.
    EXPECT_EQ(session_->trial()->sheets.at(serving_)->note, "a note");
  }
  heard.clear();
  session_->retry();
  ASSERT_OK(session_->flush());
  world_.dispatcher.pump();
  ASSERT_FALSE(heard.empty());
  EXPECT_EQ(heard.back().up_to, second);
  EXPECT_FALSE(heard.back().not_kept);
  session_.reset();
  auto again = Session::open(folder_ / "a.leafbook", OpenWay::read_only, world_.services());
  ASSERT_OK(again);
  const auto trial = (*again)->read(trial_).value();
  EXPECT_EQ(trial->sheets.at(serving_)->note, "a note");
  EXPECT_EQ(trial->sheets.at(serving_)->left.marks.at("body"), Mark(*Score::from_halves(3)));
  EXPECT_TRUE((*again)->check_book().findings.empty());
}

TEST_F(DiskFull, ALockIsRefusedAndDoesNotHappenLaterByItself) {
  {
    const FullDisk full(size_);
    const auto locked = session_->run(LockSheet{serving_});
    ASSERT_FALSE(locked);
    EXPECT_EQ(locked.error().kind, ErrorKind::disk_full);
    EXPECT_FALSE(session_->trial()->sheets.at(serving_)->locked);
  }
  session_->retry();
  ASSERT_OK(session_->flush());
  EXPECT_FALSE(session_->trial()->sheets.at(serving_)->locked);
  ASSERT_OK(session_->run(LockSheet{serving_}));
}

TEST_F(DiskFull, WhatWasNotKeptIsNotPushedFromTheBenchByAnotherTrial) {
  const FullDisk full(size_);
  session_->run(PutSheetNote{serving_, "a note"}).value();
  EXPECT_EQ(session_->new_trial(Plan{}).error().kind, ErrorKind::disk_full);
  EXPECT_EQ(session_->trial()->id(), trial_);
}

TEST_F(DiskFull, ANewBookLeavesNoHalfFileBehind) {
  const FullDisk full(8192);
  const auto made = Session::create(folder_ / "new.leafbook", world_.services());
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().kind, ErrorKind::disk_full);
  for (const auto& name : folder_.names()) EXPECT_FALSE(name.starts_with("new.leafbook")) << name;
}

}  // namespace
}  // namespace likeleaf::test
