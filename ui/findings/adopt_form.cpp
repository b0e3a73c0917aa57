#include "ui/findings/adopt_form.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

AdoptedRule start_of(const Trial& trial) {
  if (trial.rule) return *trial.rule;
  AdoptedRule rule;
  const Plan& plan = trial.sealed->plan;
  if (plan.rule) {
    rule.sentence = plan.rule->action;
    if (!rule.sentence.empty() && !rule.sentence.ends_with('.')) rule.sentence += '.';
    rule.leaves = plan.rule->leaves;
  }
  if (rule.leaves.empty()) rule.leaves = plan.lots;
  if (trial.unmasked) rule.who = trial.unmasked->who;
  return rule;
}

}  // namespace

AdoptForm::AdoptForm(const Trial& trial, QWidget* parent) : QWidget(parent) {
  const Tokens& t = tokens();
  const AdoptedRule start = start_of(trial);
  auto* grid = new QGridLayout(this);
  grid->setContentsMargins(0, 4, 0, 4);
  grid->setHorizontalSpacing(14);
  grid->setVerticalSpacing(6);
  const auto blank = [&](const QString& name, const QString& object, const QString& hint, const std::string& value,
                         int row) {
    auto* line = new BlankLine(name, hint, this);
    line->line()->setObjectName(object);
    line->set_value(text(value));
    grid->addWidget(label(name, face(15), t.soft_ink, this), row, 0, Qt::AlignTop);
    grid->addWidget(line, row, 1);
    return line;
  };
  sentence_ = blank(QStringLiteral("House rule"), QStringLiteral("adopt_sentence"),
                    QStringLiteral("what the counter does from then on"), start.sentence, 0);
  auto* leaves = new QHBoxLayout;
  for (const auto id : trial.sealed->plan.lots) {
    const auto* lot = find_record(trial.sealed->registers.lots, id);
    auto* box = new QCheckBox(lot ? text(lot->code) : QStringLiteral("?"), this);
    box->setObjectName(QStringLiteral("adopt_leaf_") + box->text());
    box->setAccessibleName(QStringLiteral("Leaf ") + box->text());
    box->setChecked(std::ranges::find(start.leaves, id) != start.leaves.end());
    box->setMinimumHeight(32);
    leaves->addWidget(box);
    leaves_.emplace_back(id, box);
  }
  leaves->addStretch(1);
  grid->addWidget(label(QStringLiteral("Leaves"), face(15), t.soft_ink, this), 1, 0, Qt::AlignVCenter);
  grid->addLayout(leaves, 1, 1);
  from_when_ =
      blank(QStringLiteral("From when"), QStringLiteral("adopt_from"), QStringLiteral("5 March"), start.from_when, 2);
  who_ = blank(QStringLiteral("Who"), QStringLiteral("adopt_who"), QStringLiteral("initials"), start.who, 3);
  review_ = blank(QStringLiteral("Look again"), QStringLiteral("adopt_review"),
                  QStringLiteral("a date, or “with the spring harvest”"), start.review, 4);
  auto* acts = new QHBoxLayout;
  auto* yes = outlined_button(QStringLiteral("Adopt"), QStringLiteral("adopt_yes"), this);
  auto* no = quiet_button(QStringLiteral("Leave it"), QStringLiteral("adopt_no"), this);
  acts->addWidget(yes);
  acts->addWidget(no);
  acts->addStretch(1);
  grid->addLayout(acts, 5, 1);
  grid->setColumnStretch(1, 1);
  connect(yes, &QPushButton::clicked, this, &AdoptForm::adopted);
  connect(no, &QPushButton::clicked, this, &AdoptForm::left);
}

AdoptedRule AdoptForm::rule() const {
  AdoptedRule out;
  const auto written = [](const BlankLine* line) { return line->value().trimmed().toStdString(); };
  out.sentence = written(sentence_);
  out.from_when = written(from_when_);
  out.who = written(who_);
  out.review = written(review_);
  for (const auto& [lot, box] : leaves_)
    if (box->isChecked()) out.leaves.push_back(lot);
  return out;
}

bool AdoptForm::complete() {
  bool all = true;
  const auto need = [&](BlankLine* line, const char* field, const char* allowed) {
    const bool empty = line->value().trimmed().isEmpty();
    line->set_message(empty ? text(wording::sentence({ErrorKind::missing, field, {}, allowed, {}})) : QString());
    if (empty && all) line->line()->setFocus();
    all = all && !empty;
  };
  need(sentence_, "house rule", "a sentence");
  need(from_when_, "from when", "a day or an occasion");
  need(who_, "who", "who adopts it");
  need(review_, "look again", "a day or an occasion");
  return all;
}

void AdoptForm::refuse(const QString& sentence) {
  sentence_->set_message(sentence);
}

}  // namespace likeleaf::ui
