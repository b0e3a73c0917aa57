#pragma once
#include <QString>
#include <optional>
#include <set>
#include <vector>

#include "core/domain/attribute.h"
#include "core/domain/sheet.h"

namespace likeleaf::ui {

/// Names what a lock would leave blank or contradictory, each thing once over the life of a sheet.
class LockWords {
 public:
  void forget() { named_.clear(); }
  /// Is there anything in the review that was not named yet?
  [[nodiscard]] bool has_news(const LockReview& review) const;
  /// A line for what is blank on either cup, one for answers that are missing, one for contradictions; from now on all
  /// of the review counts as named.
  QString name(const LockReview& review, const BlindServing& serving, const std::vector<Attribute>& attributes);

 private:
  std::set<std::string> named_;
};

/// The one thing in which two states of a sheet differ: where it stands and what to call it ("bitterness, cup 417").
struct SheetChange {
  std::string what;
  QString words;
};
std::optional<SheetChange> change_between(const Sheet& before, const Sheet& after, const BlindServing& serving,
                                          const std::vector<Attribute>& attributes);

/// Names under which a value of a sheet waits for the disk.
std::string mark_place(Side side, const std::string& field);
std::string words_place(Side side);
std::string fault_place(Side side);
std::string answer_place(const std::string& attribute);
inline constexpr const char* note_place = "note";

}  // namespace likeleaf::ui
