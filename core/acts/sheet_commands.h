#pragma once
// What a taster does to a sheet until its lock, and the guess after it. Open side only: a taster's port speaks these,
// so neither key.h nor brew.h may be reached from here (tests/gates).
#include <optional>
#include <string>
#include <vector>

#include "core/domain/sheet.h"

namespace likeleaf {

struct StartSheet {
  IdOf<Serving> serving;
  EnteredBy by = EnteredBy::screen;
};
struct PutMark {
  IdOf<Serving> serving;
  Side side;
  std::string field;
  std::optional<Mark> mark;
};
struct PutDirect {
  IdOf<Serving> serving;
  std::string attribute;
  std::optional<Direct> answer;
};
struct PutWords {
  IdOf<Serving> serving;
  Side side;
  std::vector<WordMark> words;
};
struct PutFault {
  IdOf<Serving> serving;
  Side side;
  bool fault;
  std::string note;
};
struct PutSheetNote {
  IdOf<Serving> serving;
  std::string note;
};
struct PutSippedFirst {
  IdOf<Serving> serving;
  std::optional<Side> side;
};
// A paper sheet is typed in twice; the second entry is kept beside the first.
struct PutSecondReading {
  IdOf<Serving> serving;
  Side side;
  std::string field;
  std::optional<Mark> mark;
};
struct PutSecondAnswer {
  IdOf<Serving> serving;
  std::string attribute;
  std::optional<Direct> answer;
};
struct SettleReading {  ///< both entries of one field in one step: alike, once a mismatch is settled
  IdOf<Serving> serving;
  Side side;
  std::string field;
  std::optional<Mark> first, second;
};
struct SettleAnswer {
  IdOf<Serving> serving;
  std::string attribute;
  std::optional<Direct> first, second;
};
struct LockSheet {
  IdOf<Serving> serving;
  bool entered_once = false;  ///< said plainly: a paper sheet with fields entered only once is locked like this
};  ///< blanks are allowed: they are named by review(), not forbidden; a mismatch of two entries is
struct PutGuess {
  IdOf<Serving> serving;
  Guess guess;
};  ///< after the lock only, once
struct PutDayState {
  DayState state;
};

}  // namespace likeleaf
