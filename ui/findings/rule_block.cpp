#include "ui/findings/rule_block.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <utility>

#include "core/base/number_text.h"
#include "core/wording/errors.h"
#include "core/wording/rule_text.h"
#include "ui/findings/adopt_form.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {
RuleBlock::RuleBlock(Session& session, const Style& style, std::shared_ptr<const Answer> answer, QWidget* parent)
    : SideRule(parent), session_(session), style_(style), answer_(std::move(answer)) {
  fill();
}

void RuleBlock::fill() {
  const auto trial = session_.trial();
  if (!trial) return;
  const Tokens& t = tokens();
  // The block is filled anew inside one holder, so that the button pressed just now can outlive its click.
  if (auto* holder = layout()) {
    while (auto* item = holder->takeAt(0)) {
      if (auto* w = item->widget()) w->hide(), w->deleteLater();
      delete item;
    }
  } else {
    auto* fresh = new QVBoxLayout(this);
    fresh->setContentsMargins(17, 2, 0, 2);
  }
  auto* inside = new QWidget(this);
  layout()->addWidget(inside);
  auto* down = new QVBoxLayout(inside);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  const SealedPlan& plan = answer_->unmasked.plan();
  if (plan.plan.rule && answer_->findings.rule) {
    down->addWidget(label(QStringLiteral("written before tasting"), face(15), t.soft_ink, inside));
    auto* sentence = label(text(wording::rule_sentence(*plan.plan.rule, plan, style_)), face(15), t.ink, inside);
    sentence->setObjectName(QStringLiteral("rule_sentence"));
    down->addWidget(sentence);
    auto* outcome = label(text(wording::rule_outcome(*answer_->findings.rule, plan, style_)),
                          face(15, Weight::semi_bold), t.ink, inside);
    outcome->setObjectName(QStringLiteral("rule_outcome"));
    down->addWidget(outcome);
  } else {
    down->addWidget(label(QStringLiteral("No rule was written before tasting."), face(15), t.soft_ink, inside));
  }
  if (trial->rule) {
    const AdoptedRule& rule = *trial->rule;
    const bool as_written = plan.plan.rule && rule.sentence == plan.plan.rule->action + ".";
    auto* adopted = label(
        rule.left
            ? QStringLiteral("Not taken over. %1, %2: %3").arg(text(rule.who), text(date_text(rule.at)), text(rule.why))
            : QStringLiteral("House rule from %1%2. %3 adopted it; %4; look again: %5.")
                  .arg(text(rule.from_when), as_written ? QString() : QStringLiteral(": ") + text(rule.sentence),
                       text(rule.who),
                       rule.counter_checked ? QStringLiteral("checked at the counter")
                                            : QStringLiteral("to be checked at the counter"),
                       text(rule.review)),
        face(15), t.ink, inside);
    adopted->setObjectName(QStringLiteral("adopted"));
    down->addWidget(adopted);
  }
  if (!session_.read_only()) add_acts(down, inside);
  said_ = label({}, face(15), t.caution, inside);
  said_->setObjectName(QStringLiteral("rule_said"));
  said_->hide();
  down->addWidget(said_);
  inside->show();
}

void RuleBlock::add_acts(QVBoxLayout* down, QWidget* inside) {
  const auto trial = session_.trial();
  const bool stands = trial->rule && !trial->rule->left;
  const bool written = answer_->unmasked.plan().plan.rule.has_value();
  auto* acts = new QHBoxLayout;
  acts->setSpacing(10);
  const auto add = [&](QPushButton* button) {
    button->setMinimumHeight(36);
    acts->addWidget(button);
    return button;
  };
  auto* adopt_it = add(outlined_button(stands        ? QStringLiteral("Change it")
                                       : trial->rule ? QStringLiteral("Adopt it after all")
                                       : !written    ? QStringLiteral("Write a house rule")
                                                     : QStringLiteral("Adopt, to be checked at the counter"),
                                       QStringLiteral("adopt"), inside));
  connect(adopt_it, &QPushButton::clicked, this, &RuleBlock::show_adopt_form);
  if (stands && !trial->rule->counter_checked)
    connect(add(outlined_button(QStringLiteral("Checked at the counter"), QStringLiteral("counter_checked"), inside)),
            &QPushButton::clicked, this, [this, rule = *trial->rule]() mutable {
              rule.counter_checked = true;
              adopt(std::move(rule));
            });
  if (!trial->rule && written)
    connect(add(quiet_button(QStringLiteral("Leave it"), QStringLiteral("leave_rule"), inside)), &QPushButton::clicked,
            this, &RuleBlock::show_leave_form);
  acts->addStretch(1);
  down->addLayout(acts);
}

void RuleBlock::put_form(QWidget* form) {
  auto* holder = layout();
  if (auto* old = holder->takeAt(0)) {
    old->widget()->hide();
    old->widget()->deleteLater();
    delete old;
  }
  holder->addWidget(form);
  form->show();
}

void RuleBlock::show_adopt_form() {
  const auto trial = session_.trial();
  if (!trial) return;
  auto* form = new AdoptForm(*trial, this);
  put_form(form);
  connect(form, &AdoptForm::left, this, &RuleBlock::fill);
  connect(form, &AdoptForm::adopted, this, [this, form] {
    if (!form->complete()) return;
    const auto done = session_.run(AdoptRule{form->rule()});
    if (!done)
      form->refuse(done.error());
    else if (*done == 0)
      fill();  // nothing had changed, so nothing was announced
  });
  if (auto* first = form->findChild<QLineEdit*>(QStringLiteral("adopt_from"))) first->setFocus();
}

void RuleBlock::show_leave_form() {
  const auto trial = session_.trial();
  if (!trial) return;
  auto* form = new LeaveForm(*trial, this);
  put_form(form);
  connect(form, &LeaveForm::left, this, &RuleBlock::fill);
  connect(form, &LeaveForm::decided, this, [this, form] {
    if (!form->complete()) return;
    if (const auto done = session_.run(AdoptRule{form->rule()}); !done) form->refuse(done.error());
  });
  if (auto* first = form->findChild<QLineEdit*>(QStringLiteral("leave_why"))) first->setFocus();
}

void RuleBlock::adopt(AdoptedRule rule) {
  const auto done = session_.run(AdoptRule{std::move(rule)});
  if (done || !said_) return;
  said_->setText(text(wording::sentence(done.error())));
  said_->show();
}

}  // namespace likeleaf::ui
