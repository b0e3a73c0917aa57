#include "core/wording/brew_text.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/number_text.h"
#include "core/base/text.h"
#include "core/domain/asked.h"
#include "core/wording/amount_text.h"
#include "core/wording/cautions.h"
#include "core/wording/drift_text.h"
#include "core/wording/phrases.h"

namespace likeleaf::wording {
namespace {

std::string joined(const std::vector<std::string>& parts, const char* between) {
  std::string out;
  for (const auto& part : parts)
    if (!part.empty()) out += (out.empty() ? "" : between) + part;
  return out;
}

std::string numbers_text(const std::vector<int>& numbers) {
  std::vector<std::string> said;
  for (const int n : numbers) said.push_back(std::to_string(n));
  return listed(said);
}

std::string said_of(const Plan& plan, ConstantKind kind, const Brew& brew, int infusion, const Style& style) {
  const auto one = asked(plan, kind, brew.level, infusion);
  return one ? amount_text(kind, one->value, style) : std::string();
}

/// What a lot is called on the sealed plan's own registers.
std::string lot_code(const SealedPlan& plan, IdOf<Lot> id) {
  const Lot* lot = find_record(plan.registers.lots, id);
  return lot ? lot->code : std::string();
}

std::string said(std::monostate, const Style&) {
  return {};
}
std::string said(const PourNow& pour, const Style& style) {
  return joined({pour.water ? mass_text(*pour.water, style) : "",
                 pour.temperature ? temperature_text(*pour.temperature, style) : ""},
                " at ");
}
std::string said(const DrainAt& drain, const Style&) {
  if (!drain.due()) return "drain at " + clock_words(drain.from_mid_pour);
  const Duration late = Duration(0) - drain.left;
  return late < seconds(1) ? "drain now" : fmt::format("drain now, {} late", clock_words(late));
}

}  // namespace

std::string clock_words(Duration duration) {
  const std::int64_t all = std::abs(duration.count()) / 1000;
  const char* sign = duration.count() <= -1000 ? minus_sign : "";
  if (all < 3600) return fmt::format("{}{}:{:02}", sign, all / 60, all % 60);
  return fmt::format("{}{}:{:02}:{:02}", sign, all / 3600, all / 60 % 60, all % 60);
}

std::string phase_name(const Stamp* last) {
  if (!last) return "Get ready";
  switch (last->kind) {
    case StampKind::pour_start:
      return "Pour";
    case StampKind::pour_end:
      return "Steep";
    case StampKind::drain_start:
      return "Drain";
    case StampKind::drain_end:
      return "Drained";
    case StampKind::chill_start:
      return "Cool";
    case StampKind::ready:
      break;
  }
  return "Hold";
}

std::string phase_hint(const Stamp* last) {
  if (!last) return "portion in the vessel, water at hand";
  switch (last->kind) {
    case StampKind::pour_start:
      return "all the water, without a pause";
    case StampKind::pour_end:
      return "lid on, leave it alone";
    case StampKind::drain_start:
      return "pull the strainer, pour it all out";
    case StampKind::drain_end:
      return "to the chill, or the next infusion";
    case StampKind::chill_start:
      return "lid on, type a reading now and then";
    case StampKind::ready:
      break;
  }
  return "lidded, until its pair is served";
}

std::string phase_text(const Brew& brew) {
  const Stamp* last = last_stamp(brew);
  return last ? lower_first(phase_name(last)) : "not poured";
}

std::string progress_text(const Plan& plan, const Brew& brew) {
  std::string out = phase_text(brew);
  if (const Stamp* last = last_stamp(brew)) out += " since " + clock_text(last->at);
  if (const auto next = next_act(plan, brew)) out += ", next " + lower_first(stamp_name(next->kind));
  return out;
}

std::string stamp_name(StampKind kind) {
  switch (kind) {
    case StampKind::pour_start:
      return "Pour starts";
    case StampKind::pour_end:
      return "Poured";
    case StampKind::drain_start:
      return "Drain starts";
    case StampKind::drain_end:
      return "Drained";
    case StampKind::chill_start:
      return "Chill starts";
    case StampKind::ready:
      break;
  }
  return "Ready";
}

std::string pair_name(int place, bool again) {
  return (place == 0 ? "warm-up" : fmt::format("pair {}", place)) + (again ? " again" : "");
}

std::string hold_name(const Plan& plan, const Style& style) {
  const auto warm = asked(plan, ConstantKind::tasting_temperature);
  if (!find_constant(plan, ConstantKind::longest_hold) || !warm) return "hold";
  return "lidded, " + amount_text(ConstantKind::tasting_temperature, warm->value, style);
}

std::string task_text(const BenchTask& task, const Style& style) {
  return std::visit([&](const auto& one) { return said(one, style); }, task);
}

std::string clock_caption(const Plan& plan, const Brew& brew, const Stamp& last, const UsualTimes& usual, bool keyed) {
  switch (last.kind) {
    case StampKind::pour_end: {
      const auto steep = keyed ? asked(plan, ConstantKind::steep_time, brew.level, last.infusion) : std::nullopt;
      return steep ? fmt::format("of {} from mid-pour", clock_words(Duration(steep->value))) : "from mid-pour";
    }
    case StampKind::drain_start:
      return "of about " + clock_words(usual.drain);
    case StampKind::pour_start:
      return "of about " + clock_words(usual.pour);
    case StampKind::drain_end: {
      const auto contact = contact_time(brew, last.infusion);
      return contact ? "steeped " + clock_words(*contact) : std::string();
    }
    case StampKind::chill_start:
      return "of about " + clock_words(usual.chill);
    case StampKind::ready:
      break;
  }
  const auto hold = asked(plan, ConstantKind::longest_hold);
  return hold ? fmt::format("of {} at most", clock_words(Duration(hold->value))) : std::string();
}

std::string act_text(const Plan& plan, const Brew& brew, const BenchAct& act, bool keyed, const Style& style) {
  const std::string which = infusion_count(plan, brew) > 1 ? fmt::format(" {}", act.infusion) : "";
  switch (act.kind) {
    case StampKind::pour_start: {
      const std::string at =
          keyed ? said_of(plan, ConstantKind::water_temperature, brew, act.infusion, style) : std::string();
      return "Pour" + which + (at.empty() ? "" : " at " + at);
    }
    case StampKind::pour_end:
      return "Pour it all, then steep";
    case StampKind::drain_start:
      return "Drain" + which;
    case StampKind::drain_end:
      return "Drain to the last drop";
    case StampKind::chill_start:
      return "Chill";
    case StampKind::ready:
      break;
  }
  return "To the holding bath";
}

std::string recipe_text(const Plan& plan, const Brew& brew, int infusion, const Style& style) {
  const auto with = [](const std::string& amount, const char* before, const char* behind) {
    return amount.empty() ? amount : before + amount + behind;
  };
  std::string pour, steep, leaf;
  if (plan.lever.kind != LeverKind::water_temperature)
    pour = said_of(plan, ConstantKind::water_temperature, brew, infusion, style);
  if (plan.lever.kind != LeverKind::steep_time) steep = said_of(plan, ConstantKind::steep_time, brew, infusion, style);
  if (infusion == 1) leaf = said_of(plan, ConstantKind::leaf_dose, brew, infusion, style);
  const std::string water = said_of(plan, ConstantKind::water_mass, brew, infusion, style);
  const Constant* vessel = find_constant(plan, ConstantKind::vessel);
  return joined(
      {joined({level_text(plan.lever, brew.level, style), with(pour, "water at ", ""), with(steep, "steep ", "")},
              ", "),
       joined({with(water, "", " water"), with(leaf, "", " leaf"), vessel ? vessel->text : ""}, ", ")},
      "\n");
}

std::string act_cautions(StampKind kind, const SealedPlan& plan, const Style& style) {
  const auto at = [&](Step step) { return joined(cautions(step, plan.plan, plan.registers.lots, style), " "); };
  switch (kind) {
    case StampKind::pour_start:
    case StampKind::pour_end:
      return at(Step::pour);
    case StampKind::chill_start:
      return at(Step::chill);
    case StampKind::ready:
      return at(Step::hold);
    case StampKind::drain_start:
    case StampKind::drain_end:
      break;
  }
  return {};
}

std::string cooling_text(const CoolingBrew& cooling, const Moment& now, const Style& style) {
  const std::string reading = cooling.reading ? temperature_text(*cooling.reading, style) : "no reading";
  const std::string where = cooling.in_bath       ? "in the bath"
                            : cooling.cool_enough ? "to the bath now"
                                                  : "cooling " + clock_words(elapsed(cooling.since, now));
  return fmt::format("brew {}   {}   {}", cooling.brew->number, reading, where);
}

std::string first_sip_text(const Plan& plan, const Style& style) {
  const auto tasting = asked(plan, ConstantKind::tasting_temperature);
  if (!tasting) return {};
  return fmt::format("first sip at {}, both cups within {}",
                     amount_text(ConstantKind::tasting_temperature, tasting->value, style),
                     difference_text(ConstantKind::tasting_temperature, first_sip_limit, style));
}

std::string not_ready_text(const std::vector<int>& brews, bool keyed) {
  if (brews.empty()) return {};
  return keyed ? fmt::format(": brew {} not ready", numbers_text(brews)) : ": a cup of it is not ready";
}

std::string taken_out_text(const TakenOut& taken) {
  const std::string what = fmt::format("{}, taken out: {} ({}).", pair_name(taken.place, false), taken.why, taken.who);
  if (!taken.again) return what + " Not brewed again.";
  return fmt::format("{} Brewed again under {} and {} as brew {}.", what, taken.again->low.text(),
                     taken.again->high.text(), numbers_text(taken.again->brews));
}

std::string portions_text(const std::string& lot, int portions, std::optional<Mass> each, const Style& style) {
  return fmt::format("{}: {} portions, {}", lot, portions,
                     each ? mass_text(*each, style) + " each" : "masses from the preparer’s print");
}

std::string bench_drift_text(const Drift& drift, const SealedPlan& plan, const Style& style) {
  const std::string brew = drift.brew_number > 0 ? fmt::format("brew {}, ", drift.brew_number) : "";
  return "Drift: " + brew + drift_text(drift, lot_code(plan, drift.lot), plan, style);
}

}  // namespace likeleaf::wording
