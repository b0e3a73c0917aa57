// What changes, what stays, the leaf.
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/entropy.h"
#include "core/base/number_text.h"
#include "core/domain/plan_notes.h"
#include "core/wording/errors.h"
#include "core/wording/sentences.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {
namespace {

constexpr int levers = static_cast<int>(LeverKind::other) + 1;
constexpr int constant_kinds = static_cast<int>(ConstantKind::other) + 1;

QHBoxLayout* row_in(QVBoxLayout* down) {
  auto* across = new QHBoxLayout;
  across->setSpacing(6);
  down->addLayout(across);
  return across;
}

QStringList type_names() {
  return {QStringLiteral("white"), QStringLiteral("green"), QStringLiteral("yellow"),  QStringLiteral("oolong"),
          QStringLiteral("black"), QStringLiteral("dark"),  QStringLiteral("scented"), QStringLiteral("other")};
}

}  // namespace

QString ChangesSection::signature(const Plan& plan) const {
  return QStringLiteral("%1,%2").arg(static_cast<int>(plan.lever.kind)).arg(plan.lever.levels.size());
}

void ChangesSection::build(const Plan& plan, QVBoxLayout* down) {
  down->addWidget(blank(
      QStringLiteral("Question"), QStringLiteral("question"), [](const Plan& p) { return qt(p.question); },
      [](Plan& p, const QString& text) -> Result<void> {
        p.question = plain(text);
        return {};
      },
      QStringLiteral("the one thing that this trial asks")));
  if (auto* suggest = act(QStringLiteral("ask what this change does"), QStringLiteral("Ask what this change does"),
                          QStringLiteral("question.suggest"), [this] {
                            say(editor_.set([this](Plan& p) {
                              p.question = "What does " + wording::changes_text(p.lever, editor_.style()) + " do?";
                            }));
                          })) {
    down->addWidget(suggest, 0, Qt::AlignLeft);
    bind([suggest](const Plan& p) { suggest->setVisible(p.question.empty() && p.lever.levels.size() > 1); });
  }
  down->addSpacing(8);
  heading(QStringLiteral("What changes"), down, 22);
  down->addWidget(choice(
                      QStringLiteral("What changes"), QStringLiteral("lever"),
                      [](const Plan&) {
                        QStringList all;
                        for (int i = 0; i < levers; ++i) all << qt(lever_name(static_cast<LeverKind>(i)));
                        return all;
                      },
                      [](const Plan& p) { return static_cast<int>(p.lever.kind); },
                      [](Plan& p, int at) {
                        const auto kind = static_cast<LeverKind>(at);
                        if (kind == p.lever.kind) return;
                        p.lever.kind = kind;
                        // A number of one kind is none of another.
                        for (auto& level : p.lever.levels) level.value.reset();
                      }),
                  0, Qt::AlignLeft);
  if (plan.lever.kind == LeverKind::other)
    down->addWidget(blank(
        QStringLiteral("Name of what changes"), QStringLiteral("lever.name"),
        [](const Plan& p) { return qt(p.lever.name); },
        [](Plan& p, const QString& text) -> Result<void> {
          p.lever.name = plain(text);
          return {};
        },
        QStringLiteral("what it is")));
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) level_row(plan, i, down);
  if (auto* more = act(QStringLiteral("another level"), QStringLiteral("Add a level"), QStringLiteral("level.add"),
                       [this] { say(editor_.set([](Plan& p) { p.lever.levels.emplace_back(); })); }))
    down->addWidget(more, 0, Qt::AlignLeft);
}

void ChangesSection::level_row(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const QString name = QStringLiteral("Level %1").arg(at + 1), object = QStringLiteral("level.%1").arg(at);
  const auto kind = constant_of(plan.lever.kind);
  if (kind && is_numeric(plan.lever.kind)) {
    auto* value = blank(
        name, object,
        [this, at, k = *kind](const Plan& p) {
          return at < p.lever.levels.size() ? target_text(k, p.lever.levels[at].value, editor_.style()) : QString();
        },
        [this, at, k = *kind, name](Plan& p, const QString& text) -> Result<void> {
          auto read = parse_target(k, text, editor_.style(), plain(name));
          if (!read) return tl::unexpected<Error>(read.error());
          p.lever.levels.at(at).value = *read;
          return {};
        });
    across->addWidget(value, 1);
    steppers(name, object, across, [at, k = *kind](Plan& p, int way) {
      auto& v = p.lever.levels.at(at).value;
      v = stepped(k, v, way);
    });
  } else {
    across->addWidget(
        blank(
            name, object,
            [at](const Plan& p) { return at < p.lever.levels.size() ? qt(p.lever.levels[at].label) : QString(); },
            [at](Plan& p, const QString& text) -> Result<void> {
              p.lever.levels.at(at).label = plain(text);
              return {};
            },
            QStringLiteral("name")),
        1);
  }
  across->addWidget(tick(
      QStringLiteral("as now"), object + QStringLiteral(".now"),
      [at](const Plan& p) { return at < p.lever.levels.size() && p.lever.levels[at].present_way; },
      [at](Plan& p, bool on) {
        for (std::size_t i = 0; i < p.lever.levels.size(); ++i) p.lever.levels[i].present_way = on && i == at;
      }));
  if (plan.lever.levels.size() < 3) return;
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take %1 out").arg(name.toLower()),
                       object + QStringLiteral(".remove"), [this, at] {
                         say(editor_.set([at](Plan& p) {
                           if (at < p.lever.levels.size())
                             p.lever.levels.erase(p.lever.levels.begin() + static_cast<std::ptrdiff_t>(at));
                         }));
                       }))
    across->addWidget(away, 0, Qt::AlignTop);
}

QString StaysSection::signature(const Plan& plan) const {
  QString out = QString::number(static_cast<int>(plan.lever.kind));
  for (const auto& c : plan.constants) out += QStringLiteral(",%1").arg(static_cast<int>(c.kind));
  return out;
}

void StaysSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("What stays"), down);
  for (std::size_t i = 0; i < plan.constants.size(); ++i) row(plan, i, down);
  if (editor_.locked()) return;
  std::vector<ConstantKind> left;
  const auto own = constant_of(plan.lever.kind);
  for (int i = 0; i < constant_kinds; ++i) {
    const auto kind = static_cast<ConstantKind>(i);
    if (kind == ConstantKind::other || (own != kind && !find_constant(plan, kind))) left.push_back(kind);
  }
  QStringList names{QStringLiteral("hold something else…")};
  for (const auto kind : left) names << qt(constant_name(kind));
  down->addWidget(choice(
                      QStringLiteral("Hold something else"), QStringLiteral("constant.add"),
                      [names](const Plan&) { return names; }, [](const Plan&) { return 0; },
                      [left](Plan& p, int at) {
                        if (at < 1) return;
                        Constant c;
                        c.kind = left.at(static_cast<std::size_t>(at - 1));
                        p.constants.push_back(c);
                      }),
                  0, Qt::AlignLeft);
}

void StaysSection::row(const Plan& plan, std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const ConstantKind kind = plan.constants[at].kind;
  const QString name = qt(constant_name(kind)), object = QStringLiteral("constant.%1").arg(at);
  const auto in = [at](const Plan& p) { return at < p.constants.size(); };
  if (kind == ConstantKind::other) {
    auto* named = blank(
        QStringLiteral("Name of the constant"), object + QStringLiteral(".name"),
        [at, in](const Plan& p) { return in(p) ? qt(p.constants[at].name) : QString(); },
        [at](Plan& p, const QString& text) -> Result<void> {
          p.constants.at(at).name = plain(text);
          return {};
        },
        QStringLiteral("what"));
    named->setFixedWidth(116);
    across->addWidget(named);
  } else {
    auto* l = words(name, face(15), tokens().ink, this);
    l->setFixedWidth(116);
    across->addWidget(l);
  }
  if (plan_check::has_number(kind)) {
    across->addWidget(blank(
                          name, object,
                          [this, at, in, kind](const Plan& p) {
                            return in(p) ? target_text(kind, p.constants[at].target, editor_.style()) : QString();
                          },
                          [this, at, kind, name](Plan& p, const QString& text) -> Result<void> {
                            auto read = parse_target(kind, text, editor_.style(), plain(name));
                            if (!read) return tl::unexpected<Error>(read.error());
                            p.constants.at(at).target = *read;
                            return {};
                          }),
                      3);
    steppers(name, object, across, [at, kind](Plan& p, int way) {
      auto& v = p.constants.at(at).target;
      v = stepped(kind, v, way);
    });
    across->addWidget(blank(
                          name + QStringLiteral(", tolerance"), object + QStringLiteral(".tolerance"),
                          [this, at, in, kind](const Plan& p) {
                            return in(p) ? tolerance_text(kind, p.constants[at].tolerance, editor_.style()) : QString();
                          },
                          [this, at, kind, name](Plan& p, const QString& text) -> Result<void> {
                            auto read = parse_tolerance(kind, text, editor_.style(), plain(name) + ", tolerance");
                            if (!read) return tl::unexpected<Error>(read.error());
                            p.constants.at(at).tolerance = *read;
                            return {};
                          },
                          QStringLiteral("±")),
                      2);
  } else {
    across->addWidget(
        blank(
            name, object, [at, in](const Plan& p) { return in(p) ? qt(p.constants[at].text) : QString(); },
            [at](Plan& p, const QString& text) -> Result<void> {
              p.constants.at(at).text = plain(text);
              return {};
            },
            QStringLiteral("the same for all")),
        5);
  }
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Hold %1 no longer").arg(name),
                       object + QStringLiteral(".remove"), [this, at] {
                         say(editor_.set([at](Plan& p) {
                           if (at < p.constants.size())
                             p.constants.erase(p.constants.begin() + static_cast<std::ptrdiff_t>(at));
                         }));
                       }))
    across->addWidget(away, 0, Qt::AlignTop);
}

QString LeafSection::signature(const Plan& plan) const {
  QString out;
  for (const auto& lot : editor_.session().registers().lots)
    out += qt(lot.id.text()) + (std::ranges::find(plan.lots, lot.id) != plan.lots.end()
                                    ? QStringLiteral("+%1,").arg(qt(lot.code + lot.name))
                                    : QStringLiteral("-%1,").arg(qt(lot.code + lot.name)));
  return out;
}

void LeafSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("Leaf"), down);
  const auto& lots = editor_.session().registers().lots;
  if (lots.empty()) soft(QStringLiteral("No leaf is in this book’s register yet."), down);
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const Lot& lot = lots[i];
    const bool chosen = std::ranges::find(plan.lots, lot.id) != plan.lots.end();
    if (editor_.locked() && !chosen) continue;
    const QString name = qt(lot.code) + (lot.name.empty() ? QString() : QStringLiteral("  ") + qt(lot.name));
    down->addWidget(tick(
        name, QStringLiteral("lot.%1").arg(i),
        [id = lot.id](const Plan& p) { return std::ranges::find(p.lots, id) != p.lots.end(); },
        [id = lot.id](Plan& p, bool on) {
          std::erase(p.lots, id);
          if (on) p.lots.push_back(id);
        }));
    if (chosen) details(lot, QStringLiteral("lot.%1.").arg(i), down);
  }
  if (auto* add = act(QStringLiteral("a new leaf"), QStringLiteral("Add a new leaf to the register and the trial"),
                      QStringLiteral("lot.add"), [this] { add_lot(); }))
    down->addWidget(add, 0, Qt::AlignLeft);
}

/// What the register knows of a lot, changed in place.
void LeafSection::details(const Lot& lot, const QString& object, QVBoxLayout* down) {
  const IdOf<Lot> id = lot.id;
  const QString code = qt(lot.code);
  const auto get = [this, id]() {
    const auto* l = find_record(editor_.session().registers().lots, id);
    return l ? *l : Lot{};
  };
  const auto put = [this, get](const std::function<Result<void>(Lot&)>& change) -> QString {
    Lot l = get();
    if (const auto good = change(l); !good) return qt(wording::sentence(good.error()));
    const auto done = editor_.session().put(l);
    return done ? QString() : qt(wording::sentence(done.error()));
  };
  auto* first = row_in(down);
  first->setContentsMargins(26, 0, 0, 0);
  const auto field = [&](const QString& name, const QString& part, std::string Lot::*member, int stretch,
                         QHBoxLayout* into) {
    into->addWidget(own_blank(
                        name + QStringLiteral(" of ") + code, object + part,
                        [get, member](const Plan&) { return qt(get().*member); },
                        [put, member](const QString& text) {
                          return put([&](Lot& l) -> Result<void> {
                            l.*member = plain(text);
                            return {};
                          });
                        },
                        name),
                    stretch);
  };
  field(QStringLiteral("code"), QStringLiteral("code"), &Lot::code, 2, first);
  field(QStringLiteral("name"), QStringLiteral("name"), &Lot::name, 4, first);
  auto* second = row_in(down);
  second->setContentsMargins(26, 0, 0, 6);
  second->addWidget(
      choice(
          QStringLiteral("Type of ") + code, object + QStringLiteral("type"), [](const Plan&) { return type_names(); },
          [get](const Plan&) { return static_cast<int>(get().type); },
          [put, this](Plan&, int at) {
            say(put([at](Lot& l) -> Result<void> {
              l.type = static_cast<LeafType>(at);
              return {};
            }));
          }),
      0, Qt::AlignTop);
  second->addWidget(own_blank(
                        QStringLiteral("Stock of ") + code, object + QStringLiteral("stock"),
                        [get, this](const Plan&) {
                          const auto l = get();
                          return l.stock.count() > 0 ? qt(mass_text(l.stock, editor_.style())) : QString();
                        },
                        [put](const QString& text) {
                          return put([&](Lot& l) -> Result<void> {
                            if (text.trimmed().isEmpty()) {
                              l.stock = Mass();
                              return {};
                            }
                            const auto read = parse_mass(plain(text), "stock");
                            if (!read) return tl::unexpected<Error>(read.error());
                            l.stock = *read;
                            return {};
                          });
                        },
                        QStringLiteral("stock, g")),
                    2);
  field(QStringLiteral("allergens"), QStringLiteral("allergens"), &Lot::allergens, 3, second);
}

/// The next free code, so that a new leaf needs no typing; its code is there to be typed over.
void LeafSection::add_lot() {
  const auto& lots = editor_.session().registers().lots;
  Lot lot;
  SystemEntropy entropy;
  lot.id = IdOf<Lot>::make(entropy);
  for (int n = 1; lot.code.empty() || std::ranges::find(lots, lot.code, &Lot::code) != lots.end(); ++n)
    lot.code = QStringLiteral("L-%1").arg(n, 2, 10, QLatin1Char('0')).toStdString();
  if (const auto done = editor_.session().put(lot); !done) {
    say(qt(wording::sentence(done.error())));
    return;
  }
  say(editor_.set([&](Plan& p) { p.lots.push_back(lot.id); }));
  go_to(QStringLiteral("lot.%1.code").arg(editor_.session().registers().lots.size() - 1));
}

}  // namespace likeleaf::ui
