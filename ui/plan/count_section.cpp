// What will count, what this trial follows, notes and the house.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <algorithm>

#include "core/base/number_text.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {

QString CountSection::signature(const Plan& plan) const {
  return qt(plan.id.text());
}

void CountSection::build(const Plan&, QVBoxLayout* down) {
  heading(QStringLiteral("What will count"), down);
  form_row(QStringLiteral("not counted"),
           text_blank(
               QStringLiteral("Which sheets will not count"), QStringLiteral("exclusion_rule"),
               [](const Plan& p) { return qt(p.exclusion_rule); },
               [](Plan& p, const QString& text) {
                 return take_text(p.exclusion_rule, text, paragraph_length, "which sheets will not count", true);
               },
               QStringLiteral("a spoilt cup, a taster called away, …")),
           down, 0);
  decided_by(down);
  follows(down);
  form_row(QStringLiteral("house"),
           blank(
               QStringLiteral("House, the head of the report"), QStringLiteral("house"),
               [](const Plan& p) { return qt(p.house); },
               [](Plan& p, const QString& text) { return take_text(p.house, text, name_length, "house"); },
               QStringLiteral("the head of the report")),
           down, 0);
  form_row(QStringLiteral("notes"),
           text_blank(
               QStringLiteral("Notes on the plan"), QStringLiteral("notes"), [](const Plan& p) { return qt(p.notes); },
               [](Plan& p, const QString& text) { return take_text(p.notes, text, paragraph_length, "notes", true); }),
           down, 0);
}

void CountSection::decided_by(QVBoxLayout* down) {
  form_row(QStringLiteral("decided by"),
           choice(
               QStringLiteral("Decided by"), QStringLiteral("engine"),
               [](const Plan&) {
                 return QStringList{QStringLiteral("the exact test, else Student’s t"),
                                    QStringLiteral("the exact test only")};
               },
               [](const Plan& p) { return static_cast<int>(p.engine); },
               [](Plan& p, int at) { p.engine = static_cast<EnginePolicy>(at); }),
           down, 0);
  notes_under(QStringLiteral("engine"), down);
  form_row(
      QStringLiteral("false alarms"),
      blank(
          QStringLiteral("False alarms allowed, alpha"), QStringLiteral("alpha"),
          [this](const Plan& p) {
            const std::int64_t tenths = p.alpha_permille;
            return QStringLiteral("%1 %").arg(qt(decimal_text(tenths, 1, tenths % 10 == 0 ? 0 : 1, editor_.style())));
          },
          [](Plan& p, const QString& text) -> Result<void> {
            const auto read = parse_amount(text, QStringLiteral("%"), 1, 1, 200, "false alarms", "0.1 % to 20 %");
            if (!read) return tl::unexpected<Error>(read.error());
            if (!*read) return fail(ErrorKind::missing, "false alarms", {}, "0.1 % to 20 %");
            p.alpha_permille = **read;
            return {};
          }),
      down, 0);
}

void CountSection::follows(QVBoxLayout* down) {
  struct Earlier {
    IdOf<Trial> id;
    QString said;
  };
  std::vector<Earlier> earlier;
  const auto trial = editor_.session().trial();
  for (const auto& row : editor_.session().names())
    if (trial && row.id != trial->id())
      earlier.push_back({row.id, QStringLiteral("trial %1: %2").arg(row.number).arg(qt(row.question))});
  if (earlier.empty()) return;
  form_row(QStringLiteral("follows"),
           choice(
               QStringLiteral("Follows an earlier trial"), QStringLiteral("follows"),
               [earlier](const Plan&) {
                 QStringList out{QStringLiteral("no earlier trial")};
                 for (const auto& one : earlier) out << one.said;
                 return out;
               },
               [earlier](const Plan& p) {
                 const auto found = p.follows ? std::ranges::find(earlier, *p.follows, &Earlier::id) : earlier.end();
                 return found == earlier.end() ? 0 : static_cast<int>(found - earlier.begin()) + 1;
               },
               [earlier](Plan& p, int at) {
                 p.follows = at > 0 ? std::optional(earlier.at(static_cast<std::size_t>(at - 1)).id) : std::nullopt;
               }),
           down, 0);
}

}  // namespace likeleaf::ui
