#pragma once
// Random numbers for the tests that draw: std::mt19937_64 (fully fixed by the standard) with our own bounded draw and
// shuffle, because the standard distributions differ between libraries. The same seed always gives the same p.
#include <cstdint>
#include <random>
#include <span>
#include <utility>

namespace likeleaf::stats {

/// Which test draws, so that two tests of one trial do not walk the same sequence.
enum class Stream : std::uint64_t { sign_flip = 1, unlike_lots = 2, unlike_assessors = 3, other = 4 };

class Draws {
 public:
  /// The engine is seeded by splitmix64(seed + stream · 0x9E3779B97F4A7C15): one 64-bit value from the caller (by
  /// convention the first eight bytes of the plan's digest) fixes everything.
  Draws(std::uint64_t seed, Stream stream);
  /// 64 random bits.
  std::uint64_t bits() { return engine_(); }
  /// Uniform on 0 … n − 1 without bias: the product method of Lemire (2019, ACM TOMACS 29(1)). n must not be 0.
  std::uint64_t below(std::uint64_t n);
  /// Fisher–Yates from the last place down.
  template <class T>
  void shuffle(std::span<T> items) {
    for (std::size_t i = items.size(); i > 1; --i) std::swap(items[i - 1], items[static_cast<std::size_t>(below(i))]);
  }

 private:
  std::mt19937_64 engine_;
};

}  // namespace likeleaf::stats
