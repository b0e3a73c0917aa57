#pragma once
// How a struct is described once and written and read by that one description: for plan.cpp and trial.cpp, and for a
// .cpp above that keeps a document of its own (core/report/document_json.cpp).
//
//   template <> struct Shape<Lot> {
//     static void describe(auto& v, auto& x) { v.need("id", x.id); v.maybe("moisture_permille", x.moisture); … }
//   };
//
// need: always there. maybe: an optional, left out when absent. unless_empty: left out when it equals its empty value.
// A key that comes later is one of the last two (codec.h).
#include <algorithm>
#include <array>
#include <map>
#include <type_traits>

#include "core/base/clock.h"
#include "core/base/digest.h"
#include "core/base/id.h"
#include "core/base/number_text.h"
#include "core/base/quantity.h"
#include "core/base/utf8.h"
#include "core/codec/codec.h"

namespace likeleaf::codec {

using nlohmann::json;

template <class T>
struct Shape;  ///< describe(visitor, value)
template <class E>
struct Words;  ///< `list`: the words in the order of the enumerators
template <class T>
struct Value;  ///< write(value) and read(json, pointer)

/// A value to read into; types that have no empty value (a blind code is never 0) say what to start from.
template <class T>
struct Start {
  static T make() { return T{}; }
};

class Writing {
 public:
  json out = json::object();
  template <class T>
  void need(const char* key, const T& x) {
    out[key] = Value<T>::write(x);
  }
  template <class T>
  void maybe(const char* key, const std::optional<T>& x) {
    if (x) out[key] = Value<T>::write(*x);
  }
  template <class T>
  void unless_empty(const char* key, const T& x) {
    if (!(x == T{})) out[key] = Value<T>::write(x);
  }
};

class Reading {
 public:
  Reading(const json& value, const std::string& pointer) : object_(value, pointer) {}
  template <class T>
  void need(const char* key, T& x) {
    object_.need_as(key, x, &Value<T>::read);
  }
  template <class T>
  void maybe(const char* key, std::optional<T>& x) {
    object_.find_as(key, x, &Value<T>::read);
  }
  template <class T>
  void unless_empty(const char* key, T& x) {
    std::optional<T> found;
    object_.find_as(key, found, &Value<T>::read);
    if (found) x = std::move(*found);
  }
  Result<void> done() { return object_.done(); }

 private:
  ObjectReader object_;
};

template <class T>
json write_shape(const T& x) {
  Writing writing;
  Shape<T>::describe(writing, x);
  return std::move(writing.out);
}
template <class T>
Result<T> read_shape(const json& value, const std::string& pointer) {
  T x = Start<T>::make();
  Reading reading(value, pointer);
  Shape<T>::describe(reading, x);
  if (auto done = reading.done(); !done) return tl::unexpected<Error>(done.error());
  return x;
}

inline std::string last_key(const std::string& pointer) {
  return pointer.substr(pointer.rfind('/') + 1);
}

template <class E>
Result<E> read_word(std::string_view word) {
  std::string allowed;
  for (std::size_t i = 0; i < Words<E>::list.size(); ++i) {
    if (word == Words<E>::list[i]) return static_cast<E>(i);
    allowed += (i == 0 ? "one of: " : ", ") + std::string(Words<E>::list[i]);
  }
  return fail(ErrorKind::malformed, {}, shown_value(word), allowed);
}
template <class E>
std::string word_of(E e) {
  return Words<E>::list.at(static_cast<std::size_t>(e));
}

/// A text that some reader takes or refuses; a refusal gets its field and place.
template <class Take>
auto read_from_text(const json& value, const std::string& pointer, Take take)
    -> decltype(take(std::declval<const std::string&>())) {
  const auto text = read_text(value, pointer);
  if (!text) return tl::unexpected<Error>(text.error());
  auto got = take(*text);
  if (!got) return fail(got.error().kind, last_key(pointer), got.error().value, got.error().allowed, pointer);
  return got;
}

/// Enumerations and described structs.
template <class T>
struct Value {
  static json write(const T& x) {
    if constexpr (std::is_enum_v<T>) {
      return word_of(x);
    } else {
      return write_shape(x);
    }
  }
  static Result<T> read(const json& value, const std::string& pointer) {
    if constexpr (std::is_enum_v<T>)
      return read_from_text(value, pointer, &read_word<T>);
    else
      return read_shape<T>(value, pointer);
  }
};

template <>
struct Value<bool> {
  static json write(bool x) { return x; }
  static Result<bool> read(const json& value, const std::string& pointer) { return read_bool(value, pointer); }
};
template <>
struct Value<std::string> {
  static json write(const std::string& x) { return x; }
  static Result<std::string> read(const json& value, const std::string& pointer) { return read_text(value, pointer); }
};
template <>
struct Value<std::int64_t> {
  static json write(std::int64_t x) { return x; }
  static Result<std::int64_t> read(const json& value, const std::string& pointer) { return read_whole(value, pointer); }
};
template <>
struct Value<int> {
  static json write(int x) { return x; }
  static Result<int> read(const json& value, const std::string& pointer) {
    return read_whole(value, pointer, -1'000'000'000, 1'000'000'000).map([](std::int64_t n) {
      return static_cast<int>(n);
    });
  }
};
/// Indexes (levels, spares).
template <>
struct Value<std::size_t> {
  static json write(std::size_t x) { return x; }
  static Result<std::size_t> read(const json& value, const std::string& pointer) {
    return read_whole(value, pointer, 0, 1'000'000).map([](std::int64_t n) { return static_cast<std::size_t>(n); });
  }
};
template <class Tag>
struct Value<Amount<Tag>> {
  static json write(Amount<Tag> x) { return x.count(); }
  static Result<Amount<Tag>> read(const json& value, const std::string& pointer) {
    return read_whole(value, pointer).map([](std::int64_t n) { return Amount<Tag>(n); });
  }
};
template <>
struct Value<Temperature> {
  static json write(Temperature x) { return x.milli_celsius(); }
  static Result<Temperature> read(const json& value, const std::string& pointer) {
    return read_whole(value, pointer).map([](std::int64_t n) { return Temperature(n); });
  }
};
/// ISO text; the uncorrected clock is not in it.
template <>
struct Value<Moment> {
  static json write(const Moment& x) { return iso_text(x); }
  static Result<Moment> read(const json& value, const std::string& pointer) {
    return read_from_text(value, pointer, [](const std::string& text) -> Result<Moment> {
      if (const auto moment = parse_iso(text)) return *moment;
      return fail(ErrorKind::malformed, {}, shown_value(text), "a time such as 2026-03-02T13:32:10.250+01:00");
    });
  }
};
template <>
struct Value<Digest> {
  static json write(const Digest& x) { return x.hex(); }
  static Result<Digest> read(const json& value, const std::string& pointer) {
    return read_from_text(value, pointer, [](const std::string& text) -> Result<Digest> {
      if (const auto digest = Digest::parse(text)) return *digest;
      return fail(ErrorKind::malformed, {}, shown_value(text), "64 hexadecimal digits");
    });
  }
};
template <class Record>
struct Value<IdOf<Record>> {
  static json write(const IdOf<Record>& x) { return x.text(); }
  static Result<IdOf<Record>> read(const json& value, const std::string& pointer) {
    return read_from_text(value, pointer, [](const std::string& text) -> Result<IdOf<Record>> {
      if (const auto id = IdOf<Record>::parse(text)) return *id;
      return fail(ErrorKind::malformed, {}, text, "an id such as 0b6f3a52-7c1d-4e8f-9a20-5d3c1b7e4f66");
    });
  }
};
template <class T>
struct Value<std::vector<T>> {
  static json write(const std::vector<T>& x) {
    json out = json::array();
    for (const auto& one : x) out.push_back(Value<T>::write(one));
    return out;
  }
  static Result<std::vector<T>> read(const json& value, const std::string& pointer) {
    return read_list(value, pointer, &Value<T>::read);
  }
};
template <class T>
struct Value<std::map<std::string, T>> {
  static json write(const std::map<std::string, T>& x) {
    json out = json::object();
    for (const auto& [key, one] : x) out[key] = Value<T>::write(one);
    return out;
  }
  static Result<std::map<std::string, T>> read(const json& value, const std::string& pointer) {
    if (!value.is_object())
      return fail(ErrorKind::malformed, last_key(pointer), value.type_name(), "an object", pointer);
    std::map<std::string, T> out;
    for (const auto& [key, member] : value.items()) {
      if (key.size() > text_limit || !valid_utf8(key))
        return fail(ErrorKind::malformed, shown_value(key), "", "a key in UTF-8", pointer);
      auto one = Value<T>::read(member, pointer_to(pointer, key));
      if (!one) return tl::unexpected<Error>(one.error());
      out.emplace(key, std::move(*one));
    }
    return out;
  }
};

// ---- What codec.h and value_text.h promise of every type --------------------------------------------------

template <class T>
json to_json(const T& value) {
  return Value<T>::write(value);
}
template <class T>
Result<T> read(const json& value, const std::string& pointer) {
  return Value<T>::read(value, pointer);
}
template <class T>
std::string text_of(const T& value) {
  return canonical_text(Value<T>::write(value));
}
template <class T>
Result<T> read(std::string_view text) {
  return parse_document(text).and_then([](const json& value) { return Value<T>::read(value, ""); });
}
template <class T>
Result<void> readable(const T& value) {
  if (const auto again = Value<T>::read(Value<T>::write(value), ""); !again)
    return tl::unexpected<Error>(again.error());
  return {};
}

// Makes them for one type, where its shape is known.
#define LIKELEAF_CODEC_OF(T)                                   \
  template json to_json<T>(const T&);                          \
  template Result<T> read<T>(const json&, const std::string&); \
  template std::string text_of<T>(const T&);                   \
  template Result<T> read<T>(std::string_view);                \
  template Result<void> readable<T>(const T&)
#define LIKELEAF_WORDS_OF(E)          \
  template std::string word_of<E>(E); \
  template Result<E> read_word<E>(std::string_view)

}  // namespace likeleaf::codec
