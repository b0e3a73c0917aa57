#include "ui/plan/plan_places.h"

#include <algorithm>

namespace likeleaf::ui {
namespace {

QString infusion_place(const PlanPlace& place, const char* part) {
  return QStringLiteral("level.%1.infusion.%2.%3").arg(place.index).arg(place.sub).arg(QLatin1String(part));
}

/// A dose or a mass of water that nobody holds is missed where things are held.
QString held_place(ConstantKind kind, const Plan& plan) {
  const auto held = std::ranges::find(plan.constants, kind, &Constant::kind);
  if (held == plan.constants.end()) return QStringLiteral("constant.add");
  return QStringLiteral("constant.%1").arg(held - plan.constants.begin());
}

QString stock_place(IdOf<Lot> lot, const Registers& registers) {
  const auto found = std::ranges::find(registers.lots, lot, &Lot::id);
  if (found == registers.lots.end()) return {};
  return QStringLiteral("lot.%1.stock").arg(found - registers.lots.begin());
}

/// What a plan cannot say belongs to the number that would change it.
QString verdict_place(const PlanNote& note, const Plan& plan) {
  if (std::ranges::none_of(plan.attributes, &PlanAttribute::deciding)) return QStringLiteral("attribute.own.add");
  // Before there are a leaf and a taster their own places say it.
  if (!note.forecast || note.forecast->brew_pairs == 0) return {};
  return plan.engine == EnginePolicy::exact_only ? QStringLiteral("engine") : QStringLiteral("brew_pairs");
}

}  // namespace

QString place_of(const PlanNote& note, const Plan& plan, const Registers& registers) {
  const PlanPlace& place = note.place;
  switch (place.field) {
    case PlanField::question:
      return QStringLiteral("question");
    case PlanField::lever_name:
      return QStringLiteral("lever.name");
    case PlanField::levels:
      return QStringLiteral("levels");
    case PlanField::level:
      return QStringLiteral("level.%1").arg(place.index);
    case PlanField::infusion_pour:
      return infusion_place(place, "pour");
    case PlanField::infusion_steep:
      return infusion_place(place, "steep");
    case PlanField::infusion_water:
      return infusion_place(place, "water");
    case PlanField::present_way:
      return QStringLiteral("level.0.now");
    case PlanField::constant:
      return QStringLiteral("constant.%1").arg(place.index);
    case PlanField::tolerance:
      return QStringLiteral("constant.%1.tolerance").arg(place.index);
    case PlanField::leaf_dose:
      return held_place(ConstantKind::leaf_dose, plan);
    case PlanField::water_mass:
      return held_place(ConstantKind::water_mass, plan);
    case PlanField::lots:
      return QStringLiteral("lot.add");
    case PlanField::stock:
      return stock_place(place.lot, registers);
    case PlanField::warm_up_leaf:
      return QStringLiteral("warm_up");
    case PlanField::reference_pair:
      return QStringLiteral("reference");
    case PlanField::assessors:
    case PlanField::preparer:
    case PlanField::head_taster:
      return QStringLiteral("person.add");
    case PlanField::self_blinded:
      return QStringLiteral("self_blinded");
    case PlanField::attributes:
      return QStringLiteral("attribute.own.add");
    case PlanField::margin:
      return QStringLiteral("attribute.%1.margin").arg(qt(place.attribute));
    case PlanField::sip_protocol:
      return QStringLiteral("sip");
    case PlanField::rule:
    case PlanField::clause:
      return QStringLiteral("rule.add");
    case PlanField::clause_amount:
      return QStringLiteral("clause.%1.by").arg(place.index);
    case PlanField::control:
    case PlanField::dilution:
    case PlanField::yardstick:
    case PlanField::blank_pairs:
      return QStringLiteral("control.add");
    case PlanField::cup_volume:
      return QStringLiteral("cup");
    case PlanField::brew_pairs:
    case PlanField::blind_codes:
      return QStringLiteral("brew_pairs");
    case PlanField::pairs_per_sitting:
      return QStringLiteral("pairs_per_sitting");
    case PlanField::sittings:
      return QStringLiteral("sittings");
    case PlanField::alpha:
      return QStringLiteral("alpha");
    case PlanField::verdict:
      return verdict_place(note, plan);
    case PlanField::one_variable:
      break;
  }
  return {};
}

NotesByPlace notes_by_place(const std::vector<PlanNote>& notes, const wording::NotedPlan& of, const Style& style) {
  NotesByPlace out;
  for (const auto& note : notes) {
    const QString place = place_of(note, of.plan, of.registers);
    if (place.isEmpty()) continue;
    if (kind_of(note.wrong) != ErrorKind::missing)
      out[place].sentences << qt(wording::sentence(note, of, style));
    else if (note.weight == PlanNote::Weight::blocks)
      out[place].wanted = true;
  }
  // A sentence says more than a dashed line.
  for (auto& [place, one] : out)
    if (!one.sentences.isEmpty()) one.wanted = false;
  return out;
}

}  // namespace likeleaf::ui
