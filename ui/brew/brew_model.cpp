#include "ui/brew/brew_model.h"

#include <QStringList>
#include <algorithm>
#include <set>

#include "core/planning/needs.h"

namespace likeleaf::ui {
namespace {

bool voided(const Trial& trial, IdOf<Pair> pair) {
  return std::ranges::any_of(trial.voids, [&](const Void& v) { return v.pair == pair; });
}

/// Brews that were only for pairs taken out. A brew of a yardstick's jug that no cup names stays.
std::set<IdOf<Brew>> brews_taken_out(const Trial& trial) {
  std::set<IdOf<Brew>> out, kept;
  for (const auto& serving : trial.servings) {
    const auto pair = resolve_pair(trial, serving.pair);
    if (!pair) continue;
    auto& into = voided(trial, serving.pair) ? out : kept;
    into.insert(pair->cup_a.brew);
    into.insert(pair->cup_b.brew);
  }
  for (const auto& id : kept) out.erase(id);
  return out;
}

std::vector<Act> acts(const Plan& plan, const Brew& brew) {
  std::vector<Act> out;
  const int count = infusion_count(plan, brew);
  for (int i = 1; i <= count; ++i)
    for (const auto kind : {StampKind::pour_start, StampKind::pour_end, StampKind::drain_start, StampKind::drain_end})
      out.push_back({kind, i});
  out.push_back({StampKind::chill_start, count});
  out.push_back({StampKind::ready, count});
  return out;
}

Duration median(std::vector<std::int64_t> values, Duration otherwise) {
  if (values.empty()) return otherwise;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return Duration(*middle);
}

}  // namespace

std::vector<const Brew*> brews_of_sitting(const Trial& trial, int sitting) {
  const auto out_of_play = brews_taken_out(trial);
  std::vector<const Brew*> out;
  for (const auto& [id, brew] : trial.brews)
    if (brew->sitting == sitting && !out_of_play.contains(id)) out.push_back(brew.get());
  std::ranges::sort(out, {}, [](const Brew* b) { return b->number; });
  return out;
}

std::vector<int> sittings_of(const Trial& trial) {
  std::set<int> found;
  for (const auto& serving : trial.servings) found.insert(serving.sitting);
  return {found.begin(), found.end()};
}

int sitting_of_now(const Trial& trial) {
  const auto all = sittings_of(trial);
  for (const int sitting : all)
    for (const auto* brew : brews_of_sitting(trial, sitting))
      if (next_act(trial.sealed->plan, *brew)) return sitting;
  return all.empty() ? 1 : all.back();
}

int infusion_count(const Plan& plan, const Brew& brew) {
  const std::size_t planned = brew.level < plan.lever.levels.size() ? plan.lever.levels[brew.level].schedule.size() : 0;
  return static_cast<int>(std::max({std::size_t{1}, planned, brew.infusions.size()}));
}

const Stamp* last_stamp(const Brew& brew) {
  const auto found = std::find_if(brew.stamps.rbegin(), brew.stamps.rend(), [](const Stamp& s) { return !s.undone; });
  return found == brew.stamps.rend() ? nullptr : &*found;
}

const Stamp* standing_stamp(const Brew& brew, StampKind kind, int infusion) {
  const auto found = std::find_if(brew.stamps.rbegin(), brew.stamps.rend(), [&](const Stamp& s) {
    return !s.undone && s.kind == kind && s.infusion == infusion;
  });
  return found == brew.stamps.rend() ? nullptr : &*found;
}

std::optional<Act> next_act(const Plan& plan, const Brew& brew) {
  const auto all = acts(plan, brew);
  std::size_t next = 0;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (standing_stamp(brew, all[i].kind, all[i].infusion)) next = i + 1;
  if (next >= all.size()) return std::nullopt;
  return all[next];
}

bool in_hand(const Brew& brew) {
  const Stamp* last = last_stamp(brew);
  return last && last->kind < StampKind::chill_start;
}

const Brew* brew_of_now(const Plan& plan, const std::vector<const Brew*>& brews) {
  const Brew* to_pour = nullptr;
  const Brew* cooling = nullptr;
  for (const auto* brew : brews) {
    if (in_hand(*brew)) return brew;
    if (!last_stamp(*brew))
      to_pour = to_pour ? to_pour : brew;
    else if (next_act(plan, *brew))
      cooling = cooling ? cooling : brew;
  }
  return to_pour ? to_pour : cooling;
}

const Brew* last_stamped(const std::vector<const Brew*>& brews) {
  const Brew* found = nullptr;
  for (const auto* brew : brews) {
    const Stamp* last = last_stamp(*brew);
    if (last && (!found || last->at >= last_stamp(*found)->at)) found = brew;
  }
  return found;
}

std::optional<std::int64_t> asked(const Plan& plan, ConstantKind kind, std::size_t level, int infusion) {
  if (kind == ConstantKind::leaf_dose) {
    const auto leaf = planned_leaf(plan, level);
    return leaf ? std::optional(leaf->count()) : std::nullopt;
  }
  const auto index = static_cast<std::size_t>(std::max(1, infusion) - 1);
  if (level < plan.lever.levels.size()) {
    const Level& l = plan.lever.levels[level];
    if (index < l.schedule.size()) {
      const InfusionPlan& one = l.schedule[index];
      if (kind == ConstantKind::steep_time) return one.steep.count();
      if (kind == ConstantKind::water_mass) return one.water.count();
      if (kind == ConstantKind::water_temperature) return one.pour.milli_celsius();
    }
    if (is_numeric(plan.lever.kind) && constant_of(plan.lever.kind) == kind) return l.value;
  }
  const Constant* held = find_constant(plan, kind);
  return held ? held->target : std::nullopt;
}

QString phase_name(const Stamp* last) {
  if (!last) return QStringLiteral("Get ready");
  switch (last->kind) {
    case StampKind::pour_start:
      return QStringLiteral("Pour");
    case StampKind::pour_end:
      return QStringLiteral("Steep");
    case StampKind::drain_start:
      return QStringLiteral("Drain");
    case StampKind::drain_end:
      return QStringLiteral("Drained");
    case StampKind::chill_start:
      return QStringLiteral("Cool");
    case StampKind::ready:
      break;
  }
  return QStringLiteral("Hold");
}

QString phase_hint(const Stamp* last) {
  if (!last) return QStringLiteral("portion in the vessel, water at hand");
  switch (last->kind) {
    case StampKind::pour_start:
      return QStringLiteral("all the water, without a pause");
    case StampKind::pour_end:
      return QStringLiteral("lid on, leave it alone");
    case StampKind::drain_start:
      return QStringLiteral("pull the strainer, pour it all out");
    case StampKind::drain_end:
      return QStringLiteral("to the chill, or the next infusion");
    case StampKind::chill_start:
      return QStringLiteral("lid on, type a reading now and then");
    case StampKind::ready:
      break;
  }
  return QStringLiteral("lidded, until its pair is served");
}

QString stamp_name(StampKind kind) {
  switch (kind) {
    case StampKind::pour_start:
      return QStringLiteral("Pour starts");
    case StampKind::pour_end:
      return QStringLiteral("Poured");
    case StampKind::drain_start:
      return QStringLiteral("Drain starts");
    case StampKind::drain_end:
      return QStringLiteral("Drained");
    case StampKind::chill_start:
      return QStringLiteral("Chill starts");
    case StampKind::ready:
      break;
  }
  return QStringLiteral("Ready");
}

QString clock_words(Duration duration) {
  const std::int64_t all = std::abs(duration.count()) / 1000;
  const QString sign = duration.count() <= -1000 ? QString(QChar(0x2212)) : QString();
  const auto two = [](std::int64_t n) { return QStringLiteral("%1").arg(n, 2, 10, QLatin1Char('0')); };
  if (all < 3600) return sign + QStringLiteral("%1:%2").arg(all / 60).arg(two(all % 60));
  return sign + QStringLiteral("%1:%2:%3").arg(all / 3600).arg(two(all / 60 % 60), two(all % 60));
}

UsualTimes usual_times(const Trial& trial) {
  std::vector<std::int64_t> pour, drain, chill;
  for (const auto& [id, brew] : trial.brews) {
    const auto take = [&brew = *brew](StampKind from, StampKind to, std::vector<std::int64_t>& into) {
      const int last = std::max<int>(1, static_cast<int>(brew.infusions.size()));
      const Stamp* a = standing_stamp(brew, from, last);
      const Stamp* b = standing_stamp(brew, to, last);
      if (a && b && elapsed(a->at, b->at).count() > 0) into.push_back(elapsed(a->at, b->at).count());
    };
    take(StampKind::pour_start, StampKind::pour_end, pour);
    take(StampKind::drain_start, StampKind::drain_end, drain);
    take(StampKind::chill_start, StampKind::ready, chill);
  }
  UsualTimes out;
  out.pour = median(std::move(pour), out.pour);
  out.drain = median(std::move(drain), out.drain);
  out.chill = median(std::move(chill), out.chill);
  return out;
}

std::vector<TablePair> pairs_of_sitting(const Trial& trial, int sitting) {
  std::vector<TablePair> out;
  for (const auto* serving : live_servings(trial)) {
    if (serving->sitting != sitting ||
        std::ranges::any_of(out, [&](const TablePair& p) { return p.id == serving->pair; }))
      continue;
    QString name = serving->place == 0 ? QStringLiteral("warm-up") : QStringLiteral("pair %1").arg(serving->place);
    if (serving->instead_of) name += QStringLiteral(" again");
    out.push_back({serving->pair, serving->place, name});
  }
  std::ranges::stable_sort(out, {}, &TablePair::place);
  return out;
}

std::vector<QString> void_lines(const Trial& trial, int sitting) {
  std::vector<QString> out;
  for (const auto& v : trial.voids) {
    const auto served = std::ranges::find_if(trial.servings, [&](const BlindServing& s) { return s.pair == v.pair; });
    if (served == trial.servings.end() || served->sitting != sitting) continue;
    QString line = served->place == 0 ? QStringLiteral("warm-up") : QStringLiteral("pair %1").arg(served->place);
    line += QStringLiteral(", taken out: %1 (%2)").arg(QString::fromStdString(v.why), QString::fromStdString(v.who));
    const auto fresh = v.spare && trial.key ? resolve_pair(trial, trial.key->spares[*v.spare].pair) : std::nullopt;
    if (!fresh) {
      out.push_back(line + QStringLiteral(". Not brewed again."));
      continue;
    }
    std::set<int> numbers;
    for (const auto& id : {fresh->cup_a.brew, fresh->cup_b.brew}) {
      const auto brew = trial.brews.find(id);
      if (brew != trial.brews.end()) numbers.insert(brew->second->number);
    }
    QStringList named;
    for (const int n : numbers) named << QString::number(n);
    // Codes in the order of their numbers: which of them holds which brew is said nowhere on screen.
    const int low = std::min(fresh->code_a.number(), fresh->code_b.number()),
              high = std::max(fresh->code_a.number(), fresh->code_b.number());
    out.push_back(line + QStringLiteral(". Brewed again under %1 and %2 as brew %3.")
                             .arg(low)
                             .arg(high)
                             .arg(named.join(QStringLiteral(" and "))));
  }
  return out;
}

}  // namespace likeleaf::ui
