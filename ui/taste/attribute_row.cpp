#include "ui/taste/attribute_row.h"

#include <QAccessibleWidget>
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

void colour(QLabel* label, const QColor& ink) {
  QPalette palette = label->palette();
  palette.setColor(QPalette::WindowText, ink);
  label->setPalette(palette);
}

/// A group whose value is the direct answer.
class RowAccess final : public QAccessibleWidget {
 public:
  explicit RowAccess(AttributeRow* row) : QAccessibleWidget(row, QAccessible::Grouping) {}
  QString text(QAccessible::Text what) const override {
    return what == QAccessible::Value ? static_cast<AttributeRow*>(widget())->answer_words()
                                      : QAccessibleWidget::text(what);
  }
};

QAccessibleInterface* row_access(const QString&, QObject* object) {
  auto* row = qobject_cast<AttributeRow*>(object);
  return row ? new RowAccess(row) : nullptr;
}

}  // namespace

AttributeRow::AttributeRow(const Attribute& attribute, char decimal_mark, QWidget* parent)
    : QWidget(parent), attribute_(attribute) {
  static const bool installed = (QAccessible::installFactory(row_access), true);
  Q_UNUSED(installed)
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
    scale->set_ends(QString::fromStdString(attribute.low), QString::fromStdString(attribute.high));
  }
  across->addWidget(left_, 426);
  across->addWidget(make_middle(), 372);
  across->addWidget(right_, 426);
  for (auto* scale : {left_, right_}) connect(scale, &ScoreScale::focused, this, &AttributeRow::focused);
  lay_out();
}

QWidget* AttributeRow::make_middle() {
  const Tokens& t = tokens();
  const QString id = QString::fromStdString(attribute_.id);
  auto* middle = new QWidget(this);
  auto* down = new QVBoxLayout(middle);
  down->setContentsMargins(0, 1, 0, 1);
  down->setSpacing(0);
  QString name = QString::fromStdString(attribute_.name);
  if (!attribute_.house_word.empty()) name += QStringLiteral(" · ") + QString::fromStdString(attribute_.house_word);
  name_ = plain_label(name, face(15, Weight::medium), t.ink, middle);
  definition_ = plain_label(QString::fromStdString(attribute_.definition), face(15), t.soft_ink, middle);
  message_ = plain_label({}, face(15), t.caution, middle);
  message_->setObjectName(QStringLiteral("message_") + id);
  said_ = plain_label({}, face(15), t.soft_ink, middle);
  answers_ = new QWidget(middle);
  auto* buttons = new QHBoxLayout(answers_);
  buttons->setContentsMargins(0, 3, 0, 0);
  buttons->setSpacing(6);
  for (const Direct one : {Direct::left_more, Direct::cannot_tell, Direct::right_more}) {
    auto* button = new QuietButton(answer_text(one), QuietButton::Look::outlined, answers_);
    choices_[static_cast<int>(one)] = button;
    button->setFocusPolicy(Qt::NoFocus);  // the row itself takes the keys
    button->setCheckable(true);
    button->setMinimumHeight(40);
    button->setObjectName(QStringLiteral("answer_%1_%2").arg(id).arg(static_cast<int>(one)));
    button->setAccessibleName(name + QStringLiteral(": ") + answer_text(one));
    connect(button, &QPushButton::clicked, this, [this, one] { emit answer_wanted(one); });
    buttons->addWidget(button);
  }
  down->addStretch(1);
  for (auto* label : {name_, definition_, message_, said_}) {
    label->setAlignment(Qt::AlignHCenter | Qt::AlignVCenter);
    down->addWidget(label);
  }
  down->addWidget(answers_, 0, Qt::AlignHCenter);
  down->addStretch(1);
  return middle;
}

QString AttributeRow::answer_words() const {
  return answer_ ? answer_text(*answer_) : QStringLiteral("no answer yet");
}

void AttributeRow::lay_out() {
  const bool asked = comparing_ && attribute_.direct && !read_only_;
  const auto size = current_ ? ScoreScale::Size::large : ScoreScale::Size::small;
  left_->set_size(size);
  right_->set_size(size);
  name_->setFont(current_ ? face(17, Weight::semi_bold) : face(15, Weight::medium));
  definition_->setVisible(current_ && message_->text().isEmpty());
  message_->setVisible(current_ && !message_->text().isEmpty());
  answers_->setVisible(current_ && asked);
  said_->setText(!answer_ ? QString() : keep_ == Keep::failed ? QStringLiteral("! ") + answer_words() : answer_words());
  // In soft ink anyway, as the picture has it: an answer on its way is told from a kept one by being fainter still.
  colour(said_, keep_ == Keep::failed ? tokens().caution : keep_ == Keep::waiting ? tokens().soft_ink : tokens().ink);
  const bool says = comparing_ && answer_ && (!current_ || read_only_);
  said_->setVisible(says);
  for (int i = 0; i < 3; ++i) choices_[i]->setChecked(answer_ && static_cast<int>(*answer_) == i);
  setFixedHeight(current_ ? (asked ? 122 : 82) : says ? 41 : 36);
  setFocusPolicy(asked ? Qt::StrongFocus : Qt::NoFocus);
  setAccessibleName(asked ? QStringLiteral("%1, which cup has more").arg(name_->text()) : name_->text());
  setAccessibleDescription(message_->text());
  update();
}

void AttributeRow::set_current(bool current) {
  if (current == current_) return;
  current_ = current;
  if (!current) message_->clear();
  lay_out();
}

void AttributeRow::set_comparing(bool comparing) {
  comparing_ = comparing;
  lay_out();
}

void AttributeRow::set_read_only(bool read_only) {
  read_only_ = read_only;
  lay_out();
}

void AttributeRow::set_answer(const std::optional<Direct>& answer, Keep keep) {
  const bool another = answer != answer_;
  answer_ = answer;
  keep_ = keep;
  lay_out();
  if (!another) return;
  QAccessibleValueChangeEvent event(this, answer_words());
  QAccessible::updateAccessibility(&event);
}

void AttributeRow::set_message(const QString& message) {
  if (message == told_) return;
  told_ = message;
  message_->setText(message);
  lay_out();
}

QString AttributeRow::message() const {
  return told_;
}

void AttributeRow::paintEvent(QPaintEvent*) {
  if (!current_) return;
  const Tokens& t = tokens();
  QPainter p(this);
  p.fillRect(rect(), t.sheet);
  p.setPen(t.line);
  p.drawLine(0, 0, width(), 0);
  p.drawLine(0, height() - 1, width(), height() - 1);
  // The row that has the keys is marked at its edge, as a scale is under its number.
  if (hasFocus()) p.fillRect(QRect(0, 0, 4, height()), t.action);
}

void AttributeRow::keyPressEvent(QKeyEvent* event) {
  if (!comparing_ || !attribute_.direct || read_only_) return event->ignore();
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
    case Qt::Key_Delete:
      emit answer_wanted(std::nullopt);
      return;
    default:
      event->ignore();
  }
}

void AttributeRow::mousePressEvent(QMouseEvent* event) {
  // A finger that misses the scale still takes the row.
  if (focusPolicy() != Qt::NoFocus)
    setFocus(Qt::MouseFocusReason);
  else if (auto* open = left_->open() ? left_ : right_->open() ? right_ : nullptr)
    open->setFocus(Qt::MouseFocusReason);
  else
    QWidget::mousePressEvent(event);
}

void AttributeRow::focusInEvent(QFocusEvent* event) {
  QWidget::focusInEvent(event);
  update();
  emit focused();
}

}  // namespace likeleaf::ui
