#include <gtest/gtest.h>

#include "tests/core/acts/sealed_trial.h"

namespace likeleaf {
namespace {

using testing::SmallTrial;
using testing::value_of;

TEST(Faults, AreKeptWhenTheFaultOrItsNoteAloneChanges) {
  SmallTrial t;
  const auto kays = t.kays();
  const auto change = [&](std::shared_ptr<const Trial>& trial, bool fault, const char* note) {
    const auto done = value_of(apply(trial, PutFault{kays, Side::left, fault, note}, t.noon));
    trial = done.next;
    return done.changed;
  };
  auto trial = t.sealed;
  EXPECT_TRUE(change(trial, true, "")) << "the fault alone";
  EXPECT_TRUE(change(trial, true, "soap")) << "its note alone";
  EXPECT_FALSE(change(trial, true, "soap")) << "the same again";
  const auto& cup = trial->sheets.at(kays)->cup(Side::left);
  EXPECT_TRUE(cup.fault);
  EXPECT_EQ(cup.fault_note, "soap");
}

}  // namespace
}  // namespace likeleaf
