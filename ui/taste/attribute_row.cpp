#include "ui/taste/attribute_row.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

QString answer_text(Direct answer) {
  switch (answer) {
    case Direct::left_more:
      return QStringLiteral("left more");
    case Direct::right_more:
      return QStringLiteral("right more");
    case Direct::cannot_tell:
      break;
  }
  return QStringLiteral("can’t tell");
}

}  // namespace

AttributeRow::AttributeRow(const Attribute& attribute, char decimal_mark, QWidget* parent)
    : QWidget(parent), attribute_(attribute) {
  const Tokens& t = tokens();
  const QString id = QString::fromStdString(attribute.id);
  setObjectName(QStringLiteral("row_") + id);
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 0, 28, 0);
  across->setSpacing(12);
  left_ = new ScoreScale(Side::left, this);
  right_ = new ScoreScale(Side::right, this);
  for (auto* scale : {left_, right_}) {
    scale->setObjectName((scale == left_ ? QStringLiteral("left_") : QStringLiteral("right_")) + id);
    scale->set_decimal_mark(decimal_mark);
  }
  auto* middle = new QWidget(this);
  auto* down = new QVBoxLayout(middle);
  down->setContentsMargins(0, 3, 0, 3);
  down->setSpacing(1);
  QString name = QString::fromStdString(attribute.name);
  if (!attribute.house_word.empty()) name += QStringLiteral(" · ") + QString::fromStdString(attribute.house_word);
  name_ = plain_label(name, face(15, Weight::medium), t.ink, middle);
  definition_ = plain_label(QString::fromStdString(attribute.definition), face(15), t.soft_ink, middle);
  said_ = plain_label({}, face(15), t.soft_ink, middle);
  answers_ = new QWidget(middle);
  auto* buttons = new QHBoxLayout(answers_);
  buttons->setContentsMargins(0, 2, 0, 2);
  buttons->setSpacing(6);
  for (const Direct one : {Direct::left_more, Direct::cannot_tell, Direct::right_more}) {
    auto* button = new QuietButton(answer_text(one), QuietButton::Look::outlined, answers_);
    button->setFocusPolicy(Qt::NoFocus);  // the row itself takes the keys
    button->setObjectName(QStringLiteral("answer_%1_%2").arg(id).arg(static_cast<int>(one)));
    button->setAccessibleName(name + QStringLiteral(": ") + answer_text(one));
    connect(button, &QPushButton::clicked, this, [this, one] { emit answer_wanted(one); });
    buttons->addWidget(button);
  }
  for (auto* label : {name_, definition_, said_}) {
    label->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
    down->addWidget(label);
  }
  down->addWidget(answers_, 0, Qt::AlignHCenter);
  across->addWidget(left_, 426);
  across->addWidget(middle, 372);
  across->addWidget(right_, 426);
  for (auto* scale : {left_, right_}) connect(scale, &ScoreScale::focused, this, &AttributeRow::focused);
  lay_out();
}

void AttributeRow::lay_out() {
  const bool asked = comparing_ && attribute_.direct;
  const auto size = current_ ? ScoreScale::Size::large : ScoreScale::Size::small;
  left_->set_size(size);
  right_->set_size(size);
  name_->setFont(current_ ? face(17, Weight::semi_bold) : face(15, Weight::medium));
  definition_->setVisible(current_);
  answers_->setVisible(current_ && asked);
  said_->setText(answer_ ? answer_text(*answer_) : QString());
  said_->setVisible(asked && answer_ && !current_);
  for (auto* button : answers_->findChildren<QPushButton*>()) {
    const bool given = answer_ && button->objectName().endsWith(QString::number(static_cast<int>(*answer_)));
    button->setCheckable(true);
    button->setChecked(given);
  }
  setFixedHeight(current_ ? (asked ? 122 : 80) : asked && answer_ ? 46 : 36);
  setFocusPolicy(asked ? Qt::StrongFocus : Qt::NoFocus);
  setAccessibleName(asked ? QStringLiteral("%1: %2").arg(
                                name_->text(), answer_ ? answer_text(*answer_) : QStringLiteral("no answer yet"))
                          : name_->text());
  update();
}

void AttributeRow::set_current(bool current) {
  if (current == current_) return;
  current_ = current;
  lay_out();
}

void AttributeRow::set_comparing(bool comparing) {
  comparing_ = comparing;
  lay_out();
}

void AttributeRow::set_answer(const std::optional<Direct>& answer) {
  answer_ = answer;
  lay_out();
}

void AttributeRow::paintEvent(QPaintEvent*) {
  if (!current_) return;
  const Tokens& t = tokens();
  QPainter p(this);
  p.fillRect(rect(), t.sheet);
  p.setPen(t.line);
  p.drawLine(0, 0, width(), 0);
  p.drawLine(0, height() - 1, width(), height() - 1);
}

void AttributeRow::keyPressEvent(QKeyEvent* event) {
  if (!comparing_ || !attribute_.direct) return event->ignore();
  switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_BracketLeft:
      emit answer_wanted(Direct::left_more);
      return;
    case Qt::Key_Right:
    case Qt::Key_BracketRight:
      emit answer_wanted(Direct::right_more);
      return;
    case Qt::Key_Down:
      emit answer_wanted(Direct::cannot_tell);
      return;
    case Qt::Key_Backspace:
      emit answer_wanted(std::nullopt);
      return;
    default:
      event->ignore();
  }
}

void AttributeRow::mousePressEvent(QMouseEvent* event) {
  if (focusPolicy() != Qt::NoFocus)
    setFocus(Qt::MouseFocusReason);
  else
    QWidget::mousePressEvent(event);
}

void AttributeRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  emit focused();
}

}  // namespace likeleaf::ui
