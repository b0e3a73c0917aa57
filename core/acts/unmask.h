#pragma once
// The only way from sheets and key to differences: unmask() opens the key once every sheet is locked.
#include <memory>
#include <span>
#include <vector>

#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// One sheet with what its cups held.
struct Pairing {
  IdOf<Serving> serving;
  IdOf<Assessor> assessor;
  IdOf<Pair> pair;
  PairKind kind = PairKind::contrast;
  IdOf<Lot> lot;
  int set = 0;      ///< brew pair of the lot
  Contrast levels;  ///< a and b; equal for blanks, yardsticks and warm-ups
  IdOf<Brew> brew_a, brew_b;
  Permille dilution_b{0};
  Side side_b = Side::left;  ///< where the cup at level b (the diluted cup, the second brew) stood
  Side first = Side::left;   ///< which side was really sipped first
  int sitting = 1, place = 1;
  std::optional<IdOf<Pair>> repeat_of;
  std::shared_ptr<const Sheet> sheet;  ///< amendments applied
  bool excluded_before = false;        ///< excluded before unmask: not in the deciding set
  bool excluded_after = false;         ///< excluded later: only a sensitivity line
  [[nodiscard]] bool b_first() const { return side_b == first; }
};

class Unmasked {
 public:
  [[nodiscard]] const SealedPlan& plan() const { return *trial_->sealed; }
  [[nodiscard]] const Trial& trial() const { return *trial_; }
  [[nodiscard]] std::span<const Pairing> pairings() const { return pairings_; }

 private:
  friend Result<Unmasked> open_unmasked(const std::shared_ptr<const Trial>& trial);
  Unmasked() = default;
  std::shared_ptr<const Trial> trial_;
  std::vector<Pairing> pairings_;
};

/// What an unmask would record now: digests recomputed. Refused with the open sheets named ("K., pair 3 of sitting 2")
/// while any live serving has no locked sheet, or when the trial is not sealed or already unmasked.
Result<UnmaskRecord> unmask(const Trial& trial, std::string who, const Moment& now);
/// The joined view of an unmasked trial; refused before unmask. Voided pairs are left out; amendments are applied.
Result<Unmasked> open_unmasked(const std::shared_ptr<const Trial>& trial);

/// Resolves a pair id to its key pair: the sealed pair, or the voided pair's levels under a spare's id, codes and
/// brews.
std::optional<KeyPair> resolve_pair(const Trial& trial, IdOf<Pair> pair);

}  // namespace likeleaf
