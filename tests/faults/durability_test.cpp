// What was acknowledged survives a power cut with synchronous=FULL; with anything less it does not, and this test sees
// it.
#include "tests/core/store/bench_book.h"
#include "tests/faults/lossy_vfs.h"

namespace likeleaf::test {
namespace {

struct AfterTheCut {
  int acknowledged = 0;  ///< Kept was heard for them
  int there = 0;         ///< of those, found in the book again
  bool opens = false;
};

/// Scores by a session, cuts the power while the book is open, and looks at what the disk would show.
AfterTheCut score_and_cut_power(const std::string& synchronous) {
  Folder folder, later;
  World world;
  store::Seams seams;
  seams.vfs = lossy_file_system();
  seams.synchronous = synchronous;
  auto session = new_bench(folder / "a.leafbook", world, seams);
  Ticket kept = 0;
  const auto hear = session->on_kept([&](const Kept& k) { kept = std::max(kept, k.up_to); });
  std::vector<std::pair<Ticket, IdOf<Lot>>> given;
  for (std::uint64_t i = 0; i < 40; ++i) {
    Lot lot;
    lot.id = id_of<Lot>(5000 + i);
    lot.code = "L-" + std::to_string(5000 + i);
    given.emplace_back(session->put(lot).value(), lot.id);
    done(session->flush());
    world.dispatcher.pump();
  }
  power_cut(folder.path(), later.path());
  AfterTheCut result;
  auto again = Session::open(later / "a.leafbook", OpenWay::write, world.services());
  result.opens = again.has_value();
  for (const auto& [ticket, lot] : given) {
    if (ticket > kept) continue;
    ++result.acknowledged;
    if (again && find_record((*again)->registers().lots, lot) != nullptr) ++result.there;
  }
  if (again) {
    EXPECT_TRUE((*again)->check_book().findings.empty());
  }
  return result;
}

TEST(Durability, FullLosesNothingThatWasAcknowledged) {
  const auto result = score_and_cut_power("FULL");
  EXPECT_TRUE(result.opens);
  EXPECT_EQ(result.acknowledged, 40);
  EXPECT_EQ(result.there, 40);
}

TEST(Durability, NormalLosesWhatWasAcknowledgedSoTheTestCanFail) {
  const auto result = score_and_cut_power("NORMAL");
  EXPECT_EQ(result.acknowledged, 40);
  EXPECT_LT(result.there, 40);
}

TEST(Durability, OffLosesWhatWasAcknowledgedSoTheTestCanFail) {
  const auto result = score_and_cut_power("OFF");
  EXPECT_EQ(result.acknowledged, 40);
  EXPECT_LT(result.there, 40);
}

}  // namespace
}  // namespace likeleaf::test
