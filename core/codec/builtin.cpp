#include "core/codec/builtin.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/base/embedded.h"

namespace likeleaf {
namespace {

using nlohmann::json;

/// A resource that we compiled in ourselves: anything wrong with it is our own bug, found by the first test that runs.
json resource(std::string_view name, std::string_view list) {
  const auto text = embedded(name);
  if (!text) throw std::runtime_error(fmt::format("{} is not compiled in", name));
  json document = json::parse(*text);
  return document.is_array() ? document : document.at(std::string(list));
}

Scale read_scale(const std::string& text) {
  if (text == "intensity") return Scale::intensity;
  if (text == "seconds") return Scale::seconds;
  if (text == "register") return Scale::register_bands;
  throw std::runtime_error(fmt::format("no such scale: {}", text));
}

AromaWord::Band read_band(const std::string& text) {
  if (text == "base") return AromaWord::Band::base;
  if (text == "middle") return AromaWord::Band::middle;
  if (text == "top") return AromaWord::Band::top;
  throw std::runtime_error(fmt::format("no such band: {}", text));
}

std::vector<Attribute> read_attributes() {
  std::vector<Attribute> out;
  for (const auto& entry : resource("resources/attributes.json", "attributes")) {
    Attribute a;
    a.id = entry.at("id").get<std::string>();
    a.name = entry.at("name").get<std::string>();
    a.scale = read_scale(entry.at("scale").get<std::string>());
    a.definition = entry.at("definition").get<std::string>();
    a.low = entry.at("low").get<std::string>();
    a.high = entry.at("high").get<std::string>();
    a.more = entry.at("more").get<std::string>();
    a.less = entry.at("less").get<std::string>();
    a.margin = entry.at("margin").get<std::int64_t>();
    a.direct = entry.value("direct", false);
    out.push_back(std::move(a));
  }
  return out;
}

std::vector<AromaWord> read_lexicon() {
  std::vector<AromaWord> out;
  for (const auto& entry : resource("resources/lexicon.json", "words"))
    out.push_back(AromaWord{entry.at("id").get<std::string>(), entry.at("word").get<std::string>(),
                            entry.at("definition").get<std::string>(), read_band(entry.at("band").get<std::string>()),
                            entry.value("fault", false)});
  return out;
}

}  // namespace

const std::vector<Attribute>& builtin_attributes() {
  static const std::vector<Attribute> attributes = read_attributes();
  return attributes;
}

const std::vector<AromaWord>& builtin_lexicon() {
  static const std::vector<AromaWord> lexicon = read_lexicon();
  return lexicon;
}

}  // namespace likeleaf
