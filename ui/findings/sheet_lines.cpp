#include "ui/findings/sheet_lines.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "core/acts/amendment.h"
#include "core/base/number_text.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

const BlindServing* find_serving(const Trial& trial, IdOf<Serving> id) {
  const auto found = std::ranges::find(trial.servings, id, &BlindServing::id);
  return found == trial.servings.end() ? nullptr : &*found;
}

const Exclusion* find_exclusion(const Trial& trial, IdOf<Serving> id) {
  const auto found = std::ranges::find(trial.exclusions, id, &Exclusion::serving);
  return found == trial.exclusions.end() ? nullptr : &*found;
}

QString taster_name(const Trial& trial, IdOf<Assessor> id) {
  const auto* who = find_record(trial.sealed->registers.assessors, id);
  return who ? text(who->alias) : QStringLiteral("–");
}

/// "Aroma register, top"
QString field_name(const SealedPlan& plan, const std::string& field) {
  const auto* attribute = planned_field(plan, field);
  if (!attribute) return text(field);
  const auto dot = field.find('.');
  return text(attribute->name) +
         (dot == std::string::npos ? QString() : QStringLiteral(", ") + text(field.substr(dot + 1)));
}

QString target_name(const Trial& trial, const BlindServing& serving, const Amendment& a) {
  if (a.target == Amendment::Target::sheet_direct) {
    const auto* attribute = find_attribute(trial.sealed->attributes, a.field);
    return (attribute ? text(attribute->name) : text(a.field)) + QStringLiteral(", comparing sip");
  }
  const BlindCode cup = a.side == Side::right ? serving.right : serving.left;
  return field_name(*trial.sealed, a.field) + QStringLiteral(", cup ") + text(cup.text());
}

bool of_sheet(const Amendment& a, IdOf<Serving> serving) {
  return a.serving == serving &&
         (a.target == Amendment::Target::sheet_mark || a.target == Amendment::Target::sheet_direct);
}

QString state_words(const Trial& trial, const SheetLine& line) {
  QStringList parts;
  if (line.excluded) parts << QStringLiteral("excluded");
  parts << (line.locked ? QStringLiteral("locked") : QStringLiteral("open"));
  const auto changed =
      std::ranges::count_if(trial.amendments, [&](const auto& a) { return of_sheet(a, line.serving); });
  if (changed > 0) parts << QStringLiteral("%1 changed").arg(changed);
  return parts.join(QStringLiteral(", "));
}

QString when(const Moment& at) {
  return text(date_text(at) + ", " + clock_text(at).substr(0, 5));
}

const char* direct_word(Direct answer) {
  return answer == Direct::left_more ? "left_more" : answer == Direct::right_more ? "right_more" : "cannot_tell";
}

std::string machine_value(const Sheet& sheet, const Amendment& target) {
  if (target.target == Amendment::Target::sheet_direct) {
    const auto found = sheet.directs.find(target.field);
    return found == sheet.directs.end() ? std::string() : direct_word(found->second);
  }
  const auto& marks = sheet.cup(*target.side).marks;
  const auto found = marks.find(target.field);
  return found == marks.end() ? std::string() : mark_text(found->second);
}

}  // namespace

std::vector<SheetLine> sheet_lines(const Trial& trial) {
  std::vector<SheetLine> lines;
  if (!trial.sealed) return lines;
  const auto people = tasters(trial.sealed->plan);
  const auto order = [&](IdOf<Assessor> id) { return std::ranges::find(people, id) - people.begin(); };
  auto servings = live_servings(trial);
  std::ranges::stable_sort(servings, {},
                           [&](const BlindServing* s) { return std::tuple(order(s->assessor), s->sitting, s->place); });
  for (const auto* s : servings) {
    SheetLine line;
    line.serving = s->id;
    line.taster = taster_name(trial, s->assessor);
    line.place = s->place == 0 ? QStringLiteral("sitting %1, warm-up").arg(s->sitting)
                               : QStringLiteral("sitting %1, pair %2").arg(s->sitting).arg(s->place);
    line.cups = text(s->left.text()) + QStringLiteral(" and ") + text(s->right.text());
    const auto sheet = trial.sheets.find(s->id);
    line.locked = sheet != trial.sheets.end() && sheet->second->locked;
    line.excluded = find_exclusion(trial, s->id) != nullptr;
    line.state = state_words(trial, line);
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<MarkLine> mark_lines(const Trial& trial, IdOf<Serving> id, const Style& style) {
  std::vector<MarkLine> lines;
  const auto* serving = find_serving(trial, id);
  const auto written = trial.sheets.find(id);
  const auto now = amended_sheet(trial, id);
  if (!serving || !now || written == trial.sheets.end()) return lines;
  const auto add = [&](Amendment::Target kind, std::optional<Side> side, const std::string& field) {
    MarkLine line;
    line.target.target = kind;
    line.target.serving = id;
    line.target.side = side;
    line.target.field = field;
    line.direct = kind == Amendment::Target::sheet_direct;
    const auto* attribute = planned_field(*trial.sealed, field);
    line.seconds = attribute && attribute->scale == Scale::seconds;
    line.name = target_name(trial, *serving, line.target);
    line.machine_now = machine_value(*now, line.target);
    line.now = value_words(*serving, line.direct, line.machine_now, style);
    const auto first = machine_value(*written->second, line.target);
    if (first != line.machine_now) line.was = value_words(*serving, line.direct, first, style);
    lines.push_back(std::move(line));
  };
  for (const auto& attribute : trial.sealed->attributes) {
    for (const auto& field : mark_fields(attribute))
      for (const Side side : {Side::left, Side::right}) add(Amendment::Target::sheet_mark, side, field);
    if (attribute.direct) add(Amendment::Target::sheet_direct, std::nullopt, attribute.id);
  }
  return lines;
}

QString value_words(const BlindServing& serving, bool direct, const std::string& machine, const Style& style) {
  if (machine.empty()) return QStringLiteral("blank");
  if (!direct) {
    QString words = text(machine);
    return style.decimal_mark == '.' ? words : words.replace(QLatin1Char('.'), QLatin1Char(style.decimal_mark));
  }
  if (machine == "left_more") return text(serving.left.text()) + QStringLiteral(" more");
  if (machine == "right_more") return text(serving.right.text()) + QStringLiteral(" more");
  return QStringLiteral("can’t tell");
}

QStringList change_lines(const Trial& trial, IdOf<Serving> id, const Style& style) {
  QStringList lines;
  const auto* serving = find_serving(trial, id);
  if (!serving) return lines;
  for (const auto& a : trial.amendments) {
    if (!of_sheet(a, id)) continue;
    const bool direct = a.target == Amendment::Target::sheet_direct;
    lines << QStringLiteral("%1: %2 became %3. %4, %5: %6")
                 .arg(target_name(trial, *serving, a), value_words(*serving, direct, a.old_value, style),
                      value_words(*serving, direct, a.new_value, style), text(a.who), when(a.at), text(a.why));
  }
  return lines;
}

std::optional<QString> exclusion_line(const Trial& trial, IdOf<Serving> id) {
  const auto* excluded = find_exclusion(trial, id);
  if (!excluded) return std::nullopt;
  const bool late = trial.unmasked && excluded->at > trial.unmasked->at;
  return QStringLiteral("Excluded by %1, %2: %3 %4")
      .arg(text(excluded->who), when(excluded->at), text(excluded->why),
           late ? QStringLiteral("(After the key was opened: only a sensitivity line changes.)")
                : QStringLiteral("(Before the key was opened: it does not decide.)"));
}

}  // namespace likeleaf::ui
