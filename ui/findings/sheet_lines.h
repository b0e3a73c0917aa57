#pragma once
// The sheets of a trial as lines to read: places and codes, never a level.
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

#include "core/base/style.h"
#include "core/domain/trial.h"

namespace likeleaf::ui {

struct SheetLine {
  IdOf<Serving> serving;
  QString taster, place, cups, state;  ///< "R.", "sitting 1, pair 2", "417 and 582", "locked", "excluded", …
  bool locked = false, excluded = false;
};
/// Every serving that is not voided, by taster, sitting and place.
std::vector<SheetLine> sheet_lines(const Trial& trial);

/// One thing on a sheet that can be amended.
struct MarkLine {
  Amendment target;         ///< serving, side and field filled in; values empty
  QString name;             ///< "Bitterness, cup 417"; "Bitterness, the two together"
  QString now, was;         ///< in the reader's words; `was` is empty unless it was amended
  std::string machine_now;  ///< as Amendment writes it
  bool direct = false, seconds = false;
};
std::vector<MarkLine> mark_lines(const Trial& trial, IdOf<Serving> serving, const Style& style);

/// "left_more" as the cup it names: "417 more"; marks with the reader's decimal mark; nothing: "blank".
QString value_words(const BlindServing& serving, bool direct, const std::string& machine, const Style& style);

/// What was changed on one sheet, oldest first: "Bitterness, cup 417: 6.5 became 7.5. T., 3 March 2026, 10:10: …".
QStringList change_lines(const Trial& trial, IdOf<Serving> serving, const Style& style);
/// Who left a sheet out, when and why; nothing when it counts.
std::optional<QString> exclusion_line(const Trial& trial, IdOf<Serving> serving);

}  // namespace likeleaf::ui
