#include "ui/taste/guess_page.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

GuessPage::GuessPage(TasterPort& port, QWidget* parent) : QWidget(parent), port_(port) {
  const Tokens& t = tokens();
  setFocusPolicy(Qt::ClickFocus);
  setAccessibleName(QStringLiteral("Two questions after the lock"));
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(200, 56, 200, 28);
  down->setSpacing(16);
  const auto row = [&](std::initializer_list<std::pair<QPushButton**, const char*>> buttons) {
    auto* across = new QHBoxLayout;
    across->setSpacing(12);
    for (const auto& [button, name] : buttons) {
      *button = new QuietButton({}, QuietButton::Look::outlined, this);
      (*button)->setObjectName(QLatin1String(name));
      (*button)->setCheckable(true);
      (*button)->setMinimumHeight(48);
      across->addWidget(*button, 1);
    }
    down->addLayout(across);
  };
  down->addWidget(plain_label(QStringLiteral("Locked. Two questions, for the record of blinding only"),
                              face(22, Weight::semi_bold), t.ink, this));
  down->addWidget(plain_label(QStringLiteral("Could you see a difference between the cups?"), face(17), t.ink, this));
  row({{&yes_, "saw_yes"}, {&no_, "saw_no"}});
  down->addSpacing(12);
  down->addWidget(
      plain_label(QStringLiteral("Did you think you knew which was which? Which cup was the house’s way as now?"),
                  face(17), t.ink, this));
  row({{&left_, "guess_left"}, {&none_, "guess_none"}, {&right_, "guess_right"}});
  yes_->setText(QStringLiteral("yes (Y)"));
  no_->setText(QStringLiteral("no (N)"));
  none_->setText(QStringLiteral("↓ no idea"));
  message_ = plain_label({}, face(15), t.caution, this);
  message_->setObjectName(QStringLiteral("guess_message"));
  down->addWidget(message_);
  down->addStretch(1);
  keep_ = new QuietButton(QStringLiteral("Keep and rest"), QuietButton::Look::filled, this);
  keep_->setObjectName(QStringLiteral("guess_keep"));
  keep_->setMinimumHeight(44);
  down->addWidget(keep_, 0, Qt::AlignRight);
  const auto saw = [this](bool yes) {
    saw_ = yes;
    show_now();
  };
  const auto which = [this](std::optional<Side> side) {
    which_ = side;
    show_now();
  };
  connect(yes_, &QPushButton::clicked, this, [saw] { saw(true); });
  connect(no_, &QPushButton::clicked, this, [saw] { saw(false); });
  connect(left_, &QPushButton::clicked, this, [which] { which(Side::left); });
  connect(none_, &QPushButton::clicked, this, [which] { which(std::nullopt); });
  connect(right_, &QPushButton::clicked, this, [which] { which(Side::right); });
  connect(keep_, &QPushButton::clicked, this, &GuessPage::keep);
}

void GuessPage::show_pair(const BlindServing& serving) {
  serving_ = serving.id;
  saw_.reset();
  which_.reset();
  message_->clear();
  left_->setText(QStringLiteral("← %1, left").arg(QString::fromStdString(serving.left.text())));
  right_->setText(QStringLiteral("%1, right →").arg(QString::fromStdString(serving.right.text())));
  show_now();
  setFocus();
}

void GuessPage::show_now() {
  yes_->setChecked(saw_ == true);
  no_->setChecked(saw_ == false);
  left_->setChecked(which_ && *which_ == Side::left);
  right_->setChecked(which_ && *which_ == Side::right);
  none_->setChecked(which_ && !*which_);
}

void GuessPage::keep() {
  if (!saw_ || !which_) {
    message_->setText(QStringLiteral("Answer both questions first; “no” and “no idea” are answers too."));
    return;
  }
  const auto kept_it = port_.guess(serving_, Guess{*saw_, *which_});
  if (kept_it)
    emit kept();
  else
    message_->setText(QString::fromStdString(wording::sentence(kept_it.error())));
}

void GuessPage::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Y:
      return yes_->click();
    case Qt::Key_N:
      return no_->click();
    case Qt::Key_Left:
    case Qt::Key_BracketLeft:
      return left_->click();
    case Qt::Key_Right:
    case Qt::Key_BracketRight:
      return right_->click();
    case Qt::Key_Down:
      return none_->click();
    case Qt::Key_Return:
    case Qt::Key_Enter:
      return keep();
    default:
      QWidget::keyPressEvent(event);
  }
}

}  // namespace likeleaf::ui
