#pragma once
// What a taster's screen gets instead of a session: codes, places, own sheets, nothing else. Neither key.h nor brew.h
// may be reached from here (tests/gates).
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/domain/attribute.h"
#include "core/domain/sheet.h"
#include "core/session/news.h"

namespace likeleaf {

class Session;

/// The parts of the sealed plan that a taster may see.
struct TasterSetup {
  std::string alias;
  std::vector<Attribute> attributes;  ///< of the plan, in scoring order
  std::vector<AromaWord> lexicon;
  bool attribute_by_attribute = false;
  bool hide_first_cup = false;
  bool self_blinded = false;  ///< codes are under the cups and read after the last answer
  int sittings = 1;
  std::int64_t rest_ms = 60000;        ///< between cups and pairs
  std::vector<std::string> allergens;  ///< of every leaf on the table, never by cup
  std::vector<std::string> cautions;   ///< hygiene and the like, the same for every trial
  std::string agreed_words;            ///< what the panel agreed on in the open, before the first sitting
};

class TasterPort {
 public:
  virtual ~TasterPort() = default;
  [[nodiscard]] virtual const TasterSetup& setup() const = 0;
  /// This assessor's live servings in order, warm-ups included.
  [[nodiscard]] virtual std::vector<BlindServing> flight() const = 0;
  /// The sheet as it stands; an empty one when nothing was written yet.
  [[nodiscard]] virtual Sheet sheet(IdOf<Serving> serving) const = 0;
  [[nodiscard]] virtual std::optional<DayState> day(int sitting) const = 0;

  virtual Result<std::uint64_t> start(IdOf<Serving> serving, EnteredBy by) = 0;
  virtual Result<std::uint64_t> put(IdOf<Serving> serving, Side side, const std::string& field,
                                    std::optional<Mark> mark) = 0;
  virtual Result<std::uint64_t> answer(IdOf<Serving> serving, const std::string& attribute,
                                       std::optional<Direct> answer) = 0;
  virtual Result<std::uint64_t> words(IdOf<Serving> serving, Side side, std::vector<WordMark> words) = 0;
  virtual Result<std::uint64_t> fault(IdOf<Serving> serving, Side side, bool fault, const std::string& note) = 0;
  virtual Result<std::uint64_t> note(IdOf<Serving> serving, const std::string& note) = 0;
  virtual Result<std::uint64_t> sipped_first(IdOf<Serving> serving, std::optional<Side> side) = 0;
  virtual Result<std::uint64_t> day_state(const DayState& state) = 0;
  [[nodiscard]] virtual LockReview review(IdOf<Serving> serving) const = 0;
  // The second entry of a sheet that was typed in from paper; settling puts one value into both entries.
  virtual Result<std::uint64_t> second(IdOf<Serving> serving, Side side, const std::string& field,
                                       std::optional<Mark> mark) = 0;
  virtual Result<std::uint64_t> second_answer(IdOf<Serving> serving, const std::string& attribute,
                                              std::optional<Direct> answer) = 0;
  virtual Result<std::uint64_t> settle(IdOf<Serving> serving, Side side, const std::string& field,
                                       std::optional<Mark> mark) = 0;
  virtual Result<std::uint64_t> settle_answer(IdOf<Serving> serving, const std::string& attribute,
                                              std::optional<Direct> answer) = 0;
  /// A barrier: returns after the lock is on disk. A paper sheet with fields entered only once is locked when
  /// `entered_once` says so.
  virtual Result<std::uint64_t> lock(IdOf<Serving> serving, bool entered_once = false) = 0;
  virtual Result<std::uint64_t> guess(IdOf<Serving> serving, const Guess& guess) = 0;
  [[nodiscard]] virtual bool can_undo(IdOf<Serving> serving) const = 0;
  virtual Result<std::uint64_t> undo(IdOf<Serving> serving) = 0;

  /// What came to the disk and what did not. A value is kept once its ticket (what put() and the like gave) is in.
  [[nodiscard]] virtual Subscription on_kept(std::function<void(const Kept&)> hear) = 0;
  /// Tries again what could not be written.
  virtual void retry() = 0;
  /// The flight may be another now: a pair was taken off the table, or came to it. Nothing is told about which or why.
  [[nodiscard]] virtual Subscription on_flight(std::function<void()> hear) = 0;
};

}  // namespace likeleaf
