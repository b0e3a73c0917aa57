#pragma once
// "draw-1": the generator of a deal. std::mt19937_64 and std::seed_seq are specified to the bit by the standard; the
// standard's distributions and std::shuffle are not, so the bounded draw and the shuffle are our own.
#include <array>
#include <cstdint>
#include <random>
#include <string_view>
#include <utility>
#include <vector>

namespace likeleaf::design {

/// What the key names as its generator. Any change to what a seed gives needs a new name.
inline constexpr const char* generator_name = "draw-1";

using Seed = std::array<std::uint8_t, 32>;

class Draw {
 public:
  /// std::mt19937_64 seeded by a std::seed_seq of the 32 bytes as eight little-endian 32-bit words.
  explicit Draw(const Seed& seed);
  /// A stream of its own under the same seed: seeded as above by SHA-256 of the seed followed by the stream's name.
  static Draw stream(const Seed& seed, std::string_view name);

  /// 64 bits of the generator.
  std::uint64_t next() { return engine_(); }
  /// Uniform on 0 … n − 1, n ≥ 1: the top of the range that would favour small numbers is drawn again.
  std::uint64_t below(std::uint64_t n);
  /// Heads or tails.
  bool coin() { return below(2) == 1; }

  /// Fisher–Yates from the end: every order equally likely.
  template <class T>
  void shuffle(std::vector<T>& items) {
    for (std::size_t i = items.size(); i > 1; --i) {
      const auto j = static_cast<std::size_t>(below(i));
      if (j != i - 1) std::swap(items[i - 1], items[j]);
    }
  }

 private:
  std::mt19937_64 engine_;
};

/// 0 … n − 1 in random order.
std::vector<std::size_t> random_order(Draw& draw, std::size_t n);
/// n values of which ⌊n/2⌋ are one way and the rest the other, in random order; with odd n a coin gives the longer way.
std::vector<char> random_halves(Draw& draw, std::size_t n);

}  // namespace likeleaf::design
