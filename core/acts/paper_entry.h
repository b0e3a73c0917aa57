#pragma once
// Score sheets on paper: how what is written on them is typed, and how two entries of one sheet are compared. Open
// side.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

namespace likeleaf {

// What is written in the boxes, on paper and in the grid alike.
inline constexpr const char* paper_legend_marks = "C could not judge \u00B7 N not tasted \u00B7 S spoilt";
inline constexpr const char* paper_legend_answers = "L left more \u00B7 R right more \u00B7 = can\u2019t tell";

/// A box of a score: "7", "7,5", "7." (a half), C, N or S; of the finish: whole seconds, "<3", ">120". Blank: nothing.
/// The error names field, value and what is allowed.
Result<std::optional<Mark>> parse_paper_mark(Scale scale, std::string_view text, std::string_view field);
/// A box of the comparing sip: L, R or =. Blank: nothing.
Result<std::optional<Direct>> parse_paper_answer(std::string_view text, std::string_view field);
/// L or R; blank: nothing.
Result<std::optional<Side>> parse_paper_side(std::string_view text, std::string_view field);
/// Y or N; blank: nothing.
Result<std::optional<bool>> parse_paper_yes(std::string_view text, std::string_view field);
/// "Which cup was the house's way?": L, R, or = for no idea. Blank: not answered.
Result<std::optional<std::optional<Side>>> parse_paper_guess(std::string_view text, std::string_view field);

/// What stands in a box: "7.5", "41", "<3", ">120", "C", "N", "S".
std::string box_text(const Mark& mark, char decimal_mark = '.');
/// "left more", "right more", "can't tell".
std::string answer_text(Direct answer);
/// An entry for people: a mark, an answer, or "blank".
std::string entry_text(const Entry& entry, char decimal_mark = '.');
/// "bitterness, cup 417: first 7, second 1", several with semicolons, at most six.
std::string mismatch_text(const std::vector<Mismatch>& mismatches, char decimal_mark = '.');

/// Does anything but its start stand on this sheet?
bool written_on(const Sheet& sheet);

/// How far a paper sheet is: marks of both cups and direct answers.
struct PaperProgress {
  int fields = 0, first = 0, second = 0;
  bool operator==(const PaperProgress&) const = default;
};
PaperProgress paper_progress(const std::vector<Attribute>& attributes, const Sheet& sheet);

/// Adds to a review where the two entries differ and what was entered only once, in the order of the sheet.
void compare_entries(const std::vector<Attribute>& attributes, const BlindServing& serving, const Sheet& sheet,
                     LockReview& review);

}  // namespace likeleaf
