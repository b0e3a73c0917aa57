#include "core/domain/attribute.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

#include "core/base/number_text.h"

namespace likeleaf {
namespace {

constexpr std::string_view score_allowed = "0 to 10 in half steps";
constexpr std::string_view seconds_allowed = "whole seconds, 0 to 600";

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::optional<NoScore> no_score(std::string_view text) {
  for (const NoScore answer : {NoScore::could_not_judge, NoScore::not_tasted, NoScore::spoilt})
    if (text == mark_text(answer)) return answer;
  return std::nullopt;
}

Result<Mark> parse_seconds(std::string_view text, std::string_view field) {
  const std::string_view typed = trimmed(text);
  if (typed == "<3" || typed == "< 3" || typed == "under 3") return FinishTime::from_seconds(0);
  if (typed == ">120" || typed == "> 120" || typed == "over 120") return FinishTime::from_seconds(121);
  const auto read = parse_decimal(typed, 0, 0, 600, field, seconds_allowed);
  if (!read) return tl::unexpected(read.error());
  return FinishTime::from_seconds(static_cast<int>(*read));
}

Result<Mark> parse_score(std::string_view text, std::string_view field) {
  const auto tenths = parse_decimal(text, 1, 0, 100, field, score_allowed);
  if (!tenths) return tl::unexpected(tenths.error());
  const auto score = *tenths % 5 == 0 ? Score::from_halves(static_cast<int>(*tenths / 5)) : std::nullopt;
  if (!score) return fail(ErrorKind::bad_value, std::string(field), shown_value(text), std::string(score_allowed));
  return *score;
}

}  // namespace

const Attribute* find_attribute(const std::vector<Attribute>& attributes, std::string_view id) {
  for (const auto& attribute : attributes)
    if (attribute.id == id) return &attribute;
  return nullptr;
}

std::vector<std::string> mark_fields(const Attribute& attribute) {
  if (attribute.scale != Scale::register_bands) return {attribute.id};
  return {attribute.id + ".base", attribute.id + ".middle", attribute.id + ".top"};
}

std::string_view attribute_of_field(std::string_view field) {
  return field.substr(0, field.find('.'));
}

std::int64_t grid_margin(Scale scale, std::int64_t margin) {
  if (scale != Scale::seconds) return margin;
  // A ratio of nothing or less has no logarithm; check() refuses such a margin before anything is decided by it.
  if (margin <= 0) return 0;
  return std::llround(1e9 * std::log(static_cast<double>(margin) / 1000.0));
}

double grid_per_point(Scale scale) {
  return scale == Scale::seconds ? 0.0 : 2.0;
}

Result<Mark> parse_mark(Scale scale, std::string_view text, std::string_view field) {
  if (const auto answer = no_score(trimmed(text))) return *answer;
  return scale == Scale::seconds ? parse_seconds(text, field) : parse_score(text, field);
}

std::string mark_text(const Mark& mark, char decimal_mark) {
  if (const auto* score = std::get_if<Score>(&mark)) {
    const std::string whole = fmt::format("{}", score->halves() / 2);
    return score->halves() % 2 == 0 ? whole : whole + decimal_mark + "5";
  }
  if (const auto* time = std::get_if<FinishTime>(&mark)) {
    if (time->under()) return "under 3";
    if (time->over()) return "over 120";
    return fmt::format("{}", time->seconds());
  }
  switch (std::get<NoScore>(mark)) {
    case NoScore::could_not_judge:
      return "could not judge";
    case NoScore::not_tasted:
      return "not tasted";
    case NoScore::spoilt:
      return "spoilt";
  }
  return {};
}

}  // namespace likeleaf
