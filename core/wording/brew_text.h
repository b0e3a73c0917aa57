#pragma once
// The preparer's bench in words: what is done, what comes next, how far a brew is.
#include <optional>
#include <string>
#include <vector>

#include "core/acts/bench_sitting.h"
#include "core/acts/drift.h"
#include "core/base/style.h"
#include "core/domain/bench_order.h"

namespace likeleaf::wording {

/// "0:11", "12:05", "−0:05", "1:02:10".
std::string clock_words(Duration duration);

/// What is going on after a stamp ("Pour", "Steep", …; "Get ready" before the first) and a hint with it.
std::string phase_name(const Stamp* last);
std::string phase_hint(const Stamp* last);
/// "brew 3" said on: "not poured", "steep"; with the clock and what follows: "steep since 10:03:20, next drain starts".
std::string phase_text(const Brew& brew);
std::string progress_text(const Plan& plan, const Brew& brew);
/// "Pour starts", "Poured", …: what the stamp of an act says.
std::string stamp_name(StampKind kind);

/// "pair 2", "warm-up", "pair 2 again".
std::string pair_name(int place, bool again);
/// "lidded, 42 °C" where the plan holds brews so, else "hold".
std::string hold_name(const Plan& plan, const Style& style);

/// "200 g at 88 °C", "drain at 0:36", "drain now, 0:09 late"; empty where there is nothing to say.
std::string task_text(const BenchTask& task, const Style& style);
/// What the clock runs towards: "of 0:45 from mid-pour", "of about 0:18", "steeped 0:46", "of 10:00 at most". Without
/// the key no steep is told.
std::string clock_caption(const Plan& plan, const Brew& brew, const Stamp& last, const UsualTimes& usual, bool keyed);
/// "Pour 2 at 60 °C", "Drain to the last drop", …; without the key no temperature.
std::string act_text(const Plan& plan, const Brew& brew, const BenchAct& act, bool keyed, const Style& style);
/// Level, water, steep, leaf, vessel of one infusion, on two lines.
std::string recipe_text(const Plan& plan, const Brew& brew, int infusion, const Style& style);
/// The cautions at an act, one after another.
std::string act_cautions(StampKind kind, const SealedPlan& plan, const Style& style);

/// "brew 4   46 °C   cooling 1:20".
std::string cooling_text(const CoolingBrew& cooling, const Moment& now, const Style& style);
/// "first sip at 42 °C, both cups within 1 °C"; empty where no tasting temperature is held.
std::string first_sip_text(const Plan& plan, const Style& style);
/// ": brew 3 and 4 not ready"; empty when none is waited for. Without the key nobody learns which brews meet.
std::string not_ready_text(const std::vector<int>& brews, bool keyed);
/// "pair 2, taken out: spilt (O.). Brewed again under 731 and 812 as brew 31 and 32."
std::string taken_out_text(const TakenOut& taken);
/// "L-12: 18 portions, 4 g each".
std::string portions_text(const std::string& lot, int portions, std::optional<Mass> each, const Style& style);
/// "Drift: brew 3, L-12, …".
std::string bench_drift_text(const Drift& drift, const SealedPlan& plan, const Style& style);

}  // namespace likeleaf::wording
