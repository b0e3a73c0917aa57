#pragma once
// How a struct is described once and written and read by that one description. Only codec_*.cpp include this.
//
//   template <> struct Shape<Lot> {
//     static void describe(auto& v, auto& x) { v.need("id", x.id); v.maybe("moisture_permille", x.moisture); … }
//   };
//
// need: always there. maybe: an optional, left out when absent. unless_empty: left out when it equals its empty value.
#include <algorithm>
#include <array>
#include <limits>
#include <map>
#include <type_traits>

#include "core/base/number_text.h"
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
Result<T> read_shape(const json& value, const std::string& pointer) {
  T x = Start<T>::make();
  Reading reading(value, pointer);
  Shape<T>::describe(reading, x);
  if (auto done = reading.done(); !done) return tl::unexpected<Error>(done.error());
  return x;
}

template <class E>
Result<E> read_word(const json& value, const std::string& pointer) {
  const auto text = read_text(value, pointer);
  if (!text) return tl::unexpected<Error>(text.error());
  std::string allowed;
  for (std::size_t i = 0; i < Words<E>::list.size(); ++i) {
    if (*text == Words<E>::list[i]) return static_cast<E>(i);
    allowed += (i == 0 ? "one of: " : ", ") + std::string(Words<E>::list[i]);
  }
  return fail(ErrorKind::malformed, pointer.substr(pointer.rfind('/') + 1), shown_value(*text), allowed, pointer);
}
template <class E>
std::string write_word(E e) {
  return Words<E>::list.at(static_cast<std::size_t>(e));
}

/// Enumerations and described structs.
template <class T>
struct Value {
  static json write(const T& x) {
    if constexpr (std::is_enum_v<T>) {
      return write_word(x);
    } else {
      Writing writing;
      Shape<T>::describe(writing, x);
      return std::move(writing.out);
    }
  }
  static Result<T> read(const json& value, const std::string& pointer) {
    if constexpr (std::is_enum_v<T>)
      return read_word<T>(value, pointer);
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
template <>
struct Value<Moment> {
  static json write(const Moment& x) { return to_json(x); }
  static Result<Moment> read(const json& value, const std::string& pointer) { return read_moment(value, pointer); }
};
template <>
struct Value<Digest> {
  static json write(const Digest& x) { return to_json(x); }
  static Result<Digest> read(const json& value, const std::string& pointer) { return read_digest(value, pointer); }
};
template <class Record>
struct Value<IdOf<Record>> {
  static json write(const IdOf<Record>& x) { return x.text(); }
  static Result<IdOf<Record>> read(const json& value, const std::string& pointer) {
    return read_id<Record>(value, pointer);
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
      return fail(ErrorKind::malformed, pointer.substr(pointer.rfind('/') + 1), value.type_name(), "an object",
                  pointer);
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

}  // namespace likeleaf::codec
