#pragma once
// The order of work at the bench: which stamp stands, what comes next, whose turn it is, how long each act takes. The
// keyed side, like brew.h. Time never decides whose turn it is, so that a stamp does not change its meaning under a
// finger.
#include <optional>
#include <variant>
#include <vector>

#include "core/base/clock.h"
#include "core/domain/brew.h"
#include "core/domain/trial.h"

namespace likeleaf {

/// One thing that is stamped.
struct BenchAct {
  StampKind kind = StampKind::pour_start;
  int infusion = 1;  ///< 1-based
  bool operator==(const BenchAct&) const = default;
};
/// Pour, pour end, drain, drain end of each infusion, then the chill and the bath, which go with the last one.
std::vector<BenchAct> acts_of(const Plan& plan, const Brew& brew);

/// The newest stamp of an act that was not undone; the second of a kind, whatever its infusion.
const Stamp* standing(const Brew& brew, StampKind kind, int infusion);
const Stamp* standing(const Brew& brew, StampKind kind);
/// The newest stamp that was not undone.
const Stamp* last_stamp(const Brew& brew);
/// A stamp that stands and that this act cannot follow: the same act, or a later one of its infusion.
const Stamp* in_the_way_of(const Brew& brew, const BenchAct& act);
/// The act after the furthest one that is stamped; nothing when the brew is ready.
std::optional<BenchAct> next_act(const Plan& plan, const Brew& brew);
/// Stamped ready, in the bath.
bool is_ready(const Brew& brew);
/// Poured and not yet chilling: somebody's hands are on it.
bool in_hand(const Brew& brew);
/// After this act nobody's hands are on the brew any more.
bool frees_the_hands(const BenchAct& act);

// Brews of one sitting come by number.

/// The brew that a stamp belongs to: the chosen one when it is among them, else one in hand, else the next to pour,
/// else one cooling; nullptr when all are ready.
const Brew* current_brew(const Plan& plan, const std::vector<const Brew*>& brews, IdOf<Brew> chosen = {});
/// The next brew to pour beside the current one; nullptr when all are poured.
const Brew* following_brew(const std::vector<const Brew*>& brews, const Brew* current);
/// The brew with the newest standing stamp; nullptr when none stands.
const Brew* last_stamped(const std::vector<const Brew*>& brews);
/// What the hands get ready for: the current brew's next act or, while that drains or cools by itself, the next pour.
struct Upcoming {
  const Brew* brew = nullptr;
  BenchAct act;
};
std::optional<Upcoming> upcoming(const Plan& plan, const std::vector<const Brew*>& brews, const Brew* current);

/// How long each act usually takes at this bench, and the pause before the next pour; the values are first guesses.
struct UsualTimes {
  Duration pour = seconds(15), drain = seconds(18), chill = seconds(210), between = seconds(30);
};
/// The median of this trial's own stamps where there are any.
UsualTimes usual_times(const Trial& trial);
/// How long a brew at a level keeps the hands busy, up to the next pour.
Duration time_in_hand(const Plan& plan, std::size_t level, const UsualTimes& usual);

/// Where the clock of a brew counts from: mid-pour while it steeps, else its last stamp.
Moment counted_from(const Brew& brew, const Stamp& last);

/// What is poured now; what the plan does not say is absent.
struct PourNow {
  std::optional<Mass> water;
  std::optional<Temperature> temperature;
};
/// When the strainer goes up, so that the draining's middle falls on the end of the steep.
struct DrainAt {
  Duration from_mid_pour;
  Duration left;  ///< until then; negative: late
  [[nodiscard]] bool due() const { return left <= Duration(0); }
};
/// Nothing unless the brew steeps and the plan says for how long.
std::optional<DrainAt> drain_at(const Plan& plan, const Brew& brew, const UsualTimes& usual, const Moment& now);
/// What is to be done with a brew now, in figures; nothing where there are none.
using BenchTask = std::variant<std::monostate, PourNow, DrainAt>;
BenchTask task_of_now(const Plan& plan, const Brew& brew, const UsualTimes& usual, const Moment& now);

/// A brew that chills or waits in the bath.
struct CoolingBrew {
  const Brew* brew = nullptr;
  std::optional<Temperature> reading;  ///< the newest
  Moment since;                        ///< its last stamp
  bool in_bath = false;
  bool cool_enough = false;  ///< by its reading: within the tolerance of the tasting temperature, or below it
};
std::vector<CoolingBrew> cooling_brews(const Plan& plan, const std::vector<const Brew*>& brews);

/// A lot whose portions are weighed and numbered before anything is brewed.
struct LotPortions {
  IdOf<Lot> lot;
  int portions = 0;
};
/// The trial's lots in the plan's order, then the warm-up's.
std::vector<LotPortions> portions_to_weigh(const Trial& trial);

}  // namespace likeleaf
