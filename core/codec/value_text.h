#pragma once
// Values of the domain as canonical JSON text and back, and the words of their enumerations: all that acts and the
// store need. Nothing here brings in the JSON library; codec.h says what the text looks like and what is refused.
#include <cstddef>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace likeleaf {

inline constexpr std::size_t text_limit = 100'000;  ///< bytes of one string

namespace codec {

/// Canonical text: sorted keys, no spaces, whole numbers only, UTF-8 as it is. Of every type that plan.cpp and
/// trial.cpp name at their end; another one does not link. Throws on text that is not UTF-8, which neither apply() nor
/// the reader lets into a trial.
template <class T>
std::string text_of(const T& value);
/// Reads what text_of() wrote, and refuses everything else: see codec.h.
template <class T>
Result<T> read(std::string_view text);
/// Would this value be read back? What apply() asks before it lets one in.
template <class T>
Result<void> readable(const T& value);

/// The lower_snake word of an enumerator, for columns and tables.
template <class E>
std::string word_of(E e);
/// Error: malformed, with the word and those that are allowed; field and place are the caller's to say.
template <class E>
Result<E> read_word(std::string_view word);

}  // namespace codec
}  // namespace likeleaf
