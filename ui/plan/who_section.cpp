// Who: the assessors and what each does.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/base/entropy.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

/// What somebody does in a trial, in the order of the choice.
enum Part { away, tastes, prepares, heads, alone };

int part_of(const Plan& plan, IdOf<Assessor> id) {
  const auto has = [&](Role r) {
    return std::ranges::find(plan.assessors, PlanAssessor{id, r}) != plan.assessors.end();
  };
  if (has(Role::taster)) return has(Role::preparer) ? alone : tastes;
  return has(Role::preparer) ? prepares : has(Role::head) ? heads : away;
}

void set_part(Plan& plan, IdOf<Assessor> id, int part) {
  std::erase_if(plan.assessors, [&](const PlanAssessor& a) { return a.id == id; });
  if (part == tastes || part == alone) plan.assessors.push_back({id, Role::taster});
  if (part == prepares || part == alone) plan.assessors.push_back({id, Role::preparer});
  if (part == heads) plan.assessors.push_back({id, Role::head});
}

}  // namespace

QString WhoSection::signature(const Plan&) const {
  QString out;
  for (const auto& a : editor_.registers().assessors) out += qt(a.id.text()) + QLatin1Char(',');
  return out;
}

void WhoSection::build(const Plan&, QVBoxLayout* down) {
  heading(QStringLiteral("Who"), down);
  const auto& people = editor_.registers().assessors;
  if (people.empty()) soft(QStringLiteral("Nobody is in this book’s register yet."), down);
  for (std::size_t i = 0; i < people.size(); ++i) row(i, down);
  notes_under(QStringLiteral("person.add"), down);
  if (auto* add = act(QStringLiteral("one more person"), QStringLiteral("Add a person to the register and the trial"),
                      QStringLiteral("person.add"), [this] { add_person(); }))
    down->addWidget(add, 0, Qt::AlignLeft);
  down->addWidget(tick(
      QStringLiteral("self-blinded (codes read after scoring)"), QStringLiteral("self_blinded"),
      [](const Plan& p) { return p.blinding == Blinding::self; },
      [](Plan& p, bool on) { p.blinding = on ? Blinding::self : Blinding::preparer; }));
  notes_under(QStringLiteral("self_blinded"), down);
}

void WhoSection::row(std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const IdOf<Assessor> id = editor_.registers().assessors[at].id;
  const QString object = QStringLiteral("person.%1").arg(at);
  const auto get = [this, id] {
    const auto* a = find_record(editor_.registers().assessors, id);
    return a ? *a : Assessor{};
  };
  const auto put = [this, get](const std::function<Result<void>(Assessor&)>& change) {
    Assessor a = get();
    if (const auto good = change(a); !good) return qt(wording::sentence(good.error()));
    return editor_.put(a);
  };
  auto* initials = own_blank(
      QStringLiteral("Initials of person %1").arg(at + 1), object, [get](const Plan&) { return qt(get().alias); },
      [put](const QString& text) {
        return put([&](Assessor& a) { return take_text(a.alias, text, name_length, "initials"); });
      });
  across->addWidget(initials, 1, Qt::AlignTop);
  speak_under(initials, down);
  across->addWidget(
      choice(
          QStringLiteral("What person %1 does").arg(at + 1), object + QStringLiteral(".role"),
          [](const Plan&) {
            return QStringList{QStringLiteral("not in this trial"), QStringLiteral("tastes"),
                               QStringLiteral("prepares, knows the key"), QStringLiteral("plans (head taster)"),
                               QStringLiteral("tastes and prepares, alone")};
          },
          [id](const Plan& p) { return part_of(p, id); }, [id](Plan& p, int part) { set_part(p, id, part); }),
      2, Qt::AlignTop);
  const QString notes = object + QStringLiteral(".facts");
  across->addWidget(fold(QStringLiteral("notes"), QStringLiteral("Notes on person %1").arg(at + 1), notes), 0,
                    Qt::AlignTop);
  if (!is_open(notes)) return;
  form_row(QStringLiteral("notes"),
           own_text(
               QStringLiteral("Notes on person %1").arg(at + 1), object + QStringLiteral(".notes"),
               [get](const Plan&) { return qt(get().notes); },
               [put](const QString& text) {
                 return put([&](Assessor& a) { return take_text(a.notes, text, paragraph_length, "notes", true); });
               },
               QStringLiteral("does not take milk, tires after four pairs, …")),
           down);
}

/// The next free initial, to be typed over.
void WhoSection::add_person() {
  const auto& people = editor_.registers().assessors;
  Assessor person;
  SystemEntropy entropy;
  person.id = IdOf<Assessor>::make(entropy);
  for (int n = 0; person.alias.empty() || std::ranges::find(people, person.alias, &Assessor::alias) != people.end();
       ++n)
    person.alias = std::string(1, static_cast<char>('A' + n % 26)) + (n < 26 ? "." : std::to_string(n / 26) + ".");
  if (const QString refused = editor_.put(person); !refused.isEmpty()) return say(refused);
  say(editor_.set([&](Plan& p) { p.assessors.push_back({person.id, Role::taster}); }));
  go_to(QStringLiteral("person.%1").arg(editor_.registers().assessors.size() - 1));
}

}  // namespace likeleaf::ui
