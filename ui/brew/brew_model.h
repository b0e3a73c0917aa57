#pragma once
// What the preparer's screen shows, worked out from the trial and a moment: no widgets, no clock of its own.
#include <QString>
#include <optional>
#include <vector>

#include "core/acts/unmask.h"
#include "core/base/clock.h"
#include "core/domain/brew.h"
#include "core/domain/trial.h"

namespace likeleaf::ui {

/// One thing that is stamped.
struct Act {
  StampKind kind = StampKind::pour_start;
  int infusion = 1;
};

/// Brews of a sitting by number; those made again for a voided pair too, those of a voided pair no longer.
std::vector<const Brew*> brews_of_sitting(const Trial& trial, int sitting);
/// 1, 2, … as the servings have them.
std::vector<int> sittings_of(const Trial& trial);
/// The first sitting that still has a brew without its last stamp; else the last one.
int sitting_of_now(const Trial& trial);

int infusion_count(const Plan& plan, const Brew& brew);
/// The act after the last stamp that stands; nothing when the brew is ready.
std::optional<Act> next_act(const Plan& plan, const Brew& brew);
/// The newest stamp that was not undone.
const Stamp* last_stamp(const Brew& brew);
const Stamp* standing_stamp(const Brew& brew, StampKind kind, int infusion);
/// Poured and not yet chilling: somebody's hands are on it.
bool in_hand(const Brew& brew);
/// The brew that the stamp belongs to when nobody chose another: one in hand, else the next to pour, else one cooling.
/// Time does not enter, so that the button never changes its meaning under a finger.
const Brew* brew_of_now(const Plan& plan, const std::vector<const Brew*>& brews);
/// The brew with the newest standing stamp; nothing when none stands.
const Brew* last_stamped(const std::vector<const Brew*>& brews);

/// What the plan asks of one infusion (1-based) of a level: leaf dose, water mass, water temperature or steep time, in
/// the constant's unit; nothing where the plan does not say it.
std::optional<std::int64_t> asked(const Plan& plan, ConstantKind kind, std::size_t level, int infusion);

/// Act words: "Pour", "Steep", … for the state after a stamp, and "Poured", "Drained", … for the button.
QString phase_name(const Stamp* last);
QString phase_hint(const Stamp* last);
QString stamp_name(StampKind kind);
/// "0:11", "12:05", "−0:05", "1:02:10".
QString clock_words(Duration duration);

/// How long each act usually takes here: the median of this trial's own stamps, else a round first guess.
struct UsualTimes {
  Duration pour = seconds(15), drain = seconds(18), chill = seconds(210), between = seconds(30);
};
UsualTimes usual_times(const Trial& trial);

/// A pair of the sitting as the preparer names it.
struct TablePair {
  IdOf<Pair> id;
  int place = 0;
  QString name;  ///< "pair 2", "warm-up", "pair 2 again"
};
/// Pairs that are still on the table, by place.
std::vector<TablePair> pairs_of_sitting(const Trial& trial, int sitting);
/// "pair 2, spilt (O.): brewed again under 731 and 812 as brews 31 and 32" for each pair of the sitting taken out.
/// Names brews, no level.
std::vector<QString> void_lines(const Trial& trial, int sitting);

}  // namespace likeleaf::ui
