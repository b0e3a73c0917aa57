#pragma once
// Attributes and the whole-number grid each is analysed on.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/domain/score.h"

namespace likeleaf {

enum class Scale {
  intensity,      ///< 0 to 10 by half steps; grid unit: half a point
  seconds,        ///< finish length; differences are ln(b/a), grid unit 1e-9
  register_bands  ///< base, middle, top notes 0 to 10 each; decided on top − base; grid unit: half a point
};

/// Built in (core/codec/builtin.h) or a house's own.
struct Attribute {
  std::string id;          ///< "bitterness"; lower-case letters, digits, '_'
  std::string name;        ///< "Bitterness"
  std::string house_word;  ///< a trade word shown beside the standard one; may be empty
  Scale scale = Scale::intensity;
  std::string definition;  ///< one line, shown while scoring
  std::string low, high;   ///< anchors
  std::string more, less;  ///< "more bitter", "less bitter"
  /// Default margin: half points for intensity and register; for seconds a ratio in permille (1250 is ×1.25).
  std::int64_t margin = 2;
  bool direct = false;  ///< the comparing sip asks "left more / right more / can't tell"
  bool operator==(const Attribute&) const = default;
};

const Attribute* find_attribute(const std::vector<Attribute>& attributes, std::string_view id);

/// The fields of a sheet that an attribute is marked in: itself, or "aroma_register.base", ".middle", ".top".
std::vector<std::string> mark_fields(const Attribute& attribute);
/// The attribute a sheet's field belongs to ("aroma_register.top" → "aroma_register").
std::string_view attribute_of_field(std::string_view field);

/// The margin on the analysis grid: half points as they are; a ratio r becomes round(1e9 · ln r).
std::int64_t grid_margin(Scale scale, std::int64_t margin);
/// Grid units in one point on screen (2 for half-point grids; 0 for seconds, which is shown as a ratio).
double grid_per_point(Scale scale);

/// Reads what was typed for a mark: "7", "7,5", "7.5" for bands and intensity; whole seconds, "<3", ">120" for seconds.
/// The error names field and value and "0 to 10 in half steps" or "whole seconds, 0 to 600".
Result<Mark> parse_mark(Scale scale, std::string_view text, std::string_view field);
/// "7.5", "41", "under 3", "over 120", "could not judge", "not tasted", "spoilt".
std::string mark_text(const Mark& mark, char decimal_mark = '.');

struct AromaWord {
  std::string id, word, definition;
  enum class Band { base, middle, top } band = Band::middle;
  bool fault = false;
  bool operator==(const AromaWord&) const = default;
};

}  // namespace likeleaf
