#include "ui/findings/adopt_form.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <algorithm>

#include "core/wording/errors.h"
#include "ui/findings/sheet_forms.h"
#include "ui/widgets/blank_line.h"
#include "ui/widgets/paper_parts.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
namespace {

AdoptedRule start_of(const Trial& trial) {
  if (trial.rule && !trial.rule->left) return *trial.rule;
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
  auto* leaves_column = new QVBoxLayout;
  leaves_column->setSpacing(0);
  leaves_column->addLayout(leaves);
  leaves_said_ = label({}, face(15), t.caution, this);
  leaves_said_->setObjectName(QStringLiteral("adopt_leaves_said"));
  leaves_said_->hide();
  leaves_column->addWidget(leaves_said_);
  grid->addLayout(leaves_column, 1, 1);
  from_when_ =
      blank(QStringLiteral("From when"), QStringLiteral("adopt_from"), QStringLiteral("5 March"), start.from_when, 2);
  who_ = blank(QStringLiteral("Who"), QStringLiteral("adopt_who"), QStringLiteral("initials"), start.who, 3);
  review_ = blank(QStringLiteral("Look again"), QStringLiteral("adopt_review"),
                  QStringLiteral("a date, or “with the spring harvest”"), start.review, 4);
  auto* acts = new QHBoxLayout;
  auto* yes = outlined_button(QStringLiteral("Adopt"), QStringLiteral("adopt_yes"), this);
  auto* no = quiet_button(QStringLiteral("Turn back"), QStringLiteral("adopt_no"), this);
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
  const auto need = [&](BlankLine* line, Field field, const char* allowed) {
    const bool empty = line->value().trimmed().isEmpty();
    line->set_message(empty ? text(wording::sentence({ErrorKind::missing, {}, {}, allowed, {}, field})) : QString());
    if (empty && all) line->line()->setFocus();
    all = all && !empty;
  };
  need(sentence_, Field::house_rule, "a sentence");
  const bool none = std::ranges::none_of(leaves_, [](const auto& leaf) { return leaf.second->isChecked(); });
  leaves_said_->setText(
      none ? text(wording::sentence({ErrorKind::missing, {}, {}, "one leaf or more", {}, Field::leaves})) : QString());
  leaves_said_->setVisible(none);
  if (none && all && !leaves_.empty()) leaves_.front().second->setFocus();
  all = all && !none;
  need(from_when_, Field::from_when, "a day or an occasion");
  need(who_, Field::who, "who adopts it");
  need(review_, Field::look_again, "a day or an occasion");
  return all;
}

void AdoptForm::refuse(const Error& error) {
  const QString said = text(wording::sentence(error));
  auto* at = error.at == Field::who           ? who_
             : error.at == Field::from_when   ? from_when_
             : error.at == Field::review_date ? review_
                                              : sentence_;
  at->set_message(said);
}

LeaveForm::LeaveForm(const Trial& trial, QWidget* parent) : QWidget(parent), start_(start_of(trial)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 4, 0, 4);
  down->setSpacing(6);
  down->addWidget(label(QStringLiteral("The rule is not taken over. The decision is kept, and the report says it."),
                        face(15), tokens().ink, this));
  reason_ =
      new WhoAndWhy(QStringLiteral("leave"), QStringLiteral("too little difference to change the counter for"), this);
  down->addWidget(reason_);
  auto* acts = new QHBoxLayout;
  auto* yes = outlined_button(QStringLiteral("Leave the rule"), QStringLiteral("leave_yes"), this);
  auto* no = quiet_button(QStringLiteral("Turn back"), QStringLiteral("leave_no"), this);
  acts->addWidget(yes);
  acts->addWidget(no);
  acts->addStretch(1);
  down->addLayout(acts);
  connect(yes, &QPushButton::clicked, this, &LeaveForm::decided);
  connect(no, &QPushButton::clicked, this, &LeaveForm::left);
}

AdoptedRule LeaveForm::rule() const {
  AdoptedRule out = start_;
  out.left = true;
  out.counter_checked = false;
  out.from_when.clear();
  out.review.clear();
  out.who = reason_->who();
  out.why = reason_->why();
  return out;
}

bool LeaveForm::complete() {
  return reason_->complete();
}

void LeaveForm::refuse(const Error& error) {
  if (!reason_->refuse(error)) reason_->say(error);
}

}  // namespace likeleaf::ui
