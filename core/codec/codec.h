#pragma once
// JSON of every value type of the domain, for the seal's canonical texts, the store's documents and the bundle. Only
// .cpp files include this header: it brings in nlohmann's. Where a text is enough, value_text.h is.
//
// The shape: an object a struct; keys say their unit ("stock_mg"); enumerations are lower_snake words; ids are UUID
// text; moments are ISO text (stamps add "boot_ms"); numbers are whole. A field that may be absent is left out. Each
// struct is described once, and that one description writes and reads it, so that the two cannot drift apart.
//
// How a shape grows: a new key is left out at its default (`maybe` or `unless_empty` in shape.h), in sheets as anywhere
// else, and no key is ever taken out or renamed. So what an older program wrote reads as it was meant, is written again
// as it was, and keeps its digest. Plans and keys are digested over the text as it was sealed (seal.h); a sheet lies in
// the book as rows, so that this rule alone keeps its digest true.
//
// The reader is strict: unknown keys, missing keys, wrong types, words outside an enumeration, fractions and exponents,
// text over 100 000 bytes or not UTF-8 are refused. Error: kind missing or malformed, field = the key, value as given,
// allowed, where = the JSON pointer of the offending value.
#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/codec/value_text.h"

namespace likeleaf {

// ---- Texts ----------------------------------------------------------------------------------------------

inline constexpr std::int64_t number_limit = 1'000'000'000'000'000;  ///< no whole number lies further from zero
inline constexpr std::size_t list_limit = 1'000'000;                 ///< entries of one list
inline constexpr std::size_t document_limit = 32u << 20;             ///< bytes of one document
inline constexpr int depth_limit = 64;                               ///< nesting of one document

/// Canonical text: sorted keys, no spaces, UTF-8 as it is. Throws nlohmann::json::type_error on text that is not UTF-8,
/// which neither apply() nor the reader lets into a trial.
std::string canonical_text(const nlohmann::json& value);
/// Parses after checking size and depth on the bytes; keys that appear twice in one object are refused too. Errors:
/// too_large, too_deep, malformed (value names the place in bytes), `where` is left to the caller except for keys.
Result<nlohmann::json> parse_document(std::string_view text, std::size_t most_bytes = document_limit,
                                      int most_depth = depth_limit);
/// pointer + "/" + key, with "~" and "/" of the key escaped (RFC 6901).
std::string pointer_to(const std::string& pointer, std::string_view key);
std::string pointer_to(const std::string& pointer, std::size_t index);

// ---- Reading single values: each refuses what it is not, with `where` = pointer -------------------------

Result<std::string> read_text(const nlohmann::json& value, const std::string& pointer);
Result<std::int64_t> read_whole(const nlohmann::json& value, const std::string& pointer,
                                std::int64_t lowest = -number_limit, std::int64_t highest = number_limit);
Result<bool> read_bool(const nlohmann::json& value, const std::string& pointer);

// ---- Values: of the types that plan.cpp and trial.cpp name at their end --------------------------------

namespace codec {

template <class T>
nlohmann::json to_json(const T& value);
/// Refuses with the place under `pointer`.
template <class T>
Result<T> read(const nlohmann::json& value, const std::string& pointer);

}  // namespace codec

/// A list, each entry by `read_one(entry, pointer)`.
template <class ReadOne>
auto read_list(const nlohmann::json& value, const std::string& pointer, ReadOne read_one, std::size_t most = list_limit)
    -> Result<std::vector<typename decltype(read_one(value, pointer))::value_type>> {
  const std::string field = pointer.substr(pointer.rfind('/') + 1);
  if (!value.is_array()) return fail(ErrorKind::malformed, field, value.type_name(), "a list", pointer);
  if (value.size() > most)
    return fail(ErrorKind::too_large, field, std::to_string(value.size()) + " entries",
                "at most " + std::to_string(most) + " entries", pointer);
  std::vector<typename decltype(read_one(value, pointer))::value_type> list;
  list.reserve(value.size());
  for (std::size_t i = 0; i < value.size(); ++i) {
    auto one = read_one(value[i], pointer_to(pointer, i));
    if (!one) return tl::unexpected<Error>(one.error());
    list.push_back(std::move(*one));
  }
  return list;
}

/// An object read key by key, for envelopes that are not a domain struct. The first error stands; after it nothing more
/// is looked at. `done()` refuses keys that were never asked for.
class ObjectReader {
 public:
  ObjectReader(const nlohmann::json& value, std::string pointer);
  /// The member, or nullptr: missing is an error for need(), none for find().
  const nlohmann::json* need(const std::string& key);
  const nlohmann::json* find(const std::string& key);
  /// Pointer of a member.
  [[nodiscard]] std::string at(const std::string& key) const { return pointer_to(pointer_, key); }
  /// Takes what a read function gave; keeps its error.
  template <class T>
  void take(Result<T> got, T& into) {
    if (!got) return refuse(got.error());
    if (!error_) into = std::move(*got);
  }
  /// reader.need_as("number", n, [](const json& v, const std::string& p) { return read_whole(v, p, 1); });
  template <class T, class Read>
  void need_as(const std::string& key, T& into, Read read) {
    if (const auto* member = need(key)) take<T>(read(*member, at(key)), into);
  }
  /// By codec::read, a list entry by entry.
  template <class T>
  void need_as(const std::string& key, T& into) {
    need_as(key, into, [](const nlohmann::json& v, const std::string& p) { return codec::read<T>(v, p); });
  }
  template <class T>
  void need_as(const std::string& key, std::vector<T>& into) {
    need_as(key, into, [](const nlohmann::json& v, const std::string& p) {
      return read_list(v, p, [](const nlohmann::json& one, const std::string& at) { return codec::read<T>(one, at); });
    });
  }
  template <class T>
  void find_as(const std::string& key, std::optional<T>& into) {
    find_as(key, into, [](const nlohmann::json& v, const std::string& p) { return codec::read<T>(v, p); });
  }
  template <class T, class Read>
  void find_as(const std::string& key, std::optional<T>& into, Read read) {
    const auto* member = find(key);
    if (member == nullptr) return;
    auto got = read(*member, at(key));
    if (got)
      into = std::move(*got);
    else
      refuse(got.error());
  }
  void refuse(Error error) {
    if (!error_) error_ = std::move(error);
  }
  [[nodiscard]] bool good() const { return !error_; }
  Result<void> done();

 private:
  const nlohmann::json& value_;
  std::string pointer_;
  std::vector<std::string> asked_;
  std::optional<Error> error_;
};

}  // namespace likeleaf
