// If … then at the counter we …
#include <QBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "ui/plan/plan_text.h"
#include "ui/plan/sections.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/blank_text.h"

namespace likeleaf::ui {
namespace {

const RuleClause* clause_at(const Plan& plan, std::size_t at) {
  return plan.rule && at < plan.rule->clauses.size() ? &plan.rule->clauses[at] : nullptr;
}

/// A rule's first clause speaks of what decides, since of the rest it could only say that it cannot say.
void add_clause(Plan& plan) {
  if (plan.attributes.empty()) return;
  if (!plan.rule) plan.rule = IfThenRule{{}, plan.lever.reference() == 0 ? std::size_t{1} : std::size_t{0}, {}, {}};
  const auto used = [&](const PlanAttribute& a) {
    return std::ranges::find(plan.rule->clauses, a.attribute, &RuleClause::attribute) != plan.rule->clauses.end();
  };
  auto next = std::ranges::find_if(plan.attributes, [&](const auto& a) { return a.deciding && !used(a); });
  if (next == plan.attributes.end()) next = plan.attributes.begin();
  plan.rule->clauses.push_back({next->attribute, RuleClause::Way::falls, next->margin});
}

}  // namespace

QString RuleSection::signature(const Plan& plan) const {
  QString out = QStringLiteral("%1,").arg(plan.rule ? static_cast<int>(plan.rule->clauses.size()) : -1);
  for (const auto& lot : plan.lots) out += qt(lot.text()) + QLatin1Char(',');
  for (const auto& a : plan.attributes) out += qt(a.attribute) + QLatin1Char(',');
  return out;
}

void RuleSection::build(const Plan& plan, QVBoxLayout* down) {
  heading(QStringLiteral("If … then"), down);
  if (plan.rule) {
    for (std::size_t i = 0; i < plan.rule->clauses.size(); ++i) clause_row(i, down);
  } else {
    soft(QStringLiteral("What the answer will change at the counter, written before tasting."), down);
  }
  notes_under(QStringLiteral("rule.add"), down);
  if (!plan.attributes.empty())
    if (auto* add = act(plan.rule ? QStringLiteral("and …") : QStringLiteral("write a rule"),
                        QStringLiteral("Add a condition to the rule"), QStringLiteral("rule.add"),
                        [this] { say(editor_.set([](Plan& p) { add_clause(p); })); }))
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
  auto* action = text_blank(
      QStringLiteral("Then at the counter"), QStringLiteral("rule.action"),
      [](const Plan& p) { return p.rule ? qt(p.rule->action) : QString(); },
      [](Plan& p, const QString& text) -> Result<void> {
        if (!p.rule) return {};
        return take_text(p.rule->action, text, sentence_length, "if-then rule");
      },
      QStringLiteral("what changes at the counter"));
  down->addWidget(action);
  leaves(plan, down);
  if (auto* away = act(QStringLiteral("no rule"), QStringLiteral("Take the rule out"), QStringLiteral("rule.remove"),
                       [this] { say(editor_.set([](Plan& p) { p.rule.reset(); })); }))
    down->addWidget(away, 0, Qt::AlignLeft);
}

void RuleSection::leaves(const Plan& plan, QVBoxLayout* down) {
  constexpr std::size_t in_a_row = 4;
  QHBoxLayout* across = nullptr;
  for (std::size_t i = 0; i < plan.lots.size(); ++i) {
    if (i % in_a_row == 0) {
      if (across) across->addStretch(1);
      across = row_in(down);
      across->setSpacing(14);
      if (i == 0) soft(QStringLiteral("for"), across);
    }
    const IdOf<Lot> id = plan.lots[i];
    across->addWidget(tick(
        [this, id](const Plan&) {
          const auto* lot = find_record(editor_.registers().lots, id);
          return lot ? qt(lot->code) : QStringLiteral("?");
        },
        QStringLiteral("rule.lot.%1").arg(i),
        [id](const Plan& p) { return p.rule && std::ranges::find(p.rule->leaves, id) != p.rule->leaves.end(); },
        [id](Plan& p, bool on) {
          if (!p.rule) return;
          std::erase(p.rule->leaves, id);
          if (on) p.rule->leaves.push_back(id);
        }));
  }
  if (across) across->addStretch(1);
}

void RuleSection::clause_row(std::size_t at, QVBoxLayout* down) {
  auto* across = row_in(down);
  const QString object = QStringLiteral("clause.%1").arg(at), name = QStringLiteral("Condition %1").arg(at + 1);
  auto* lead = soft(at == 0 ? QStringLiteral("if") : QStringLiteral("and"), across);
  lead->setFixedWidth(28);
  lead->setMinimumHeight(30);
  across->addWidget(choice(
                        name + QStringLiteral(", attribute"), object + QStringLiteral(".attribute"),
                        [this](const Plan& p) {
                          QStringList all;
                          for (const auto& a : p.attributes) all << attribute_name(editor_, a.attribute).toLower();
                          return all;
                        },
                        [at](const Plan& p) {
                          const auto* c = clause_at(p, at);
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
          [at](const Plan& p) {
            const auto* c = clause_at(p, at);
            return c ? static_cast<int>(c->way) : -1;
          },
          [at](Plan& p, int way) { p.rule->clauses.at(at).way = static_cast<RuleClause::Way>(way); }),
      0, Qt::AlignTop);
  const auto scale = [this](const std::string& id) {
    const auto* a = find_attribute(editor_.attributes(), id);
    return a ? a->scale : Scale::intensity;
  };
  auto* by = blank(
      name + QStringLiteral(", by how much"), object + QStringLiteral(".by"),
      [this, at, scale](const Plan& p) {
        const auto* c = clause_at(p, at);
        return c ? margin_text(scale(c->attribute), c->by, editor_.style()).remove(QStringLiteral("±")) : QString();
      },
      [at, scale](Plan& p, const QString& text) -> Result<void> {
        auto& c = p.rule->clauses.at(at);
        const auto read = parse_margin(scale(c.attribute), text, "if-then rule, by how much");
        if (!read) return tl::unexpected<Error>(read.error());
        c.by = *read;
        return {};
      });
  by->setMinimumWidth(48);
  across->addWidget(by, 1, Qt::AlignTop);
  speak_under(by, down);
  auto* more = soft(QStringLiteral("or more"), across);
  more->setMinimumHeight(30);
  bind([by, more, at](const Plan& p) {
    const auto* c = clause_at(p, at);
    by->setVisible(c && c->way != RuleClause::Way::holds);
    more->setVisible(by->isVisibleTo(by->parentWidget()));
  });
  across->addStretch(1);
  if (auto* away = act(QStringLiteral("×"), QStringLiteral("Take condition %1 out").arg(at + 1),
                       object + QStringLiteral(".remove"), [this, at] {
                         say(editor_.set([at](Plan& p) {
                           if (p.rule) erase_at(p.rule->clauses, at);
                         }));
                       }))
    across->addWidget(away, 0, Qt::AlignTop);
}

}  // namespace likeleaf::ui
