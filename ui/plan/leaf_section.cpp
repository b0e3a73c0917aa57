// The leaf: which lots of the register are in the trial, what each needs of its stock, and what is known of it.
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "core/base/entropy.h"
#include "core/base/number_text.h"
#include "core/planning/needs.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

/// With more than this the register is not laid out whole: only what is in the trial, and a list to choose from.
constexpr std::size_t most_listed = 12;

QStringList type_names() {
  return {QStringLiteral("white"), QStringLiteral("green"), QStringLiteral("yellow"),  QStringLiteral("oolong"),
          QStringLiteral("black"), QStringLiteral("dark"),  QStringLiteral("scented"), QStringLiteral("other")};
}

QStringList form_names() {
  return {QStringLiteral("whole leaf"), QStringLiteral("broken"), QStringLiteral("ground"), QStringLiteral("rolled"),
          QStringLiteral("pressed")};
}

bool chosen(const Plan& plan, IdOf<Lot> id) {
  return std::ranges::find(plan.lots, id) != plan.lots.end();
}

/// "32 of 50 g": what the trial takes of what is there.
QString need_text(const Plan& plan, const Registers& registers, IdOf<Lot> id, const Style& style) {
  for (const auto& need : needs(plan, registers).lots) {
    if (need.lot != id) continue;
    const Mass leaf = need.leaf + need.open_reference_leaf;
    if (leaf.count() == 0) return {};
    const QString wanted = qt(mass_text(leaf, style));
    if (!need.stock) return QStringLiteral("%1, stock?").arg(wanted);
    const QString there = qt(mass_text(*need.stock, style));
    return need.lasts ? QStringLiteral("%1 of %2").arg(wanted, there)
                      : QStringLiteral("%1, only %2 there").arg(wanted, there);
  }
  return {};
}

}  // namespace

QString LeafSection::signature(const Plan& plan) const {
  QString out;
  const auto& lots = editor_.registers().lots;
  for (const auto& lot : lots)
    if (lots.size() <= most_listed || chosen(plan, lot.id)) out += qt(lot.id.text()) + QLatin1Char(',');
  return out + QString::number(lots.size());
}

void LeafSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("Leaf"), down);
  const auto& lots = editor_.registers().lots;
  if (lots.empty()) soft(QStringLiteral("No leaf is in this book’s register yet."), down);
  QStringList others{QStringLiteral("another leaf of the register…")};
  std::vector<IdOf<Lot>> left;
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const bool in = chosen(plan, lots[i].id);
    if (in || (lots.size() <= most_listed && !editor_.locked())) {
      row(plan, i, down);
    } else {
      others << qt(lots[i].code + "  " + lots[i].name);
      left.push_back(lots[i].id);
    }
  }
  notes_under(QStringLiteral("lot.add"), down);
  if (!left.empty() && !editor_.locked())
    down->addWidget(choice(
                        QStringLiteral("Another leaf of the register"), QStringLiteral("lot.choose"),
                        [others](const Plan&) { return others; }, [](const Plan&) { return 0; },
                        [left](Plan& p, int at) {
                          if (at > 0) p.lots.push_back(left.at(static_cast<std::size_t>(at - 1)));
                        }),
                    0, Qt::AlignLeft);
  if (auto* add = act(QStringLiteral("a new leaf"), QStringLiteral("Add a new leaf to the register and the trial"),
                      QStringLiteral("lot.add"), [this] { add_lot(); }))
    down->addWidget(add, 0, Qt::AlignLeft);
}

void LeafSection::row(const Plan&, std::size_t at, QVBoxLayout* down) {
  const IdOf<Lot> id = editor_.registers().lots[at].id;
  const QString object = QStringLiteral("lot.%1").arg(at);
  auto* across = row_in(down);
  auto* in_trial = tick([this, id](const Plan&) { return qt(lot_of(id).code); }, object,
                        [id](const Plan& p) { return chosen(p, id); },
                        [id](Plan& p, bool on) {
                          std::erase(p.lots, id);
                          if (on) p.lots.push_back(id);
                        });
  across->addWidget(in_trial, 0, Qt::AlignTop);
  auto* name = words({}, face(15), tokens().ink, this);
  name->setMinimumHeight(30);
  across->addWidget(name, 1, Qt::AlignTop);
  bind([this, in_trial, name, id](const Plan&) {
    const Lot lot = lot_of(id);
    name->setText(qt(lot.name));
    in_trial->setAccessibleName(qt(lot.code + " " + lot.name));
  });
  auto* need = words({}, face(15), tokens().soft_ink, this);
  need->setWordWrap(false);
  need->setMinimumHeight(30);
  need->setObjectName(object + QStringLiteral(".need"));
  across->addWidget(need, 0, Qt::AlignTop);
  bind([this, need, id](const Plan& p) { need->setText(need_text(p, editor_.registers(), id, editor_.style())); });
  across->addWidget(fold(QStringLiteral("facts"), QStringLiteral("Facts of %1").arg(qt(lot_of(id).code)),
                         object + QStringLiteral(".facts")),
                    0, Qt::AlignTop);
  if (is_open(object + QStringLiteral(".facts")))
    details(lot_of(id), object + QLatin1Char('.'), down);
  else
    notes_under(object + QStringLiteral(".stock"), down);
}

Lot LeafSection::lot_of(IdOf<Lot> id) const {
  const auto* lot = find_record(editor_.registers().lots, id);
  return lot ? *lot : Lot{};
}

QString LeafSection::change(IdOf<Lot> id, const std::function<Result<void>(Lot&)>& change) const {
  Lot lot = lot_of(id);
  if (const auto good = change(lot); !good) return qt(wording::sentence(good.error()));
  return editor_.put(lot);
}

/// What the register knows of a lot, changed in place.
void LeafSection::details(const Lot& lot, const QString& object, QVBoxLayout* down) {
  const IdOf<Lot> id = lot.id;
  const QString code = qt(lot.code);
  const auto text_row = [&](const QString& name, const QString& part, std::string Lot::*member, std::size_t most) {
    form_row(name,
             own_blank(
                 name + QStringLiteral(" of ") + code, object + part,
                 [this, id, member](const Plan&) { return qt(lot_of(id).*member); },
                 [this, id, member, most, name](const QString& text) {
                   return change(
                       id, [&](Lot& l) { return take_text(l.*member, text, most, "lot, " + name.toStdString()); });
                 }),
             down);
  };
  const auto choice_row = [&](const QString& name, const QString& part, const QStringList& all, auto member) {
    using Kind = std::remove_cvref_t<decltype(lot.*member)>;
    form_row(name,
             own_choice(
                 name + QStringLiteral(" of ") + code, object + part, [all](const Plan&) { return all; },
                 [this, id, member](const Plan&) { return static_cast<int>(lot_of(id).*member); },
                 [this, id, member](int at) {
                   return change(id, [&](Lot& l) -> Result<void> {
                     l.*member = static_cast<Kind>(at);
                     return {};
                   });
                 }),
             down);
  };
  text_row(QStringLiteral("code"), QStringLiteral("code"), &Lot::code, name_length);
  text_row(QStringLiteral("name"), QStringLiteral("name"), &Lot::name, sentence_length);
  choice_row(QStringLiteral("type"), QStringLiteral("type"), type_names(), &Lot::type);
  numbers(id, object, down);
  choice_row(QStringLiteral("form"), QStringLiteral("form"), form_names(), &Lot::form);
  text_row(QStringLiteral("cultivar"), QStringLiteral("cultivar"), &Lot::cultivar, sentence_length);
  text_row(QStringLiteral("origin"), QStringLiteral("origin"), &Lot::origin, sentence_length);
  text_row(QStringLiteral("harvest"), QStringLiteral("harvest"), &Lot::harvest, sentence_length);
  text_row(QStringLiteral("allergens"), QStringLiteral("allergens"), &Lot::allergens, sentence_length);
  form_row(QStringLiteral("notes"),
           own_text(
               QStringLiteral("Notes on ") + code, object + QStringLiteral("notes"),
               [this, id](const Plan&) { return qt(lot_of(id).notes); },
               [this, id](const QString& text) {
                 return change(id,
                               [&](Lot& l) { return take_text(l.notes, text, paragraph_length, "lot, notes", true); });
               }),
           down);
}

void LeafSection::numbers(IdOf<Lot> id, const QString& object, QVBoxLayout* down) {
  const QString code = qt(lot_of(id).code);
  form_row(QStringLiteral("stock"),
           own_blank(
               QStringLiteral("Stock of ") + code, object + QStringLiteral("stock"),
               [this, id](const Plan&) {
                 const auto l = lot_of(id);
                 return l.stock.count() > 0 ? qt(mass_text(l.stock, editor_.style())) : QString();
               },
               [this, id](const QString& text) {
                 return change(id, [&](Lot& l) -> Result<void> {
                   const auto read = text.trimmed().isEmpty() ? Result<Mass>(Mass()) : parse_mass(plain(text), "stock");
                   if (!read) return tl::unexpected<Error>(read.error());
                   l.stock = *read;
                   return {};
                 });
               },
               QStringLiteral("g on the shelf")),
           down);
  form_row(QStringLiteral("moisture"),
           own_blank(
               QStringLiteral("Moisture of ") + code, object + QStringLiteral("moisture"),
               [this, id](const Plan&) {
                 const auto l = lot_of(id);
                 const auto value = l.moisture ? std::optional(l.moisture->count()) : std::nullopt;
                 return amount_text(value, QStringLiteral("%"), 1, value && *value % 10 == 0 ? 0 : 1, editor_.style());
               },
               [this, id](const QString& text) {
                 return change(id, [&](Lot& l) -> Result<void> {
                   const auto read = parse_amount(text, QStringLiteral("%"), 1, 0, 1000, "moisture", "0 to 100 %");
                   if (!read) return tl::unexpected<Error>(read.error());
                   l.moisture = *read ? std::optional(Permille(**read)) : std::nullopt;
                   return {};
                 });
               },
               QStringLiteral("%")),
           down);
}

/// The next free code, so that a new leaf needs no typing; its code is there to be typed over.
void LeafSection::add_lot() {
  const auto& lots = editor_.registers().lots;
  Lot lot;
  SystemEntropy entropy;
  lot.id = IdOf<Lot>::make(entropy);
  for (int n = 1; lot.code.empty() || std::ranges::find(lots, lot.code, &Lot::code) != lots.end(); ++n)
    lot.code = QStringLiteral("L-%1").arg(n, 2, 10, QLatin1Char('0')).toStdString();
  if (const QString refused = editor_.put(lot); !refused.isEmpty()) return say(refused);
  close_all();
  const QString object = QStringLiteral("lot.%1").arg(editor_.registers().lots.size() - 1);
  open(object + QStringLiteral(".facts"));
  say(editor_.set([&](Plan& p) { p.lots.push_back(lot.id); }));
  editor_.look_again();
  go_to(object + QStringLiteral(".code"));
}

}  // namespace likeleaf::ui
