#include "core/base/entropy.h"

#include <sys/random.h>

#include <cerrno>
#include <stdexcept>

namespace likeleaf {

void SystemEntropy::fill(std::span<std::uint8_t> bytes) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t got = getrandom(bytes.data() + done, bytes.size() - done, 0);
    if (got < 0) {
      if (errno == EINTR) continue;
      throw std::runtime_error("the system gave no random bytes");
    }
    done += static_cast<std::size_t>(got);
  }
}

// splitmix64 (Steele, Lea, Flood 2014): enough for repeatable ids in tests, never used for a real draw.
void FixedEntropy::fill(std::span<std::uint8_t> bytes) {
  for (auto& byte : bytes) {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ULL);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    byte = static_cast<std::uint8_t>((z ^ (z >> 31)) >> 56);
  }
}

}  // namespace likeleaf
