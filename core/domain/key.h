#pragma once
// The key: which code holds which brew. It opens for a preparer with a pass, or for everyone at unmask, and for nobody
// else; Key has no printer and no public constructor outside the deal, the store and the bundle reader.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/digest.h"
#include "core/domain/brew.h"
#include "core/domain/plan.h"
#include "core/domain/serving.h"

namespace likeleaf {

enum class PairKind { contrast, blank, yardstick, repeat, warm_up };

struct KeyCup {
  IdOf<Brew> brew;
  Permille dilution{0};  ///< share of water added: the yardstick's weaker cup
  bool operator==(const KeyCup&) const = default;
};

struct KeyPair {
  IdOf<Pair> id;
  PairKind kind = PairKind::contrast;
  IdOf<Lot> lot;
  int set = 0;                           ///< brew pair of the lot, 1-based; 0 for controls and warm-ups
  std::size_t level_a = 0, level_b = 1;  ///< equal for blanks, yardsticks and warm-ups
  int sitting = 1;
  // One code for each liquor of the pair, the same for all assessors; who has which cup left is in the servings.
  BlindCode code_a, code_b;  ///< a: the cup at level_a (blank: first brew; yardstick: undiluted)
  KeyCup cup_a, cup_b;
  std::optional<IdOf<Pair>> repeat_of;
  bool operator==(const KeyPair&) const = default;
};

struct PlannedBrew {
  IdOf<Brew> id;
  int number = 1;
  IdOf<Lot> lot;
  std::size_t level = 0;
  int set = 0;
  int sitting = 1;
  int portion = 1;
  bool operator==(const PlannedBrew&) const = default;
};

/// Ids and codes for a pair that has to be brewed again; sealed with the key, bound to no level.
struct Spare {
  IdOf<Pair> pair;
  BlindCode code_one, code_two;
  IdOf<Brew> brew_one, brew_two;
  bool operator==(const Spare&) const = default;
};

struct Key {
  std::array<std::uint8_t, 32> seed{};  ///< of the draw; published with the salt at unmask, never before
  std::array<std::uint8_t, 32> salt{};  ///< of the key's digest; published at unmask
  std::string generator;                ///< "draw-1"
  std::vector<PlannedBrew> brews;
  std::vector<KeyPair> pairs;
  std::vector<Spare> spares;
  std::string text{};  ///< all this as it was written at the seal (core/codec/seal.h)
  bool operator==(const Key&) const = default;
};

}  // namespace likeleaf
