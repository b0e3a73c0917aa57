#pragma once
// Facts for the book of sentences, made as short as they can be.
#include <cmath>
#include <string>

#include "core/codec/builtin.h"
#include "core/findings/findings.h"

namespace likeleaf::book {

using evidence::AttributeFinding;
using evidence::Interval;
using evidence::OpenReason;
using evidence::Word;

inline Attribute attribute(std::string_view id) {
  return *find_attribute(builtin_attributes(), id);
}

/// 88 °C, the present way, and 68.5 °C.
inline SealedPlan two_temperatures() {
  SealedPlan sealed;
  sealed.plan.lever.kind = LeverKind::water_temperature;
  Level hot, cool;
  hot.value = 88'000;
  hot.present_way = true;
  cool.value = 68'500;
  sealed.plan.lever.levels = {hot, cool};
  sealed.attributes = builtin_attributes();
  return sealed;
}

/// 88 °C, the present way, 68.5 °C and 78 °C.
inline SealedPlan three_temperatures() {
  SealedPlan sealed = two_temperatures();
  Level between;
  between.value = 78'000;
  sealed.plan.lever.levels.push_back(between);
  return sealed;
}

/// A deciding attribute with its interval at 95 %, 88 °C against 68.5 °C.
inline AttributeFinding found(Word word, double estimate, double low, double high, std::string_view id = "bitterness") {
  AttributeFinding f;
  f.attribute = attribute(id);
  f.contrast = {1, 0};
  f.deciding = true;
  f.margin = 1;
  f.word = word;
  f.estimate = estimate;
  f.interval = Interval{low, high, 0.95};
  f.engine = evidence::Engine::exact;
  f.brew_pairs = 9;
  return f;
}

/// The finish this many times as long, from … to ….
inline AttributeFinding found_finish(Word word, double times, double low, double high) {
  AttributeFinding f = found(word, std::log(times), std::log(low), std::log(high), "finish_length");
  f.margin = std::log(1.25);
  return f;
}

inline evidence::Findings findings(std::vector<AttributeFinding> attributes) {
  evidence::Findings out;
  out.contrasts = {{1, 0}};
  out.attributes = std::move(attributes);
  return out;
}

}  // namespace likeleaf::book
