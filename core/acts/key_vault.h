#pragma once
// KeyVault holds the key of a sealed trial; a preparer opens it with a pass that is logged and lapses.
#include "core/base/result.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// Move-only; while it lives the preparer may read the key.
class PreparerPass {
 public:
  PreparerPass(PreparerPass&&) noexcept = default;
  PreparerPass& operator=(PreparerPass&&) noexcept = default;
  PreparerPass(const PreparerPass&) = delete;
  PreparerPass& operator=(const PreparerPass&) = delete;
  [[nodiscard]] IdOf<Assessor> preparer() const { return preparer_; }

 private:
  friend class KeyVault;
  explicit PreparerPass(IdOf<Assessor> preparer) : preparer_(preparer) {}
  IdOf<Assessor> preparer_;
};

class KeyVault {
 public:
  /// Refused when this person is not the plan's preparer, or tastes (unless the trial is self-blinded and unmasked).
  static Result<PreparerPass> reveal(const Trial& trial, IdOf<Assessor> preparer);
  static const Key& open(const Trial& trial, const PreparerPass& pass);
};

}  // namespace likeleaf
