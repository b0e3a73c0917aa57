#include "ui/taste/pair_foot.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include "core/domain/attribute.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

PairFoot::PairFoot(QWidget* parent) : QFrame(parent) {
  const Tokens& t = tokens();
  setObjectName(QStringLiteral("foot"));
  setStyleSheet(QStringLiteral("QFrame#foot{border-top:1px solid %1}").arg(t.line.name()));
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 7, 28, 7);
  across->setSpacing(12);
  keys_ = new KeyHints(this);
  todo_ = plain_label({}, face(15), t.soft_ink, this);
  todo_->setObjectName(QStringLiteral("todo"));
  todo_->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
  undo_ = new QuietButton(QStringLiteral("undo"), QuietButton::Look::bare, this);
  undo_->setObjectName(QStringLiteral("undo"));
  undo_->setToolTip(QStringLiteral("Ctrl+Z: take back the last entry on this sheet"));
  undo_->setMinimumHeight(44);
  // The place of a button that goes for a moment stays empty, so that nothing jumps under the hand.
  QSizePolicy stays = undo_->sizePolicy();
  stays.setRetainSizeWhenHidden(true);
  undo_->setSizePolicy(stays);
  group_ = make_unscored();
  onward_ = new QuietButton({}, QuietButton::Look::filled, this);
  onward_->setObjectName(QStringLiteral("onward"));
  onward_->setMinimumHeight(44);
  across->addWidget(keys_);
  across->addWidget(todo_, 1);
  across->addWidget(undo_);
  across->addWidget(group_);
  across->addWidget(onward_);
  connect(undo_, &QPushButton::clicked, this, &PairFoot::undo_wanted);
  connect(onward_, &QPushButton::clicked, this, &PairFoot::onward_wanted);
}

QWidget* PairFoot::make_unscored() {
  const Tokens& t = tokens();
  auto* group = new QFrame(this);
  group->setObjectName(QStringLiteral("unscored"));
  group->setStyleSheet(QStringLiteral("QFrame#unscored{border:1px solid %1;border-radius:6px;background:%2}")
                           .arg(t.action.name(), t.sheet.name()));
  auto* row = new QHBoxLayout(group);
  row->setContentsMargins(6, 1, 6, 1);
  row->setSpacing(0);
  static constexpr std::array letters{"C", "N", "S"};
  for (const NoScore answer : {NoScore::could_not_judge, NoScore::not_tasted, NoScore::spoilt}) {
    const auto i = static_cast<std::size_t>(answer);
    auto* button = new QuietButton(QString::fromStdString(mark_text(answer)), QuietButton::Look::link, group);
    button->setObjectName(QStringLiteral("unscored_%1").arg(i));
    button->setToolTip(QString::fromLatin1(letters[i]) + QStringLiteral(": for the field in hand"));
    button->setMinimumHeight(40);
    connect(button, &QPushButton::clicked, this, [this, answer] { emit unscored_wanted(answer); });
    if (i > 0) row->addWidget(plain_label(QStringLiteral("·"), face(15), t.action, group));
    row->addWidget(button);
    unscored_[i] = button;
  }
  return group;
}

void PairFoot::set_todo(const QString& words) {
  todo_->setText(words);
}

void PairFoot::set_onward(const QString& words) {
  onward_->setText(words);
}

void PairFoot::set_undo(bool possible) {
  undo_->setVisible(possible);
}

void PairFoot::set_unscored(bool possible) {
  group_->setVisible(possible);
}

}  // namespace likeleaf::ui
