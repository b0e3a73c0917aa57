#pragma once
// Prints that lie where tasters sit: cup labels, tray map, score sheets, and the names of their files. Made from the
// open side alone: no lot, level, question, trial or book is in them, and neither key.h nor brew.h is reached from here
// (tests/gates).
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/serving.h"

namespace likeleaf::report {

/// Which part of the servings is printed.
struct PrintScope {
  std::optional<int> sitting;  ///< nothing: all of them
  bool again = false;          ///< only pairs that stand in for one taken out
  [[nodiscard]] bool holds(const BlindServing& serving) const {
    return (!sitting || serving.sitting == *sitting) && (!again || serving.instead_of.has_value());
  }
};
/// What the name of a file with these servings ends with: "-sitting-2-again".
std::string scope_ending(const PrintScope& scope);

/// What labels and tray map may know of a sealed trial.
struct TablePlan {
  struct Taster {
    IdOf<Assessor> id;
    std::string alias;
  };
  std::vector<Taster> tasters;         ///< in the plan's order
  std::vector<BlindServing> servings;  ///< live ones, in any order
  bool self_blinded = false;           ///< one taster who also brews: codes go under the cups
};

struct CupLabel {
  std::string code, whose;  ///< "386"; "R. · sitting 2 · pair 3"
};
struct CupLabels {
  std::string title, hint;
  bool under_the_cup = false;                   ///< stickers rather than labels
  std::vector<std::vector<CupLabel>> sittings;  ///< each starts a page
};
/// One label for each cup, in serving order, the two codes of a pair by number.
CupLabels cup_labels(const TablePlan& table, const PrintScope& scope);

struct TrayCups {
  std::string left, right;
  Side first = Side::left;
};
struct TrayRow {
  std::string moment;                         ///< "pair 2", "warm-up"; with "again" behind for a pair brewed again
  std::vector<std::optional<TrayCups>> cups;  ///< one for each taster of the sitting
};
struct TraySitting {
  int sitting = 1;
  std::vector<std::string> tasters;
  std::vector<TrayRow> rows;
};
struct TrayMap {
  std::string title;
  bool sides_free = false;         ///< self-blinded: how the cups stand is left to the turn of the tray
  std::vector<std::string> hints;  ///< how to set down; then the cautions
  std::vector<std::string> cautions;
  std::vector<TraySitting> sittings;
};
/// For the person who serves: what stands where, and which cup of a pair is sipped first.
TrayMap tray_map(const TablePlan& table, const PrintScope& scope);

/// What one taster's score sheets may know.
struct SheetPlan {
  std::string alias;
  std::vector<Attribute> attributes;  ///< in scoring order
  bool attribute_by_attribute = false, hide_first_cup = false, self_blinded = false;
  std::vector<std::string> allergens;  ///< of all leaves on the table, never by cup
  std::vector<BlindServing> flight;    ///< this taster's live servings, in any order
};

/// One attribute of one cup.
struct ScaleLine {
  std::string cup;               ///< its code; said where lines of both cups alternate
  std::string name, definition;  ///< the definition stands once a sheet
  std::string low, high;         ///< anchors
  Scale scale = Scale::intensity;
};
struct SheetPart {
  std::string title, hint;
  bool own_page = false;  ///< the first cup's scores are to be out of sight from here on
  bool names_cups = false;
  std::vector<ScaleLine> lines;
  std::vector<std::string> words_of;  ///< cups whose aroma words are asked here
};
struct DirectLine {
  std::string attribute;
};
/// The sheet of one pair.
struct PairSheet {
  std::string taster, pair;  ///< "pair 2 of 5", "warm-up, not counted"
  int sitting = 1;
  std::string left, right;  ///< codes; empty where the taster only reads them afterwards
  Side first = Side::left;
  std::vector<SheetPart> parts;
  std::string compare, compare_hint;
  std::vector<DirectLine> directs;
  std::string codes_hint;  ///< self-blinded: what to do with the codes read under the cups; else empty
};
/// What a taster reads and ticks once a sitting.
struct SittingCover {
  std::string taster;
  int sitting = 1, pairs = 0;
  std::vector<std::string> steps, day, cautions;
  std::vector<std::pair<std::string, std::string>> words;  ///< attributes and what is judged
};
/// The two questions on blinding, asked after the scores of each pair: a page of their own at the end of a sitting.
struct GuessSheet {
  struct Row {
    std::string pair, left, right;  ///< "pair 2"; what the two cups are called
  };
  std::string taster;
  int sitting = 1;
  std::string hint, saw, which;  ///< when to answer; the questions
  std::vector<Row> rows;
};
struct ScoreSheets {
  std::string title;
  std::vector<std::variant<SittingCover, PairSheet, GuessSheet>> pages;
};
/// Sheets in serving order; each sitting begins with its cover and ends with its guesses.
ScoreSheets score_sheets(const std::vector<SheetPlan>& tasters, const PrintScope& scope);

/// File names without ending; they hold a sitting and a taster's alias at most.
std::string labels_file(const TablePlan& table, const PrintScope& scope);
std::string tray_map_file(const PrintScope& scope);
/// `alias` empty: of all tasters.
std::string score_sheets_file(const std::string& alias, const PrintScope& scope);

}  // namespace likeleaf::report
