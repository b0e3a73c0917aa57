#pragma once
// One sitting at the bench: its brews, its pairs on the table, pairs taken out. Keyed: says which brews a pair is of.
#include <optional>
#include <string>
#include <vector>

#include "core/acts/unmask.h"
#include "core/domain/bench_order.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// 1, 2, … as the servings have them.
std::vector<int> sittings_of(const Trial& trial);
/// The first sitting that still has a brew without its last stamp; else the last one.
int sitting_of_now(const Trial& trial);
/// Brews of a sitting by number; those made again for a pair taken out too, those of the pair itself no longer.
std::vector<const Brew*> brews_of_sitting(const Trial& trial, int sitting);

/// A pair that is still served, without what its codes hold.
struct TablePair {
  IdOf<Pair> id;
  int sitting = 1;
  int place = 0;       ///< 0 is the warm-up
  bool again = false;  ///< brewed again for one taken out
  int cups = 0;        ///< of each of its two codes
};
/// The pairs of servings, by sitting and place.
std::vector<TablePair> pairs_of(const std::vector<const BlindServing*>& servings);
std::vector<TablePair> pairs_of_sitting(const Trial& trial, int sitting);
/// Key pairs that count, in serving order: pairs taken out and warm-ups are not among them.
std::vector<KeyPair> counted_pairs(const Trial& trial);

/// Numbers of the brews of a pair that are not stamped ready, ascending.
std::vector<int> brews_not_ready(const Trial& trial, IdOf<Pair> pair);

/// Codes and brews that a pair is made again under. Codes by number: which of them holds which brew is not said.
struct BrewedAgain {
  BlindCode low, high;
  std::vector<int> brews;  ///< numbers, ascending
};
struct TakenOut {
  int place = 0;
  std::string who, why;
  std::optional<BrewedAgain> again;
};
/// Pairs of a sitting that were taken out, in the order of taking.
std::vector<TakenOut> taken_out(const Trial& trial, int sitting);

}  // namespace likeleaf
