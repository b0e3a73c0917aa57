#include "core/acts/paper_entry.h"

#include <map>

#include "core/acts/amendment.h"
#include "core/base/number_text.h"

namespace likeleaf {
namespace {

constexpr std::string_view score_allowed = "0 to 10 in half steps, or C, N, S";
constexpr std::string_view seconds_allowed = "whole seconds, 0 to 600, <3, >120, or C, N, S";

/// Without spaces around, ASCII letters in lower case.
std::string plain(std::string_view text) {
  const auto space = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && space(text.front())) text.remove_prefix(1);
  while (!text.empty() && space(text.back())) text.remove_suffix(1);
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

template <class T>
Result<std::optional<T>> one_of(std::string_view text, std::string_view field, std::string_view allowed,
                                const std::map<std::string, T>& known) {
  const std::string typed = plain(text);
  if (typed.empty()) return std::optional<T>();
  if (const auto found = known.find(typed); found != known.end()) return std::optional<T>(found->second);
  return fail(ErrorKind::bad_value, std::string(field), shown_value(text), std::string(allowed));
}

template <class T>
Entry entry_in(const std::map<std::string, T>& entries, const std::string& key) {
  const auto found = entries.find(key);
  return found == entries.end() ? Entry() : Entry(found->second);
}

bool blank(const Entry& entry) {
  return std::holds_alternative<std::monostate>(entry);
}

/// Every field of a sheet with what the two entries say, in scoring order: left cup, right cup, direct answers.
template <class Visit>
void each_field(const std::vector<Attribute>& attributes, const Sheet& sheet, Visit visit) {
  for (const Side side : {Side::left, Side::right})
    for (const auto& attribute : attributes)
      for (const auto& field : mark_fields(attribute))
        visit(std::optional(side), field, entry_in(sheet.cup(side).marks, field),
              entry_in(sheet.second.cup(side), field));
  for (const auto& attribute : attributes)
    if (attribute.direct)
      visit(std::optional<Side>(), attribute.id, entry_in(sheet.directs, attribute.id),
            entry_in(sheet.second.directs, attribute.id));
}

}  // namespace

Result<std::optional<Mark>> parse_paper_mark(Scale scale, std::string_view text, std::string_view field) {
  static const std::map<std::string, NoScore> letters{
      {"c", NoScore::could_not_judge}, {"n", NoScore::not_tasted}, {"s", NoScore::spoilt}};
  std::string typed = plain(text);
  if (typed.empty()) return std::optional<Mark>();
  if (const auto letter = letters.find(typed); letter != letters.end()) return std::optional<Mark>(letter->second);
  const bool timed = scale == Scale::seconds;
  // On a number pad the mark alone is the half: "7." is 7.5, as in tasting.
  if (!timed && (typed.back() == '.' || typed.back() == ',')) typed = typed.size() == 1 ? "0.5" : typed + "5";
  const auto mark = parse_mark(scale, typed, field);
  if (mark) return std::optional<Mark>(*mark);
  return fail(ErrorKind::bad_value, std::string(field), shown_value(text),
              std::string(timed ? seconds_allowed : score_allowed));
}

Result<std::optional<Direct>> parse_paper_answer(std::string_view text, std::string_view field) {
  static const std::map<std::string, Direct> known{
      {"l", Direct::left_more},           {"left", Direct::left_more},   {"left more", Direct::left_more},
      {"r", Direct::right_more},          {"right", Direct::right_more}, {"right more", Direct::right_more},
      {"=", Direct::cannot_tell},         {"c", Direct::cannot_tell},    {"can't tell", Direct::cannot_tell},
      {"can’t tell", Direct::cannot_tell}};
  return one_of(text, field, "L left more, R right more, = can’t tell", known);
}

Result<std::optional<Side>> parse_paper_side(std::string_view text, std::string_view field) {
  static const std::map<std::string, Side> known{
      {"l", Side::left}, {"left", Side::left}, {"r", Side::right}, {"right", Side::right}};
  return one_of(text, field, "L or R", known);
}

Result<std::optional<bool>> parse_paper_yes(std::string_view text, std::string_view field) {
  static const std::map<std::string, bool> known{{"y", true}, {"yes", true}, {"n", false}, {"no", false}};
  return one_of(text, field, "Y or N", known);
}

Result<std::optional<std::optional<Side>>> parse_paper_guess(std::string_view text, std::string_view field) {
  static const std::map<std::string, std::optional<Side>> known{
      {"l", Side::left},   {"left", Side::left}, {"r", Side::right},       {"right", Side::right},
      {"=", std::nullopt}, {"?", std::nullopt},  {"no idea", std::nullopt}};
  return one_of(text, field, "L, R or = no idea", known);
}

std::string box_text(const Mark& mark, char decimal_mark) {
  if (const auto* time = std::get_if<FinishTime>(&mark); time != nullptr && time->cut_off())
    return time->under() ? "<3" : ">120";
  if (const auto* answer = std::get_if<NoScore>(&mark))
    return *answer == NoScore::could_not_judge ? "C" : *answer == NoScore::not_tasted ? "N" : "S";
  return mark_text(mark, decimal_mark);
}

std::string answer_text(Direct answer) {
  switch (answer) {
    case Direct::left_more:
      return "left more";
    case Direct::right_more:
      return "right more";
    case Direct::cannot_tell:
      break;
  }
  return "can’t tell";
}

std::string entry_text(const Entry& entry, char decimal_mark) {
  if (const auto* mark = std::get_if<Mark>(&entry)) return mark_text(*mark, decimal_mark);
  if (const auto* answer = std::get_if<Direct>(&entry)) return answer_text(*answer);
  return "blank";
}

std::string mismatch_text(const std::vector<Mismatch>& mismatches, char decimal_mark) {
  constexpr std::size_t most = 6;
  std::string text;
  for (std::size_t i = 0; i < mismatches.size() && i < most; ++i)
    text += (i == 0 ? "" : "; ") + mismatches[i].label + ": first " + entry_text(mismatches[i].first, decimal_mark) +
            ", second " + entry_text(mismatches[i].second, decimal_mark);
  if (mismatches.size() > most) text += "; and " + std::to_string(mismatches.size() - most) + " more";
  return text;
}

bool written_on(const Sheet& sheet) {
  Sheet untouched;
  untouched.serving = sheet.serving;
  untouched.started = sheet.started;
  untouched.entered_by = sheet.entered_by;
  return sheet != untouched;
}

PaperProgress paper_progress(const std::vector<Attribute>& attributes, const Sheet& sheet) {
  PaperProgress out;
  each_field(attributes, sheet, [&](std::optional<Side>, const std::string&, const Entry& first, const Entry& second) {
    ++out.fields;
    out.first += blank(first) ? 0 : 1;
    out.second += blank(second) ? 0 : 1;
  });
  return out;
}

void compare_entries(const std::vector<Attribute>& attributes, const BlindServing& serving, const Sheet& sheet,
                     LockReview& review) {
  each_field(attributes, sheet,
             [&](std::optional<Side> side, const std::string& field, const Entry& first, const Entry& second) {
               const std::string label = side ? mark_label(field, *side == Side::left ? serving.left : serving.right)
                                              : field + ", comparing sip";
               if (!blank(second) && first != second) review.mismatches.push_back({side, field, label, first, second});
               if (!blank(first) && blank(second)) review.once.push_back(label);
             });
}

}  // namespace likeleaf
