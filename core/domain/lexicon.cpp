#include "core/domain/lexicon.h"

#include <algorithm>

namespace likeleaf {
namespace {

constexpr std::size_t letters_before_offers = 3;

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// The lexicon is English: other scripts are compared as they are.
std::string folded(std::string_view text) {
  std::string out(text);
  std::ranges::transform(out, out.begin(), lower);
  return out;
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(
      std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

}  // namespace

std::vector<const AromaWord*> find_words(const std::vector<AromaWord>& lexicon, std::string_view typed,
                                         std::size_t most) {
  std::vector<const AromaWord*> found;
  if (letters(typed) < letters_before_offers) return found;
  const std::string wanted = folded(typed);
  for (const bool begins : {true, false})
    for (const auto& word : lexicon) {
      const auto at = folded(word.word).find(wanted);
      if (found.size() < most && at != std::string::npos && (at == 0) == begins) found.push_back(&word);
    }
  return found;
}

std::optional<WordMark> parse_word(const std::vector<AromaWord>& lexicon, std::string_view typed) {
  if (typed.empty()) return std::nullopt;
  WordMark mark;
  if (typed.size() > 2 && typed[typed.size() - 2] == ' ' && typed.back() >= '1' && typed.back() <= '3') {
    mark.strength = typed.back() - '0';
    typed.remove_suffix(2);
  }
  const std::string wanted = folded(typed);
  const auto known = std::ranges::find_if(lexicon, [&](const AromaWord& word) { return folded(word.word) == wanted; });
  mark.word = known == lexicon.end() ? std::string(typed) : known->id;
  return mark;
}

}  // namespace likeleaf
