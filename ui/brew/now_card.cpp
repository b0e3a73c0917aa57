#include "ui/brew/now_card.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"
#include "ui/widgets/clock_face.h"

namespace likeleaf::ui {

using namespace brewing;

NowCard::NowCard(const Style& style, QWidget* parent) : QFrame(parent), style_(style) {
  dress_as_card(this);
  const Tokens& t = tokens();
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(24, 10, 24, 10);
  auto* left = new QVBoxLayout;
  left->addStretch(1);
  brew_ = label({}, face(15), t.soft_ink, this);
  brew_->setObjectName(QStringLiteral("now_brew"));
  act_ = label({}, face(40, Weight::semi_bold), t.ink, this);
  act_->setObjectName(QStringLiteral("now_act"));
  act_->setWordWrap(false);
  task_ = label({}, face(24, Weight::semi_bold), t.ink, this);
  task_->setObjectName(QStringLiteral("now_recipe"));
  task_->setWordWrap(false);
  hint_ = label({}, face(15), t.soft_ink, this);
  for (auto* l : {brew_, act_, task_, hint_}) left->addWidget(l);
  left->addStretch(1);
  across->addLayout(left, 1);
  auto* right = new QVBoxLayout;
  right->addStretch(1);
  face_ = new ClockFace(this);
  face_->setObjectName(QStringLiteral("clock"));
  face_of_ = label({}, face(15), t.soft_ink, this);
  face_of_->setObjectName(QStringLiteral("clock_of"));
  face_of_->setAlignment(Qt::AlignRight);
  right->addWidget(face_);
  right->addWidget(face_of_);
  right->addStretch(1);
  across->addLayout(right, 1);
}

void NowCard::show_brew(const Trial& trial, const Brew& brew, const Moment& now, bool keyed) {
  const Plan& plan = trial.sealed->plan;
  const UsualTimes usual = usual_times(trial);
  const Stamp* last = last_stamp(brew);
  brew_->setText(QStringLiteral("now · brew %1").arg(brew.number));
  act_->setText(text(wording::phase_name(last)));
  hint_->setText(text(wording::phase_hint(last)));
  show_task(keyed ? task_of_now(plan, brew, usual, now) : BenchTask());
  face_->show_time(text(wording::clock_words(last ? elapsed(counted_from(brew, *last), now) : Duration(0))));
  face_of_->setText(last ? text(wording::clock_caption(plan, brew, *last, usual, keyed))
                         : QStringLiteral("starts with the pour"));
}

void NowCard::show_all_ready(int sitting) {
  brew_->setText(QStringLiteral("sitting %1").arg(sitting));
  act_->setText(QStringLiteral("All ready"));
  task_->hide();
  hint_->setText(QStringLiteral("serve the pairs, then pour away what stands"));
  face_->show_time({});
  face_of_->clear();
}

/// To be read from two metres.
void NowCard::show_task(const BenchTask& task) {
  task_->setText(text(wording::task_text(task, style_)));
  task_->setVisible(!task_->text().isEmpty());
  const auto* drain = std::get_if<DrainAt>(&task);
  QPalette colours = task_->palette();
  colours.setColor(QPalette::WindowText, drain && drain->due() ? tokens().caution : tokens().ink);
  task_->setPalette(colours);
}

}  // namespace likeleaf::ui
