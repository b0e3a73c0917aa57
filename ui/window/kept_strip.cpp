#include "ui/window/kept_strip.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>

#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {

KeptStrip::KeptStrip(QWidget* parent) : QWidget(parent) {
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 8, 28, 8);
  across->setSpacing(12);
  words_ = label({}, face(15, Weight::medium), tokens().caution, this);
  words_->setObjectName(QStringLiteral("not_kept"));
  retry_ = outlined_button(QStringLiteral("Try &again"), QStringLiteral("retry"), this);
  close_ = outlined_button(QStringLiteral("Close without it"), QStringLiteral("close_anyway"), this);
  across->addWidget(words_, 1);
  across->addWidget(retry_);
  across->addWidget(close_);
  connect(retry_, &QPushButton::clicked, this, &KeptStrip::retry_wanted);
  connect(close_, &QPushButton::clicked, this, &KeptStrip::close_wanted);
  hide();
}

void KeptStrip::show_not_kept(const QString& why, bool closing) {
  const QString words = QStringLiteral("Not kept on disk: what you entered last stands on screen alone. ") + why;
  close_->setVisible(closing);
  show();
  // An alert is read out: once for each refusal.
  if (said_ == why) return;
  said_ = why;
  words_->setText(words);
  words_->setAccessibleName(words);
  QAccessibleEvent alert(words_, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
}

void KeptStrip::clear() {
  words_->clear();
  said_.reset();
  hide();
}

void KeptStrip::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.fillRect(rect(), tokens().band);
  p.fillRect(QRect(0, 0, 6, height()), tokens().caution);
}

}  // namespace likeleaf::ui
