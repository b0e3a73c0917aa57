#include "core/stats/random.h"

#include "core/stats/wide.h"

namespace likeleaf::stats {
namespace {

std::uint64_t splitmix64(std::uint64_t x) {
  x += 0x9E3779B97F4A7C15u;
  x = (x ^ (x >> 30)) * 0xBF58476D1CE4E5B9u;
  x = (x ^ (x >> 27)) * 0x94D049BB133111EBu;
  return x ^ (x >> 31);
}

}  // namespace

Draws::Draws(std::uint64_t seed, Stream stream)
    : engine_(splitmix64(seed + static_cast<std::uint64_t>(stream) * 0x9E3779B97F4A7C15u)) {}

std::uint64_t Draws::below(std::uint64_t n) {
  UWide product = static_cast<UWide>(engine_()) * n;
  auto low = static_cast<std::uint64_t>(product);
  if (low < n) {
    const std::uint64_t threshold = (0 - n) % n;
    while (low < threshold) {
      product = static_cast<UWide>(engine_()) * n;
      low = static_cast<std::uint64_t>(product);
    }
  }
  return static_cast<std::uint64_t>(product >> 64);
}

std::uint64_t Draws::batch(std::uint64_t left, std::uint64_t* pick) {
  // As many bounds as keep their product below 2^53: then a word is refused at most once in two thousand draws.
  std::uint64_t n = 0, product = 1;
  for (std::uint64_t bound = left; bound > 1 && n < places; --bound, ++n) {
    if (static_cast<UWide>(product) * bound >= (UWide{1} << 53)) break;
    product *= bound;
  }
  if (n == 0) {
    pick[0] = below(left);
    return 1;
  }
  const auto chain = [&] {
    std::uint64_t low = engine_();
    for (std::uint64_t k = 0; k < n; ++k) {
      const UWide wide = static_cast<UWide>(low) * (left - k);
      pick[k] = static_cast<std::uint64_t>(wide >> 64);
      low = static_cast<std::uint64_t>(wide);
    }
    return low;
  };
  std::uint64_t low = chain();
  if (low < product) {
    const std::uint64_t threshold = (0 - product) % product;
    while (low < threshold) low = chain();
  }
  return n;
}

}  // namespace likeleaf::stats
