// How the writer treats the journal.
#include "core/store/writer.h"

#include "tests/core/store/bench_book.h"

namespace likeleaf::test {
namespace {

TEST(Writer, KeepsTheJournalShortUnderSteadyWriting) {
  Folder folder;
  World world;
  store::Seams seams;
  seams.synchronous = "OFF";  // how often the disk is asked is not what is looked at here
  auto session = new_bench(folder / "a.leafbook", world, seams);
  session->new_trial(FerryPier().trial_14()).value();
  Plan plan = session->trial()->draft;
  std::uintmax_t most = 0;
  for (int edit = 0; edit < 1500; ++edit) {
    plan.notes = std::string(1900, static_cast<char>('a' + edit % 26));
    session->run(SetPlan{plan}).value();
    done(session->flush());
    most = std::max(most, std::filesystem::file_size(folder / "a.leafbook-wal"));
  }
  // 4 MiB at which it is moved into the book, and what is written meanwhile; without, this loop makes some 20 MB.
  EXPECT_LT(most, 8U << 20);
  EXPECT_GT(most, 2U << 20) << "this loop no longer writes enough to tell";
}

}  // namespace
}  // namespace likeleaf::test
