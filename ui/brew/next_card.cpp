#include "ui/brew/next_card.h"

#include <QLabel>
#include <QVBoxLayout>

#include "core/wording/brew_text.h"
#include "ui/brew/brew_parts.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {

using namespace brewing;

NextCard::NextCard(const Style& style, QWidget* parent) : QFrame(parent), style_(style) {
  dress_as_card(this);
  const Tokens& t = tokens();
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(18, 14, 18, 12);
  down->setSpacing(4);
  head_ = label({}, face(15), t.soft_ink, this);
  head_->setObjectName(QStringLiteral("next_brew"));
  act_ = label({}, face(24, Weight::semi_bold), t.ink, this);
  act_->setObjectName(QStringLiteral("next_act"));
  recipe_ = label({}, face(15), t.ink, this);
  recipe_->setObjectName(QStringLiteral("recipe"));
  caution_ = label({}, face(15), t.caution, this);
  caution_->setObjectName(QStringLiteral("caution"));
  for (auto* l : {head_, act_, recipe_, caution_}) down->addWidget(l);
  down->addStretch(1);
  setMinimumHeight(176);
}

void NextCard::show_next(const Trial& trial, const std::vector<const Brew*>& brews, const Brew* current,
                         const Moment& now, bool keyed) {
  const Plan& plan = trial.sealed->plan;
  const auto next = upcoming(plan, brews, current);
  if (!next) {
    head_->setText(QStringLiteral("next"));
    act_->setText(QStringLiteral("Serve"));
    recipe_->setText(QStringLiteral("Every brew of this sitting is ready."));
    caution_->clear();
    return;
  }
  const Brew& brew = *next->brew;
  QString when = QStringLiteral("next");
  if (const auto drain = keyed ? drain_at(plan, brew, usual_times(trial), now) : std::nullopt)
    when +=
        drain->due() ? QStringLiteral(", now") : QStringLiteral(", in %1").arg(text(wording::clock_words(drain->left)));
  const Lot* lot = keyed ? find_record(trial.sealed->registers.lots, brew.lot) : nullptr;
  head_->setText(when + QStringLiteral(" · brew %1, portion %2").arg(brew.number).arg(brew.portion) +
                 (lot ? QStringLiteral(" of ") + text(lot->code) : QString()));
  act_->setText(text(wording::act_text(plan, brew, next->act, keyed, style_)));
  recipe_->setText(keyed ? text(wording::recipe_text(plan, brew, next->act.infusion, style_))
                         : QStringLiteral("as the slip of this portion says"));
  caution_->setText(text(wording::act_cautions(next->act.kind, *trial.sealed, style_)));
}

}  // namespace likeleaf::ui
