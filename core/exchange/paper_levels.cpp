#include "core/exchange/paper_levels.h"

#include <fmt/format.h>

#include <algorithm>

#include "core/base/number_text.h"
#include "core/domain/limits.h"

namespace likeleaf::exchange {
namespace {

/// "88" alone could be degrees, seconds or grams: without a lever named, a number needs its unit.
bool has_unit(std::string_view text) {
  return text.find_first_not_of("0123456789.,+- ") != std::string_view::npos;
}

Result<std::int64_t> read_number(LeverKind kind, const std::string& text) {
  if (kind == LeverKind::water_temperature)
    return parse_temperature(text, Style{}, "level").map([](Temperature t) { return t.milli_celsius(); });
  if (kind == LeverKind::steep_time) return parse_duration(text, "level").map([](Duration d) { return d.count(); });
  return parse_mass(text, "level").map([](Mass m) { return m.count(); });
}

bool all_numbers(LeverKind kind, const std::vector<PaperLevelCell>& cells) {
  return std::all_of(cells.begin(), cells.end(), [&](const PaperLevelCell& cell) {
    return has_unit(cell.text) && read_number(kind, cell.text).has_value();
  });
}

LeverKind find_kind(const std::vector<PaperLevelCell>& cells) {
  for (const LeverKind kind : {LeverKind::water_temperature, LeverKind::steep_time, LeverKind::leaf_dose})
    if (all_numbers(kind, cells)) return kind;
  return LeverKind::other;
}

Result<Level> read_level(LeverKind kind, const PaperLevelCell& cell) {
  Level level;
  if (!is_numeric(kind)) {
    level.label = cell.text;
    return level;
  }
  const auto value = read_number(kind, cell.text);
  if (!value) {
    Error error = value.error();
    error.where = cell.where;
    return tl::unexpected(std::move(error));
  }
  const Range range = planned_range(*constant_of(kind));
  if (!range.holds(*value))
    return fail(ErrorKind::bad_value, "level", shown_value(cell.text), std::string(range.text), cell.where);
  level.value = *value;
  return level;
}

std::string all_levels(const Lever& lever) {
  std::string list;
  for (std::size_t i = 0; i < lever.levels.size(); ++i) list += (i > 0 ? ", " : "") + level_text(lever, i, Style{});
  return list;
}

Result<void> tick_present_way(Lever& lever, const PaperOptions& options) {
  if (options.present_way.empty()) return {};
  const auto level = read_level(lever.kind, {options.present_way, options.key_file});
  const auto is_it = [&](const Level& one) { return level && one.value == level->value && one.label == level->label; };
  const auto found = std::find_if(lever.levels.begin(), lever.levels.end(), is_it);
  if (found == lever.levels.end())
    return fail(ErrorKind::not_found, "present way", shown_value(options.present_way),
                "one of the levels " + all_levels(lever), options.key_file);
  found->present_way = true;
  return {};
}

}  // namespace

Result<PaperLevels> read_levels(const std::vector<PaperLevelCell>& cells, const PaperOptions& options) {
  PaperLevels out;
  out.lever.kind = options.lever.value_or(find_kind(cells));
  if (out.lever.kind == LeverKind::other)
    out.lever.name = options.lever_name.empty() ? "the way of brewing" : options.lever_name;
  auto& levels = out.lever.levels;
  for (const auto& cell : cells) {
    if (out.index.count(cell.text) != 0) continue;
    const auto level = read_level(out.lever.kind, cell);
    if (!level) return tl::unexpected(level.error());
    const auto same = std::find(levels.begin(), levels.end(), *level);
    out.index[cell.text] = static_cast<std::size_t>(same - levels.begin());
    if (same == levels.end()) levels.push_back(*level);
  }
  if (levels.size() > most_levels)
    return fail(ErrorKind::too_large, "levels", fmt::format("{}", levels.size()),
                fmt::format("at most {}", most_levels), options.key_file);
  if (levels.size() < 2)
    return fail(ErrorKind::bad_value, "levels", all_levels(out.lever), "two or more different levels",
                options.key_file);
  if (auto ticked = tick_present_way(out.lever, options); !ticked) return tl::unexpected(ticked.error());
  return out;
}

}  // namespace likeleaf::exchange
