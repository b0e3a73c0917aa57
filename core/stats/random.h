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
  /// Fisher–Yates from the last place down. The bounded draws of up to 18 places come from one word, without bias
  /// (Brackett-Rozinsky and Lemire 2024, Software: Practice and Experience 54): shuffles are what the tests spend
  /// their time on.
  template <class T>
  void shuffle(std::span<T> items) {
    std::uint64_t left = items.size();
    std::uint64_t pick[places];
    while (left > 1) {
      const std::uint64_t n = batch(left, pick);
      for (std::uint64_t k = 0; k < n; ++k) std::swap(items[left - 1 - k], items[pick[k]]);
      left -= n;
    }
  }

 private:
  static constexpr std::uint64_t places = 18;
  /// Uniform picks below left, left − 1, …, into pick; returns how many (never a draw below 1).
  std::uint64_t batch(std::uint64_t left, std::uint64_t* pick);
  std::mt19937_64 engine_;
};

}  // namespace likeleaf::stats
