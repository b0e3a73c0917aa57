// What the cards of the preparer's screen say of one moment.
#include <QLabel>
#include <QPushButton>
#include <QStringList>
#include <algorithm>

#include "core/acts/drift.h"
#include "core/base/number_text.h"
#include "core/planning/needs.h"
#include "core/wording/cautions.h"
#include "core/wording/drift_text.h"
#include "ui/brew/brew_lanes.h"
#include "ui/brew/brew_model.h"
#include "ui/brew/brew_parts.h"
#include "ui/brew/brew_screen.h"
#include "ui/theme/theme.h"
#include "ui/widgets/clock_face.h"

namespace likeleaf::ui {

using namespace brewing;

namespace {

QString lot_code(const Trial& trial, IdOf<Lot> id) {
  const Lot* lot = find_record(trial.sealed->registers.lots, id);
  return lot ? text(lot->code) : QString();
}

/// Since mid-pour while it steeps, since its stamp otherwise.
Moment counted_from(const Brew& brew, const Stamp& last) {
  Moment from = last.at;
  const Stamp* start = standing_stamp(brew, StampKind::pour_start, last.infusion);
  if (last.kind != StampKind::pour_end || !start) return from;
  const std::int64_t half = elapsed(start->at, last.at).count() / 2;
  from.utc_ms -= half;
  if (from.boot_ms != 0) from.boot_ms -= half;
  return from;
}

/// When the strainer goes up so that the draining's middle falls on the end of the steep; from mid-pour.
std::optional<Duration> drain_from(const Trial& trial, const Brew& brew, const Stamp& last) {
  if (last.kind != StampKind::pour_end) return std::nullopt;
  const auto steep = asked(trial.sealed->plan, ConstantKind::steep_time, brew.level, last.infusion);
  if (!steep) return std::nullopt;
  return Duration(std::max<std::int64_t>(0, *steep - usual_times(trial).drain.count() / 2));
}

/// "of 0:45 from mid-pour" and the like.
QString clock_caption(const Trial& trial, const Brew& brew, const Stamp& last, bool keyed) {
  const Plan& plan = trial.sealed->plan;
  const UsualTimes usual = usual_times(trial);
  const auto contact = contact_time(brew, last.infusion);
  switch (last.kind) {
    case StampKind::pour_end: {
      const auto steep = keyed ? asked(plan, ConstantKind::steep_time, brew.level, last.infusion) : std::nullopt;
      if (!steep) return QStringLiteral("from mid-pour");
      return QStringLiteral("of %1 from mid-pour").arg(clock_words(Duration(*steep)));
    }
    case StampKind::drain_start:
      return QStringLiteral("of about %1").arg(clock_words(usual.drain));
    case StampKind::pour_start:
      return QStringLiteral("of about %1").arg(clock_words(usual.pour));
    case StampKind::drain_end:
      return contact ? QStringLiteral("steeped %1").arg(clock_words(*contact)) : QString();
    case StampKind::chill_start:
      return QStringLiteral("of about %1").arg(clock_words(usual.chill));
    case StampKind::ready:
      break;
  }
  const Constant* hold = find_constant(plan, ConstantKind::longest_hold);
  return hold && hold->target ? QStringLiteral("of %1 at most").arg(clock_words(Duration(*hold->target))) : QString();
}

/// Level, water, leaf, portion: what one pour needs.
QString recipe(const Trial& trial, const Brew& brew, int infusion, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  QStringList lines;
  QStringList first{text(level_text(plan.lever, brew.level, style))};
  if (plan.lever.kind != LeverKind::water_temperature)
    if (const auto t = asked(plan, ConstantKind::water_temperature, brew.level, infusion))
      first << QStringLiteral("water at %1").arg(text(temperature_text(Temperature(*t), style)));
  if (plan.lever.kind != LeverKind::steep_time)
    if (const auto s = asked(plan, ConstantKind::steep_time, brew.level, infusion))
      first << QStringLiteral("steep %1").arg(text(duration_text(Duration(*s), style)));
  lines << first.join(QStringLiteral(", "));
  QStringList second;
  if (const auto w = asked(plan, ConstantKind::water_mass, brew.level, infusion))
    second << QStringLiteral("%1 water").arg(text(mass_text(Mass(*w), style)));
  if (const auto leaf = planned_leaf(plan, brew.level); leaf && infusion == 1)
    second << QStringLiteral("%1 leaf").arg(text(mass_text(*leaf, style)));
  if (const Constant* vessel = find_constant(plan, ConstantKind::vessel); vessel && !vessel->text.empty())
    second << text(vessel->text);
  lines << second.join(QStringLiteral(", "));
  lines.removeAll(QString());
  return lines.join(QLatin1Char('\n'));
}

/// The act of now in figures, to be read from two metres: what to pour, or when to drain.
QString now_figures(const Trial& trial, const Brew& brew, const Stamp* last, const Moment& now, const Style& style) {
  const Plan& plan = trial.sealed->plan;
  const auto next = next_act(plan, brew);
  const bool pouring = next && (next->kind == StampKind::pour_start || next->kind == StampKind::pour_end);
  if (pouring) {
    QStringList out;
    if (const auto w = asked(plan, ConstantKind::water_mass, brew.level, next->infusion))
      out << text(mass_text(Mass(*w), style));
    if (const auto t = asked(plan, ConstantKind::water_temperature, brew.level, next->infusion))
      out << text(temperature_text(Temperature(*t), style));
    return out.join(QStringLiteral(" at "));
  }
  const auto drain = last ? drain_from(trial, brew, *last) : std::nullopt;
  if (!drain) return {};
  const auto late = elapsed(counted_from(brew, *last), now) - *drain;
  if (late < Duration(0)) return QStringLiteral("drain at %1").arg(clock_words(*drain));
  return late < seconds(1) ? QStringLiteral("drain now") : QStringLiteral("drain now, %1 late").arg(clock_words(late));
}

QString caution_of(const Trial& trial, StampKind kind, const Style& style) {
  std::optional<wording::Step> step;
  if (kind == StampKind::pour_start || kind == StampKind::pour_end) step = wording::Step::pour;
  if (kind == StampKind::chill_start) step = wording::Step::chill;
  if (kind == StampKind::ready) step = wording::Step::hold;
  if (!step) return {};
  QStringList out;
  for (const auto& one : wording::cautions(*step, trial.sealed->plan, trial.sealed->registers.lots, style))
    out << text(one);
  return out.join(QLatin1Char(' '));
}

QString next_words(const Plan& plan, const Brew& brew, const Act& act, bool keyed, const Style& style) {
  const QString which = infusion_count(plan, brew) > 1 ? QStringLiteral(" %1").arg(act.infusion) : QString();
  switch (act.kind) {
    case StampKind::pour_start: {
      const auto t = keyed ? asked(plan, ConstantKind::water_temperature, brew.level, act.infusion) : std::nullopt;
      return QStringLiteral("Pour%1").arg(which) +
             (t ? QStringLiteral(" at %1").arg(text(temperature_text(Temperature(*t), style))) : QString());
    }
    case StampKind::pour_end:
      return QStringLiteral("Pour it all, then steep");
    case StampKind::drain_start:
      return QStringLiteral("Drain%1").arg(which);
    case StampKind::drain_end:
      return QStringLiteral("Drain to the last drop");
    case StampKind::chill_start:
      return QStringLiteral("Chill");
    case StampKind::ready:
      break;
  }
  return QStringLiteral("To the holding bath");
}

}  // namespace

void BrewScreen::show_now(const Trial& trial) {
  const Plan& plan = trial.sealed->plan;
  const Brew* now = current(trial);
  undo_->setEnabled(last_stamped(brews_of_sitting(trial, sitting_)) != nullptr && !session_.read_only());
  if (!now) {
    now_brew_->setText(QStringLiteral("sitting %1").arg(sitting_));
    now_act_->setText(QStringLiteral("All ready"));
    now_recipe_->hide();
    now_hint_->setText(QStringLiteral("serve the pairs, then pour away what stands"));
    face_->show_time({});
    face_of_->clear();
    stamp_->setText(QStringLiteral("Nothing to stamp"));
    stamp_->setAccessibleName(stamp_->text());
    // A disabled button hands its focus on, and the next in line undoes stamps: one Space too many must not.
    if (stamp_->hasFocus()) setFocus();
    stamp_->setEnabled(false);
    return;
  }
  const Stamp* last = last_stamp(*now);
  now_brew_->setText(QStringLiteral("now · brew %1").arg(now->number));
  now_act_->setText(phase_name(last));
  now_hint_->setText(phase_hint(last));
  now_recipe_->setText(key_open() ? now_figures(trial, *now, last, clock_.now(), style_) : QString());
  now_recipe_->setVisible(!now_recipe_->text().isEmpty());
  QPalette colours = now_recipe_->palette();
  colours.setColor(QPalette::WindowText,
                   now_recipe_->text().startsWith(QStringLiteral("drain now")) ? tokens().caution : tokens().ink);
  now_recipe_->setPalette(colours);
  QString wanted = QStringLiteral("brew %1 is ready").arg(now->number), spoken = wanted;
  const auto act = next_act(plan, *now);
  if (act) {
    wanted = QStringLiteral("%1   brew %2 · Space").arg(stamp_name(act->kind)).arg(now->number);
    spoken = QStringLiteral("Stamp: brew %1, %2").arg(now->number).arg(stamp_name(act->kind).toLower());
  }
  stamp_->setEnabled(act.has_value() && !session_.read_only());
  if (stamp_->text() != wanted) stamp_->setText(wanted);
  stamp_->setAccessibleName(spoken);
  face_->show_time(clock_words(last ? elapsed(counted_from(*now, *last), clock_.now()) : Duration(0)));
  face_of_->setText(last ? clock_caption(trial, *now, *last, key_open()) : QStringLiteral("starts with the pour"));
}

void BrewScreen::show_next(const Trial& trial) {
  const Plan& plan = trial.sealed->plan;
  const Brew* now = current(trial);
  const auto own = now ? next_act(plan, *now) : std::nullopt;
  // The next act of this brew; while it drains or cools, the brew to pour next, so that its water is ready in time.
  const Brew* brew = now;
  auto act = own;
  if (!act || act->kind == StampKind::ready || act->kind == StampKind::drain_end)
    if (const Brew* other = following(trial, now)) {
      brew = other;
      act = next_act(plan, *other);
    }
  if (!brew || !act) {
    next_head_->setText(QStringLiteral("next"));
    next_act_->setText(QStringLiteral("Serve"));
    recipe_->setText(QStringLiteral("Every brew of this sitting is ready."));
    caution_->clear();
    return;
  }
  QString head = QStringLiteral("next · ");
  const Stamp* last = brew == now && key_open() ? last_stamp(*brew) : nullptr;
  if (const auto drain = last ? drain_from(trial, *brew, *last) : std::nullopt) {
    const auto left = *drain - elapsed(counted_from(*brew, *last), clock_.now());
    head = left.count() > 0 ? QStringLiteral("next, in %1 · ").arg(clock_words(left)) : QStringLiteral("next, now · ");
  }
  head += QStringLiteral("brew %1, portion %2").arg(brew->number).arg(brew->portion);
  if (key_open()) head += QStringLiteral(" of %1").arg(lot_code(trial, brew->lot));
  next_head_->setText(head);
  next_act_->setText(next_words(plan, *brew, *act, key_open(), style_));
  recipe_->setText(key_open() ? recipe(trial, *brew, act->infusion, style_)
                              : QStringLiteral("as the slip of this portion says"));
  caution_->setText(caution_of(trial, act->kind, style_));
}

void BrewScreen::show_cooling(const Trial& trial) {
  const Plan& plan = trial.sealed->plan;
  const Constant* tasting = find_constant(plan, ConstantKind::tasting_temperature);
  QStringList lines;
  const auto brews = brews_of_sitting(trial, sitting_);
  for (auto it = brews.rbegin(); it != brews.rend() && lines.size() < 4; ++it) {
    const Stamp* last = last_stamp(**it);
    if (!last || last->kind < StampKind::chill_start) continue;
    QString line = QStringLiteral("brew %1   ").arg((*it)->number);
    const Reading* reading = (*it)->readings.empty() ? nullptr : &(*it)->readings.back();
    line += reading ? text(temperature_text(reading->temperature, style_)) : QStringLiteral("no reading");
    const bool cool =
        reading && tasting && tasting->target &&
        reading->temperature.milli_celsius() <=
            *tasting->target + tasting->tolerance.value_or(default_tolerance(ConstantKind::tasting_temperature));
    line += last->kind == StampKind::ready
                ? QStringLiteral("   in the bath")
                : (cool ? QStringLiteral("   to the bath now")
                        : QStringLiteral("   cooling %1").arg(clock_words(elapsed(last->at, clock_.now()))));
    lines.prepend(line);
  }
  cooling_->setText(lines.isEmpty() ? QStringLiteral("nothing is cooling yet") : lines.join(QLatin1Char('\n')));
  cooling_foot_->setText(tasting && tasting->target
                             ? QStringLiteral("first sip at %1, both cups within %2")
                                   .arg(text(temperature_text(Temperature(*tasting->target), style_)),
                                        text(step_text(TemperatureStep(first_sip_limit), style_)))
                             : QString());
}

void BrewScreen::show_drift(const Trial& trial) {
  if (!key_open()) return drift_->clear();
  QStringList lines;
  const auto brews = brews_of_sitting(trial, sitting_);
  const auto pairs = pairs_of_sitting(trial, sitting_);
  for (const auto& d : drifts(trial)) {
    const bool here = d.pair ? std::ranges::any_of(pairs, [&](const TablePair& p) { return p.id == *d.pair; })
                             : std::ranges::any_of(brews, [&](const Brew* b) { return b->id == d.brew; });
    if (!here) continue;
    const QString brew = d.brew_number > 0 ? QStringLiteral("brew %1, ").arg(d.brew_number) : QString();
    lines << QStringLiteral("Drift: %1%2")
                 .arg(brew, text(wording::drift_text(d, lot_code(trial, d.lot).toStdString(), *trial.sealed, style_)));
  }
  drift_->setToolTip(lines.join(QLatin1Char('\n')));
  drift_->setAccessibleName(lines.join(QStringLiteral("; ")));
  const auto count = lines.size();
  if (count > 1) lines = QStringList{QStringLiteral("%1 drifts in this sitting").arg(count), lines.back()};
  drift_->setText(lines.join(QLatin1Char('\n')));
}

}  // namespace likeleaf::ui
