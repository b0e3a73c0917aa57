#pragma once
// Random bytes of the machine, behind a seam so that tests and the sample script can be repeatable.
#include <cstdint>
#include <span>

namespace likeleaf {

class Entropy {
 public:
  virtual ~Entropy() = default;
  /// Fills every byte. Throws std::runtime_error when the system has no entropy to give (never seen on Linux).
  virtual void fill(std::span<std::uint8_t> bytes) = 0;
};

/// getrandom(2).
class SystemEntropy final : public Entropy {
 public:
  void fill(std::span<std::uint8_t> bytes) override;
};

/// For tests and the sample script only: bytes of splitmix64 from a number, so that ids and draws repeat.
class FixedEntropy final : public Entropy {
 public:
  explicit FixedEntropy(std::uint64_t seed) : state_(seed) {}
  void fill(std::span<std::uint8_t> bytes) override;

 private:
  std::uint64_t state_;
};

}  // namespace likeleaf
