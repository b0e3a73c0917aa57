#pragma once
// Places of a source where a small fault can be planted: an operator or a branch that is turned about. The tests should
// notice each of them; run.sh plants some and counts.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace likeleaf::planted {

/// One fault: these bytes of a file are said otherwise.
struct Place {
  std::string path;  ///< from the project's root
  int line = 0;
  std::size_t at = 0;      ///< offset in bytes
  std::string is, turned;  ///< what stands there, what is put there
};

/// Every place of one file: comparisons by one step, == and !=, && and ||, arithmetic, a lost `!`, true and false,
/// conditions of `if` and `?:` negated, an early `return`, `break` or `continue` left out, min and max, any_of and
/// all_of, a number beside an operator one more. Comments, literals, directives, static_assert and template brackets
/// hold none. Relies on the project's layout: a binary operator has white space on both sides.
std::vector<Place> places_of(const std::string& path, std::string_view text);

/// The same places in an order drawn by the seed, alike on every machine.
std::vector<Place> drawn(std::vector<Place> places, std::uint64_t seed);

}  // namespace likeleaf::planted
