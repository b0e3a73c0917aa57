#pragma once
// A book as a busy house would have it after years, made up from a seed: for benchmarks of what grows with the book.
#include <cstdint>
#include <filesystem>
#include <memory>
#include <random>

#include "core/acts/trial_import.h"
#include "core/base/entropy.h"
#include "core/base/result.h"

namespace likeleaf::bench {

/// Finished trials, each with its own draw, of four leaves, three brew pairs a leaf, two controls and twelve tasters:
/// 17 pairs, three warm-ups among them, 204 sheets with every mark.
class TrialMaker {
 public:
  /// All makers have one register of leaves and people; trials of two seeds have no id in common.
  explicit TrialMaker(std::uint64_t seed);
  /// An unmasked trial that is in no book yet, its digests right.
  Trial finished(int number);
  /// Half of its sheets locked.
  Trial tasting(int number);
  /// The same as a reader of bundles hands it over.
  TrialImport import(int number);
  [[nodiscard]] const Registers& registers() const { return registers_; }

 private:
  Plan plan(int number);
  std::shared_ptr<const Trial> sealed(int number);
  std::shared_ptr<const Sheet> sheet(const Trial& trial, IdOf<Serving> serving);
  void brew(Trial& trial);

  FixedEntropy ids_;
  std::mt19937_64 random_;
  Registers registers_;
  Moment now_{1'772'454'730'000, 60, 0};
};

/// A new book of so many trials: the newest is a draft, the one before it is being tasted, the rest are unmasked. Some
/// 60 ms a trial.
Result<void> make_book(const std::filesystem::path& book, int trials);

}  // namespace likeleaf::bench
