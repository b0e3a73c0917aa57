// The part of the codec that knows JSON but no struct: texts, limits, single values.
#include <algorithm>
#include <set>

#include "core/base/number_text.h"
#include "core/base/utf8.h"
#include "core/codec/codec.h"

namespace likeleaf {
namespace {

using nlohmann::json;

std::string last_key(const std::string& pointer) {
  return pointer.substr(pointer.rfind('/') + 1);
}

/// A value as an error may show it: scalars as they stand, lists and objects by their type.
std::string shown(const json& value) {
  if (value.is_structured()) return value.is_array() ? "a list" : "an object";
  if (value.is_string()) return shown_value(value.get_ref<const std::string&>());
  return shown_value(value.dump(-1, ' ', false, json::error_handler_t::replace));
}

/// Nesting is counted on the bytes, before any memory is spent on the document.
bool deeper_than(std::string_view text, int most) {
  int depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string) {
      if (c == '\\')
        ++i;
      else if (c == '"')
        in_string = false;
    } else if (c == '"') {
      in_string = true;
    } else if (c == '{' || c == '[') {
      if (++depth > most) return true;
    } else if (c == '}' || c == ']') {
      --depth;
    }
  }
  return false;
}

/// Notes the first key that appears twice in one object: which of the two counts would be anybody's guess.
class TwiceWatch {
 public:
  bool hear(json::parse_event_t event, const json& parsed) {
    using Event = json::parse_event_t;
    if (event == Event::object_start) keys_.emplace_back();
    if (event == Event::object_end && !keys_.empty()) keys_.pop_back();
    if (event == Event::key && !keys_.empty()) {
      const auto& key = parsed.get_ref<const std::string&>();
      if (!keys_.back().insert(key).second && twice_.empty()) twice_ = key.empty() ? "\"\"" : key;
    }
    return true;
  }
  [[nodiscard]] const std::string& twice() const { return twice_; }

 private:
  std::vector<std::set<std::string>> keys_;
  std::string twice_;
};

}  // namespace

std::string canonical_text(const json& value) {
  return value.dump(-1, ' ', false, json::error_handler_t::strict);
}

Result<json> parse_document(std::string_view text, std::size_t most_bytes, int most_depth) {
  if (text.size() > most_bytes)
    return fail(ErrorKind::too_large, "document", std::to_string(text.size()) + " bytes",
                "at most " + std::to_string(most_bytes) + " bytes");
  if (deeper_than(text, most_depth))
    return fail(ErrorKind::too_deep, "document", "nested deeper than " + std::to_string(most_depth),
                "at most " + std::to_string(most_depth) + " levels of lists and objects");
  TwiceWatch watch;
  try {
    json value =
        json::parse(text, [&](int, json::parse_event_t event, json& parsed) { return watch.hear(event, parsed); });
    if (!watch.twice().empty())
      return fail(ErrorKind::duplicate, shown_value(watch.twice()), shown_value(watch.twice()),
                  "each key once in an object");
    return value;
  } catch (const json::parse_error& error) {
    return fail(ErrorKind::malformed, "document", "byte " + std::to_string(error.byte), "JSON text in UTF-8");
  } catch (const json::out_of_range&) {
    return fail(ErrorKind::malformed, "document", "a number out of range", "whole numbers");
  }
}

std::string pointer_to(const std::string& pointer, std::string_view key) {
  std::string out = pointer + "/";
  for (const char c : key) {
    if (c == '~')
      out += "~0";
    else if (c == '/')
      out += "~1";
    else
      out += c;
  }
  return out;
}
std::string pointer_to(const std::string& pointer, std::size_t index) {
  return pointer + "/" + std::to_string(index);
}

Result<std::string> read_text(const json& value, const std::string& pointer) {
  if (!value.is_string()) return fail(ErrorKind::malformed, last_key(pointer), shown(value), "text", pointer);
  const auto& text = value.get_ref<const std::string&>();
  if (text.size() > text_limit)
    return fail(ErrorKind::too_large, last_key(pointer), std::to_string(text.size()) + " bytes",
                "at most " + std::to_string(text_limit) + " bytes", pointer);
  if (!valid_utf8(text)) return fail(ErrorKind::malformed, last_key(pointer), shown_value(text), "UTF-8 text", pointer);
  return text;
}

Result<std::int64_t> read_whole(const json& value, const std::string& pointer, std::int64_t lowest,
                                std::int64_t highest) {
  const auto refuse = [&]() -> Result<std::int64_t> {
    return fail(ErrorKind::malformed, last_key(pointer), shown(value),
                "a whole number, " + std::to_string(lowest) + " to " + std::to_string(highest), pointer);
  };
  if (!value.is_number_integer()) return refuse();
  if (value.is_number_unsigned() && value.get<std::uint64_t>() > static_cast<std::uint64_t>(number_limit))
    return refuse();
  const auto number = value.get<std::int64_t>();
  if (number < lowest || number > highest) return refuse();
  return number;
}

Result<bool> read_bool(const json& value, const std::string& pointer) {
  if (!value.is_boolean()) return fail(ErrorKind::malformed, last_key(pointer), shown(value), "true or false", pointer);
  return value.get<bool>();
}

ObjectReader::ObjectReader(const json& value, std::string pointer) : value_(value), pointer_(std::move(pointer)) {
  if (!value_.is_object()) refuse({ErrorKind::malformed, last_key(pointer_), shown(value_), "an object", pointer_});
}

const json* ObjectReader::find(const std::string& key) {
  if (error_) return nullptr;
  asked_.push_back(key);
  const auto member = value_.find(key);
  return member == value_.end() ? nullptr : &*member;
}

const json* ObjectReader::need(const std::string& key) {
  const json* member = find(key);
  if (member == nullptr) refuse({ErrorKind::missing, key, "", "this key is required", at(key)});
  return member;
}

Result<void> ObjectReader::done() {
  if (error_) return tl::unexpected<Error>(*error_);
  if (value_.empty()) return {};
  for (const auto& [key, member] : value_.items()) {
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    std::string known;
    for (const auto& one : asked_) known += (known.empty() ? "" : ", ") + one;
    return fail(ErrorKind::malformed, shown_value(key), shown(member), "only these keys: " + known, at(key));
  }
  return {};
}

}  // namespace likeleaf
