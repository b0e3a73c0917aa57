#include "ui/plan/plan_places.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/planning/engine_rule.h"
#include "core/planning/plan_check.h"
#include "core/wording/errors.h"

namespace likeleaf::ui {
namespace {

/// Fields of check() that have one control of their own.
QString plain_place(const std::string& field) {
  static constexpr std::array<std::pair<const char*, const char*>, 25> places{{
      {"question", "question"},
      {"what changes", "lever.name"},
      {"present way", "level.0.now"},
      {"warm-up leaf", "warm_up"},
      {"open reference pair", "reference"},
      {"lots", "lot.add"},
      {"assessors", "person.add"},
      {"preparer", "person.add"},
      {"head taster", "person.add"},
      {"self-blinded", "self_blinded"},
      {"attributes", "attribute.own.add"},
      {"sip protocol", "sip"},
      {"if-then rule", "rule.add"},
      {"if-then rule, by how much", "clause.0.by"},
      {"controls", "control.add"},
      {"yardstick", "control.add"},
      {"yardstick, dilution", "control.add"},
      {"blank pairs", "control.add"},
      {"cup volume", "cup"},
      {"brew pairs", "brew_pairs"},
      {"pairs a sitting", "pairs_per_sitting"},
      {"sittings", "sittings"},
      {"blind codes", "brew_pairs"},
      {"alpha", "alpha"},
      {"levels", "levels"},
  }};
  for (const auto& [said, place] : places)
    if (field == said) return QString::fromLatin1(place);
  return {};
}

QString constant_place(const std::string& field, const Plan& plan) {
  for (std::size_t i = 0; i < plan.constants.size(); ++i) {
    const Constant& c = plan.constants[i];
    const std::string name = c.kind == ConstantKind::other && !c.name.empty() ? c.name : constant_name(c.kind);
    if (field == name) return QStringLiteral("constant.%1").arg(i);
    if (field == name + ", tolerance") return QStringLiteral("constant.%1.tolerance").arg(i);
  }
  // A dose or a mass of water that nobody holds is missed where things are held.
  return field == "leaf dose" || field == "water mass" ? QStringLiteral("constant.add") : QString();
}

QString lot_place_of(const std::string& field, const Registers& registers) {
  for (std::size_t i = 0; i < registers.lots.size(); ++i)
    if (field == "stock of " + registers.lots[i].code) return QStringLiteral("lot.%1.stock").arg(i);
  return {};
}

QString margin_place(const std::string& field, const std::vector<Attribute>& attributes) {
  for (const auto& a : attributes)
    if (field == a.name + ", margin") return QStringLiteral("attribute.%1.margin").arg(qt(a.id));
  return {};
}

QString level_place(const std::string& field, const Plan& plan) {
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) {
    const std::string name = "level " + std::to_string(i + 1);
    if (field == name) return QStringLiteral("level.%1").arg(i);
    // "level 2, steep time": one of its infusions, the first that there is.
    if (field.starts_with(name + ", ")) return QStringLiteral("level.%1.infusion.0.pour").arg(i);
  }
  return {};
}

/// What a plan cannot say belongs to the number that would change it.
QString power_place(const Error& error, const Plan& plan) {
  if (error.field != "what it can say") return {};
  if (std::ranges::none_of(plan.attributes, &PlanAttribute::deciding)) return QStringLiteral("attribute.own.add");
  // Before there are a leaf and a taster their own places say it.
  if (engine_forecast(plan).brew_pairs == 0) return {};
  return plan.engine == EnginePolicy::exact_only ? QStringLiteral("engine") : QStringLiteral("brew_pairs");
}

}  // namespace

QString place_of(const Error& error, const Plan& plan, const Registers& registers,
                 const std::vector<Attribute>& attributes) {
  for (const auto& place :
       {power_place(error, plan), plain_place(error.field), level_place(error.field, plan),
        lot_place_of(error.field, registers), margin_place(error.field, attributes), constant_place(error.field, plan)})
    if (!place.isEmpty()) return place;
  return {};
}

NotesByPlace notes_by_place(const std::vector<PlanNote>& notes, const Plan& plan, const Registers& registers,
                            const std::vector<Attribute>& attributes) {
  NotesByPlace out;
  for (const auto& note : notes) {
    const QString place = place_of(note.error, plan, registers, attributes);
    if (place.isEmpty()) continue;
    if (note.error.kind != ErrorKind::missing)
      out[place].sentences << (note.error.field == "what it can say" ? qt(note.error.allowed)
                                                                     : qt(wording::sentence(note.error)));
    else if (note.weight == PlanNote::Weight::blocks)
      out[place].wanted = true;
  }
  // A sentence says more than a dashed line.
  for (auto& [place, one] : out)
    if (!one.sentences.isEmpty()) one.wanted = false;
  return out;
}

}  // namespace likeleaf::ui
