#pragma once
// One set of limits for every door by which something comes in: the screen, a bundle, paper tables, the command line.
// Lengths of texts and physical ranges stand here; limits of whole records are put together in core/domain/limits.h.
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace likeleaf {

// Most characters (code points) of a name, a sentence, a paragraph or a few.
inline constexpr std::size_t name_length = 60;
inline constexpr std::size_t sentence_length = 300;
inline constexpr std::size_t paragraph_length = 4000;

/// Least and most of a whole number of a small unit, both allowed, with the words that an error says.
struct Range {
  std::int64_t low, high;
  std::string_view text;
  [[nodiscard]] constexpr bool holds(std::int64_t value) const { return value >= low && value <= high; }
};

// What may be typed or measured, even while a plan is still wrong.
inline constexpr Range any_temperature{-20'000, 150'000, "−20 to 150 °C"};  ///< milli-°C
inline constexpr Range any_duration{0, 86'400'000, "0 to 86400 s"};         ///< ms
inline constexpr Range any_mass{0, 100'000'000, "0 to 100000 g"};           ///< mg
inline constexpr Range any_volume{0, 100'000'000, "0 to 100 litres"};       ///< µl

// What a plan may ask for. A bench high up boils lower; its own check says so.
inline constexpr Range planned_temperature{0, 100'000, "0 to 100 °C: water does not get hotter than boiling"};
inline constexpr Range planned_steep{1, 86'400'000, "more than 0 s, at most 86400 s"};
inline constexpr Range planned_mass{1, 100'000'000, "more than 0 g, at most 100000 g"};

inline constexpr std::size_t most_infusions = 50;       ///< of one brew
inline constexpr std::size_t most_cup_words = 200;      ///< aroma words of one cup: more than the whole lexicon has
inline constexpr std::size_t most_levels = 20;          ///< of a lever
inline constexpr std::size_t most_table_rows = 50'000;  ///< of one paper table: some seconds of reading

}  // namespace likeleaf
