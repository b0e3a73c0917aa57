#pragma once
// What one assessor wrote on one pair. Open side.
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/base/clock.h"
#include "core/base/digest.h"
#include "core/domain/serving.h"

namespace likeleaf {

struct WordMark {
  std::string word;             ///< lexicon id, or a house's own word as typed
  std::optional<int> strength;  ///< 1 to 3
  bool operator==(const WordMark&) const = default;
};

struct CupMarks {
  std::map<std::string, Mark> marks;  ///< by field (attribute.h mark_fields)
  std::vector<WordMark> words;        ///< check all that apply
  bool fault = false;                 ///< "fault in this cup" was pressed
  std::string fault_note;
  bool operator==(const CupMarks&) const = default;
};

/// Asked after the lock of each pair.
struct Guess {
  bool saw_difference = false;  ///< "could you see a difference?"
  /// "Did you think you knew which was which? Which cup was the house's way as now?" Nothing: no idea.
  std::optional<Side> present_way;
  bool operator==(const Guess&) const = default;
};

enum class EnteredBy { screen, paper, import };

/// A paper sheet typed in a second time by someone who did not see the first entry: its numbers and direct answers.
/// Words, faults and notes are typed once.
struct SecondReading {
  std::map<std::string, Mark> left, right;  ///< by field, as in CupMarks
  std::map<std::string, Direct> directs;    ///< by attribute id
  bool operator==(const SecondReading&) const = default;
  [[nodiscard]] const std::map<std::string, Mark>& cup(Side s) const { return s == Side::left ? left : right; }
  [[nodiscard]] std::map<std::string, Mark>& cup(Side s) { return s == Side::left ? left : right; }
  [[nodiscard]] bool empty() const { return left.empty() && right.empty() && directs.empty(); }
};

struct Sheet {
  IdOf<Serving> serving;
  CupMarks left, right;
  std::map<std::string, Direct> directs;  ///< by attribute id; never filled in from scores
  std::optional<Side> sipped_first;       ///< what really happened; nothing: as planned
  std::string note;
  std::optional<Moment> started, locked;
  Digest digest;  ///< of the canonical sheet at lock; empty before
  std::optional<Guess> guess;
  EnteredBy entered_by = EnteredBy::screen;
  SecondReading second;  ///< of a paper sheet only
  bool operator==(const Sheet&) const = default;
  [[nodiscard]] const CupMarks& cup(Side s) const { return s == Side::left ? left : right; }
  [[nodiscard]] CupMarks& cup(Side s) { return s == Side::left ? left : right; }
};

/// State of the day, asked once a sitting.
struct DayState {
  IdOf<Assessor> assessor;
  int sitting = 1;
  bool cold = false;        ///< has a cold or blocked nose
  bool ate_lately = false;  ///< strong or spicy food within the hour
  bool swallows = false;    ///< else spits
  std::string note;
  Moment noted;
  bool operator==(const DayState&) const = default;
};

/// What stands in one field of a sheet: nothing, a mark, or a direct answer.
using Entry = std::variant<std::monostate, Mark, Direct>;

/// A field whose two entries differ. Where only the first says something it was entered once, which is no mismatch;
/// where only the second does, the first overlooked it, which is.
struct Mismatch {
  std::optional<Side> side;  ///< nothing: a direct answer
  std::string field;         ///< field of a mark, or attribute id of a direct answer
  std::string label;         ///< "bitterness, cup 417"
  Entry first, second;
  bool operator==(const Mismatch&) const = default;
};

/// A field of one cup in which nothing stands.
struct BlankMark {
  Side side = Side::left;
  std::string field;  ///< as in CupMarks
  auto operator<=>(const BlankMark&) const = default;
};

/// What a lock would leave blank, and where a direct answer contradicts the two scores (pointed out once).
struct LockReview {
  std::vector<BlankMark> blank;
  std::vector<std::string> unanswered;      ///< attribute ids that ask for a direct answer and have none
  std::vector<std::string> contradictions;  ///< attribute ids
  // Of a paper sheet only:
  std::vector<Mismatch> mismatches;  ///< while one stands, the sheet cannot be locked
  std::vector<std::string> once;     ///< labels of what was entered only once
};

}  // namespace likeleaf
