// What would matter, the rule, who, and how it is served.
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/entropy.h"
#include "core/base/number_text.h"
#include "core/wording/errors.h"
#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"

namespace likeleaf::ui {
namespace {

QHBoxLayout* row_in(QVBoxLayout* down) {
  auto* across = new QHBoxLayout;
  across->setSpacing(6);
  down->addLayout(across);
  return across;
}

QString ids(const std::vector<PlanAttribute>& attributes) {
  QString out;
  for (const auto& a : attributes) out += qt(a.attribute) + QLatin1Char(',');
  return out;
}

QString attribute_name(const Session& session, const std::string& id) {
  const auto* a = find_attribute(session.attributes(), id);
  return a ? qt(a->name) : qt(id);
}

QStringList level_names(const Plan& plan, const Style& style) {
  QStringList out;
  for (std::size_t i = 0; i < plan.lever.levels.size(); ++i) {
    const QString said = qt(level_text(plan.lever, i, style));
    out << (said.isEmpty() ? QStringLiteral("level %1").arg(i + 1) : said);
  }
  return out;
}

QStringList lot_codes(const Session& session) {
  QStringList out;
  for (const auto& lot : session.registers().lots) out << qt(lot.code);
  return out;
}

int lot_place(const Session& session, IdOf<Lot> id) {
  const auto& lots = session.registers().lots;
  const auto found = std::ranges::find(lots, id, &Lot::id);
  return found == lots.end() ? -1 : static_cast<int>(found - lots.begin());
}

IdOf<Lot> lot_at(const Session& session, int at) {
  const auto& lots = session.registers().lots;
  return at >= 0 && at < static_cast<int>(lots.size()) ? lots[static_cast<std::size_t>(at)].id : IdOf<Lot>();
}

template <class T>
void erase_at(std::vector<T>& all, std::size_t at) {
  if (at < all.size()) all.erase(all.begin() + static_cast<std::ptrdiff_t>(at));
}

QString expectation_text(Expectation e, const QString& level) {
  switch (e) {
    case Expectation::none:
      return QStringLiteral("no expectation");
    case Expectation::more:
      return QStringLiteral("expect more at %1").arg(level);
    case Expectation::less:
      return QStringLiteral("expect less at %1").arg(level);
    case Expectation::same:
      break;
  }
  return QStringLiteral("expect the same");
}

/// The level that expectations speak of: b of the first contrast.
QString judged_level(const Plan& plan, const Style& style) {
  const auto all = contrasts(plan.lever);
  const QString said = all.empty() ? QString() : qt(level_text(plan.lever, all.front().b, style));
  return said.isEmpty() ? QStringLiteral("the other level") : said;
}

}  // namespace

QString MatterSection::signature(const Plan& plan) const {
  return ids(plan.attributes) + QString::number(editor_.session().attributes().size());
}

void MatterSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("What would matter"), down, 22);
  soft(QStringLiteral("Ticked decides; the rest is noted. The smallest difference that would change how we brew, and "
                      "what we expect."),
       down);
  for (std::size_t i = 0; i < plan.attributes.size(); ++i) {
    auto* across = row_in(down);
    const std::string id = plan.attributes[i].attribute;
    const QString name = attribute_name(editor_.session(), id), object = QStringLiteral("attribute.") + qt(id);
    const auto* known = find_attribute(editor_.session().attributes(), id);
    const Scale scale = known ? known->scale : Scale::intensity;
    auto* decides = tick(
        name, object, [i](const Plan& p) { return i < p.attributes.size() && p.attributes[i].deciding; },
        [i](Plan& p, bool on) { p.attributes.at(i).deciding = on; });
    decides->setAccessibleName(name + QStringLiteral(" decides"));
    across->addWidget(decides, 3);
    auto* margin = blank(
        name + QStringLiteral(", margin"), object + QStringLiteral(".margin"),
        [this, i, scale](const Plan& p) {
          return i < p.attributes.size() ? margin_text(scale, p.attributes[i].margin, editor_.style()) : QString();
        },
        [i, scale, name](Plan& p, const QString& text) -> Result<void> {
          const auto read = parse_margin(scale, text, plain(name) + ", margin");
          if (!read) return tl::unexpected<Error>(read.error());
          p.attributes.at(i).margin = *read;
          return {};
        });
    margin->setMinimumWidth(64);
    across->addWidget(margin, 1);
    across->addWidget(
        choice(
            name + QStringLiteral(", expectation"), object + QStringLiteral(".expected"),
            [this](const Plan& p) {
              QStringList all;
              for (int e = 0; e < 4; ++e)
                all << expectation_text(static_cast<Expectation>(e), judged_level(p, editor_.style()));
              return all;
            },
            [i](const Plan& p) { return i < p.attributes.size() ? static_cast<int>(p.attributes[i].expected) : 0; },
            [i](Plan& p, int at) { p.attributes.at(i).expected = static_cast<Expectation>(at); }),
        0, Qt::AlignTop);
    if (auto* away =
            act(QStringLiteral("×"), QStringLiteral("Leave %1 out").arg(name), object + QStringLiteral(".remove"),
                [this, i] { say(editor_.set([i](Plan& p) { erase_at(p.attributes, i); })); }))
      across->addWidget(away, 0, Qt::AlignTop);
  }
  for (const auto& attribute : editor_.session().attributes()) {
    if (std::ranges::find(plan.attributes, attribute.id, &PlanAttribute::attribute) != plan.attributes.end()) continue;
    if (auto* add =
            act(QStringLiteral("note %1 too").arg(qt(attribute.name).toLower()),
                QStringLiteral("Note %1 too").arg(qt(attribute.name)),
                QStringLiteral("attribute.%1.add").arg(qt(attribute.id)),
                [this, id = attribute.id, margin = attribute.margin] {
                  say(editor_.set([&](Plan& p) { p.attributes.push_back({id, false, margin, Expectation::none}); }));
                }))
      down->addWidget(add, 0, Qt::AlignLeft);
  }
}

QString RuleSection::signature(const Plan& plan) const {
  return QStringLiteral("%1,%2,")
             .arg(plan.rule ? static_cast<int>(plan.rule->clauses.size()) : -1)
             .arg(plan.lots.size()) +
         ids(plan.attributes);
}

void RuleSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("If … then"), down);
  if (plan.rule) {
    for (std::size_t i = 0; i < plan.rule->clauses.size(); ++i) clause_row(i, down);
  } else {
    soft(QStringLiteral("What the answer will change at the counter, written before tasting."), down);
  }
  if (!plan.attributes.empty())
    if (auto* add =
            act(plan.rule ? QStringLiteral("and …") : QStringLiteral("write a rule"),
                QStringLiteral("Add a condition to the rule"), QStringLiteral("rule.add"), [this] {
                  say(editor_.set([](Plan& p) {
                    if (p.attributes.empty()) return;
                    if (!p.rule)
                      p.rule = IfThenRule{{}, p.lever.reference() == 0 ? std::size_t{1} : std::size_t{0}, {}, {}};
                    p.rule->clauses.push_back(
                        {p.attributes.front().attribute, RuleClause::Way::falls, p.attributes.front().margin});
                  }));
                }))
      down->addWidget(add, 0, Qt::AlignLeft);
  if (!plan.rule) return;
  auto* to = row_in(down);
  soft(QStringLiteral("then to"), to);
  to->addWidget(choice(
      QStringLiteral("The level the house would go to"), QStringLiteral("rule.level"),
      [this](const Plan& p) { return level_names(p, editor_.style()); },
      [](const Plan& p) { return p.rule ? static_cast<int>(p.rule->to_level) : -1; },
      [](Plan& p, int at) {
        if (p.rule) p.rule->to_level = static_cast<std::size_t>(at);
      }));
  to->addStretch(1);
  down->addWidget(blank(
      QStringLiteral("Then at the counter"), QStringLiteral("rule.action"),
      [](const Plan& p) { return p.rule ? qt(p.rule->action) : QString(); },
      [](Plan& p, const QString& text) -> Result<void> {
        if (p.rule) p.rule->action = plain(text);
        return {};
      },
      QStringLiteral("what changes at the counter")));
  for (std::size_t i = 0; i < plan.lots.size(); ++i) {
    const auto* lot = find_record(editor_.session().registers().lots, plan.lots[i]);
    if (!lot) continue;
    down->addWidget(tick(
        QStringLiteral("for %1").arg(qt(lot->code)), QStringLiteral("rule.lot.%1").arg(i),
        [id = lot->id](const Plan& p) {
          return p.rule && std::ranges::find(p.rule->leaves, id) != p.rule->leaves.end();
        },
        [id = lot->id](Plan& p, bool on) {
          if (!p.rule) return;
          std::erase(p.rule->leaves, id);
          if (on) p.rule->leaves.push_back(id);
        }));
  }
  if (auto* away = act(QStringLiteral("no rule"), QStringLiteral("Take the rule out"), QStringLiteral("rule.remove"),
                       [this] { say(editor_.set([](Plan& p) { p.rule.reset(); })); }))
    down->addWidget(away, 0, Qt::AlignLeft);
}

void RuleSection::clause_row(std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const QString object = QStringLiteral("clause.%1").arg(at), name = QStringLiteral("Condition %1").arg(at + 1);
  const auto clause = [at](const Plan& p) -> const RuleClause* {
    return p.rule && at < p.rule->clauses.size() ? &p.rule->clauses[at] : nullptr;
  };
  across->addWidget(choice(
                        name + QStringLiteral(", attribute"), object + QStringLiteral(".attribute"),
                        [this](const Plan& p) {
                          QStringList all;
                          for (const auto& a : p.attributes) all << attribute_name(editor_.session(), a.attribute);
                          return all;
                        },
                        [clause](const Plan& p) {
                          const auto* c = clause(p);
                          const auto found =
                              c ? std::ranges::find(p.attributes, c->attribute, &PlanAttribute::attribute)
                                : p.attributes.end();
                          return found == p.attributes.end() ? -1 : static_cast<int>(found - p.attributes.begin());
                        },
                        [at](Plan& p, int chosen) {
                          const auto& a = p.attributes.at(static_cast<std::size_t>(chosen));
                          p.rule->clauses.at(at).attribute = a.attribute;
                          p.rule->clauses.at(at).by = a.margin;
                        }),
                    0, Qt::AlignTop);
  across->addWidget(
      choice(
          name + QStringLiteral(", way"), object + QStringLiteral(".way"),
          [](const Plan&) {
            return QStringList{QStringLiteral("falls by"), QStringLiteral("rises by"), QStringLiteral("holds")};
          },
          [clause](const Plan& p) {
            const auto* c = clause(p);
            return c ? static_cast<int>(c->way) : -1;
          },
          [at](Plan& p, int chosen) { p.rule->clauses.at(at).way = static_cast<RuleClause::Way>(chosen); }),
      0, Qt::AlignTop);
  const auto scale = [this](const std::string& id) {
    const auto* a = find_attribute(editor_.session().attributes(), id);
    return a ? a->scale : Scale::intensity;
  };
  auto* by = blank(
      name + QStringLiteral(", by how much"), object + QStringLiteral(".by"),
      [this, clause, scale](const Plan& p) {
        const auto* c = clause(p);
        return c ? margin_text(scale(c->attribute), c->by, editor_.style()).remove(QStringLiteral("±")) : QString();
      },
      [at, scale](Plan& p, const QString& text) -> Result<void> {
        auto& c = p.rule->clauses.at(at);
        const auto read = parse_margin(scale(c.attribute), text, "if-then rule, by how much");
        if (!read) return tl::unexpected<Error>(read.error());
        c.by = *read;
        return {};
      });
  across->addWidget(by, 1);
  bind([by, clause](const Plan& p) {
    const auto* c = clause(p);
    by->setVisible(c && c->way != RuleClause::Way::holds);
  });
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take condition %1 out").arg(at + 1),
                       object + QStringLiteral(".remove"), [this, at] {
                         say(editor_.set([at](Plan& p) {
                           if (p.rule) erase_at(p.rule->clauses, at);
                         }));
                       }))
    across->addWidget(away, 0, Qt::AlignTop);
}

QString WhoSection::signature(const Plan&) const {
  QString out;
  for (const auto& a : editor_.session().registers().assessors) out += qt(a.id.text()) + qt(a.alias) + QLatin1Char(',');
  return out;
}

void WhoSection::build(const Plan&, QVBoxLayout* down) {
  heading(QStringLiteral("Who"), down);
  const auto& people = editor_.session().registers().assessors;
  if (people.empty()) soft(QStringLiteral("Nobody is in this book’s register yet."), down);
  enum Part { away, tastes, prepares, heads, alone };
  for (std::size_t i = 0; i < people.size(); ++i) {
    auto* across = row_in(down);
    const IdOf<Assessor> id = people[i].id;
    const QString object = QStringLiteral("person.%1").arg(i);
    const auto get = [this, id] {
      const auto* a = find_record(editor_.session().registers().assessors, id);
      return a ? *a : Assessor{};
    };
    across->addWidget(
        own_blank(
            QStringLiteral("Initials of person %1").arg(i + 1), object, [get](const Plan&) { return qt(get().alias); },
            [this, get](const QString& text) {
              Assessor a = get();
              a.alias = plain(text);
              const auto done = editor_.session().put(a);
              return done ? QString() : qt(wording::sentence(done.error()));
            }),
        1);
    across->addWidget(choice(
                          QStringLiteral("What %1 does").arg(qt(people[i].alias)), object + QStringLiteral(".role"),
                          [](const Plan&) {
                            return QStringList{QStringLiteral("not in this trial"), QStringLiteral("tastes"),
                                               QStringLiteral("prepares, knows the key"),
                                               QStringLiteral("plans (head taster)"),
                                               QStringLiteral("tastes and prepares, alone")};
                          },
                          [id](const Plan& p) {
                            const auto has = [&](Role r) {
                              return std::ranges::find(p.assessors, PlanAssessor{id, r}) != p.assessors.end();
                            };
                            if (has(Role::taster)) return static_cast<int>(has(Role::preparer) ? alone : tastes);
                            return static_cast<int>(has(Role::preparer) ? prepares : has(Role::head) ? heads : away);
                          },
                          [id](Plan& p, int at) {
                            std::erase_if(p.assessors, [&](const PlanAssessor& a) { return a.id == id; });
                            if (at == tastes || at == alone) p.assessors.push_back({id, Role::taster});
                            if (at == prepares || at == alone) p.assessors.push_back({id, Role::preparer});
                            if (at == heads) p.assessors.push_back({id, Role::head});
                          }),
                      2, Qt::AlignTop);
  }
  if (auto* add = act(QStringLiteral("one more taster"), QStringLiteral("Add a person to the register and the trial"),
                      QStringLiteral("person.add"), [this] { add_person(); }))
    down->addWidget(add, 0, Qt::AlignLeft);
  down->addWidget(tick(
      QStringLiteral("self-blinded (codes read after scoring)"), QStringLiteral("self_blinded"),
      [](const Plan& p) { return p.blinding == Blinding::self; },
      [](Plan& p, bool on) { p.blinding = on ? Blinding::self : Blinding::preparer; }));
}

/// The next free initial, to be typed over.
void WhoSection::add_person() {
  const auto& people = editor_.session().registers().assessors;
  Assessor person;
  SystemEntropy entropy;
  person.id = IdOf<Assessor>::make(entropy);
  for (int n = 0; person.alias.empty() || std::ranges::find(people, person.alias, &Assessor::alias) != people.end();
       ++n)
    person.alias = std::string(1, static_cast<char>('A' + n % 26)) + (n < 26 ? "." : std::to_string(n / 26) + ".");
  if (const auto done = editor_.session().put(person); !done) {
    say(qt(wording::sentence(done.error())));
    return;
  }
  say(editor_.set([&](Plan& p) { p.assessors.push_back({person.id, Role::taster}); }));
  go_to(QStringLiteral("person.%1").arg(editor_.session().registers().assessors.size() - 1));
}

QString ServingSection::signature(const Plan& plan) const {
  QString out = QStringLiteral("%1").arg(plan.reference_pair.has_value());
  for (const auto& c : plan.controls) out += QStringLiteral(",%1").arg(static_cast<int>(c.kind));
  return out + (editor_.session().registers().lots.empty() ? QStringLiteral("none") : QStringLiteral("some"));
}

void ServingSection::count_row(const QString& text, const QString& object, int Plan::*field, int lowest, int highest,
                               QVBoxLayout* down) {
  auto* across = row_in(down);
  auto* l = words(text, face(15), tokens().ink, this);
  across->addWidget(l, 3);
  across->addWidget(blank(
                        text, object, [field](const Plan& p) { return QString::number(p.*field); },
                        [field, lowest, highest, text](Plan& p, const QString& typed) -> Result<void> {
                          const auto read = parse_count(typed, lowest, highest, plain(text));
                          if (!read) return tl::unexpected<Error>(read.error());
                          p.*field = *read;
                          return {};
                        }),
                    1);
  steppers(text, object, across,
           [field, lowest, highest](Plan& p, int way) { p.*field = std::clamp(p.*field + way, lowest, highest); });
}

void ServingSection::build(const Plan& plan, QVBoxLayout* down) {
  const Session& session = editor_.session();
  heading(QStringLiteral("How it is served"), down);
  count_row(QStringLiteral("brew pairs of each leaf"), QStringLiteral("brew_pairs"), &Plan::brew_pairs, 1, 40, down);
  count_row(QStringLiteral("pairs a sitting"), QStringLiteral("pairs_per_sitting"), &Plan::pairs_per_sitting, 1, 40,
            down);
  count_row(QStringLiteral("sittings (0: as many as needed)"), QStringLiteral("sittings"), &Plan::sittings, 0, 40,
            down);
  auto* cup = row_in(down);
  cup->addWidget(words(QStringLiteral("each cup, ml"), face(15), tokens().ink, this), 3);
  cup->addWidget(blank(
                     QStringLiteral("each cup, ml"), QStringLiteral("cup"),
                     [this](const Plan& p) {
                       return qt(decimal_text(p.cup.count(), 3, p.cup.count() % 1000 == 0 ? 0 : 1, editor_.style()));
                     },
                     [](Plan& p, const QString& text) -> Result<void> {
                       const auto read = parse_decimal(plain(text), 3, 1'000, 500'000, "each cup, ml", "1 to 500 ml");
                       if (!read) return tl::unexpected<Error>(read.error());
                       p.cup = Volume(*read);
                       return {};
                     }),
                 1);
  down->addWidget(choice(
                      QStringLiteral("Serving way"), QStringLiteral("serving_way"),
                      [](const Plan&) {
                        return QStringList{QStringLiteral("served from a lidded holding bath"),
                                           QStringLiteral("served at the same moment"),
                                           QStringLiteral("each taster brews alone")};
                      },
                      [](const Plan& p) { return static_cast<int>(p.serving_way); },
                      [](Plan& p, int at) { p.serving_way = static_cast<ServingWay>(at); }),
                  0, Qt::AlignLeft);
  down->addWidget(choice(
                      QStringLiteral("Sip protocol"), QStringLiteral("sip"),
                      [](const Plan&) {
                        return QStringList{QStringLiteral("cup by cup"), QStringLiteral("attribute by attribute")};
                      },
                      [](const Plan& p) { return static_cast<int>(p.sip); },
                      [](Plan& p, int at) { p.sip = static_cast<SipProtocol>(at); }),
                  0, Qt::AlignLeft);
  down->addWidget(tick(
      QStringLiteral("hide the first cup’s scores until both are in"), QStringLiteral("hide_first_cup"),
      [](const Plan& p) { return p.hide_first_cup; }, [](Plan& p, bool on) { p.hide_first_cup = on; }));
  auto* warm = row_in(down);
  soft(QStringLiteral("warm-up leaf"), warm);
  const auto with_none = [&session](const Plan&) { return QStringList{QStringLiteral("none")} + lot_codes(session); };
  warm->addWidget(choice(
      QStringLiteral("Warm-up leaf"), QStringLiteral("warm_up"), with_none,
      [&session](const Plan& p) { return lot_place(session, p.warm_up_lot) + 1; },
      [&session](Plan& p, int at) { p.warm_up_lot = lot_at(session, at - 1); }));
  warm->addStretch(1);
  auto* open = row_in(down);
  soft(QStringLiteral("open reference pair"), open);
  open->addWidget(choice(
      QStringLiteral("Leaf of the open reference pair"), QStringLiteral("reference"), with_none,
      [&session](const Plan& p) { return p.reference_pair ? lot_place(session, p.reference_pair->lot) + 1 : 0; },
      [&session](Plan& p, int at) {
        if (at == 0) {
          p.reference_pair.reset();
          return;
        }
        if (!p.reference_pair) p.reference_pair.emplace();
        p.reference_pair->lot = lot_at(session, at - 1);
      }));
  open->addStretch(1);
  if (plan.reference_pair)
    down->addWidget(blank(
        QStringLiteral("Words the panel agreed on"), QStringLiteral("reference.words"),
        [](const Plan& p) { return p.reference_pair ? qt(p.reference_pair->words) : QString(); },
        [](Plan& p, const QString& text) -> Result<void> {
          if (!p.reference_pair) return {};
          p.reference_pair->words = plain(text);
          p.reference_pair->held = !p.reference_pair->words.empty();
          return {};
        },
        QStringLiteral("words agreed: body is how thick, …")));
  heading(QStringLiteral("Controls"), down);
  for (std::size_t i = 0; i < plan.controls.size(); ++i) control_row(i, down);
  if (!session.registers().lots.empty())
    if (auto* add = act(QStringLiteral("add a control"), QStringLiteral("Add a control"), QStringLiteral("control.add"),
                        [this] {
                          say(editor_.set([this](Plan& p) {
                            Control c;
                            c.lot = p.lots.empty() ? lot_at(editor_.session(), 0) : p.lots.front();
                            p.controls.push_back(c);
                          }));
                        }))
      down->addWidget(add, 0, Qt::AlignLeft);
  down->addWidget(blank(
      QStringLiteral("Which sheets will not count"), QStringLiteral("exclusion_rule"),
      [](const Plan& p) { return qt(p.exclusion_rule); },
      [](Plan& p, const QString& text) -> Result<void> {
        p.exclusion_rule = plain(text);
        return {};
      },
      QStringLiteral("which sheets will not count")));
}

void ServingSection::control_row(std::size_t at, QVBoxLayout* down) {
  const Session& session = editor_.session();
  auto* across = row_in(down);
  const QString object = QStringLiteral("control.%1").arg(at), name = QStringLiteral("Control %1").arg(at + 1);
  const auto get = [at](const Plan& p) { return at < p.controls.size() ? p.controls[at] : Control{}; };
  across->addWidget(
      choice(
          name + QStringLiteral(", kind"), object + QStringLiteral(".kind"),
          [](const Plan&) {
            return QStringList{QStringLiteral("blank"), QStringLiteral("yardstick"), QStringLiteral("repeat")};
          },
          [get](const Plan& p) { return static_cast<int>(get(p).kind); },
          [at](Plan& p, int k) { p.controls.at(at).kind = static_cast<ControlKind>(k); }),
      0, Qt::AlignTop);
  across->addWidget(choice(
                        name + QStringLiteral(", leaf"), object + QStringLiteral(".lot"),
                        [&session](const Plan&) { return lot_codes(session); },
                        [get, &session](const Plan& p) { return lot_place(session, get(p).lot); },
                        [at, &session](Plan& p, int l) { p.controls.at(at).lot = lot_at(session, l); }),
                    0, Qt::AlignTop);
  across->addWidget(choice(
                        name + QStringLiteral(", level"), object + QStringLiteral(".level"),
                        [this](const Plan& p) { return level_names(p, editor_.style()); },
                        [get](const Plan& p) { return static_cast<int>(get(p).level); },
                        [at](Plan& p, int l) { p.controls.at(at).level = static_cast<std::size_t>(l); }),
                    0, Qt::AlignTop);
  across->addWidget(choice(
                        name + QStringLiteral(", sitting"), object + QStringLiteral(".sitting"),
                        [](const Plan&) {
                          QStringList all;
                          for (int i = 1; i <= 12; ++i) all << QStringLiteral("sitting %1").arg(i);
                          return all;
                        },
                        [get](const Plan& p) { return get(p).sitting - 1; },
                        [at](Plan& p, int s) { p.controls.at(at).sitting = s + 1; }),
                    0, Qt::AlignTop);
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take control %1 out").arg(at + 1),
                       object + QStringLiteral(".remove"),
                       [this, at] { say(editor_.set([at](Plan& p) { erase_at(p.controls, at); })); }))
    across->addWidget(away, 0, Qt::AlignTop);
}

}  // namespace likeleaf::ui
