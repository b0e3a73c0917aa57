#include "core/design/draw.h"

#include <limits>
#include <numeric>
#include <string>

#include "core/base/digest.h"

namespace likeleaf::design {

namespace {

std::mt19937_64 seeded(const Seed& seed) {
  std::array<std::uint32_t, 8> words{};
  for (std::size_t i = 0; i < seed.size(); ++i) words[i / 4] |= static_cast<std::uint32_t>(seed[i]) << (8 * (i % 4));
  std::seed_seq sequence(words.begin(), words.end());
  return std::mt19937_64(sequence);
}

}  // namespace

Draw::Draw(const Seed& seed) : engine_(seeded(seed)) {}

Draw Draw::stream(const Seed& seed, std::string_view name) {
  std::string text(seed.begin(), seed.end());
  text += name;
  return Draw(Digest::of(text).bytes());
}

std::uint64_t Draw::below(std::uint64_t n) {
  constexpr std::uint64_t top = std::numeric_limits<std::uint64_t>::max();
  const std::uint64_t surplus = (top % n + 1) % n;  // 2^64 mod n
  std::uint64_t x = engine_();
  while (x > top - surplus) x = engine_();
  return x % n;
}

std::vector<std::size_t> random_order(Draw& draw, std::size_t n) {
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), std::size_t{0});
  draw.shuffle(order);
  return order;
}

std::vector<char> random_halves(Draw& draw, std::size_t n) {
  const bool longer = draw.coin();
  std::vector<char> halves(n);
  for (std::size_t i = 0; i < n; ++i) halves[i] = static_cast<char>((i < n / 2) != longer);
  draw.shuffle(halves);
  return halves;
}

}  // namespace likeleaf::design
