#include "ui/widgets/choice_line.h"

#include <QAbstractItemView>
#include <QKeyEvent>
#include <QPainter>
#include <QPainterPath>
#include <QWheelEvent>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr int arrow_room = 20, height_of_a_line = 30, longest = 300;

}  // namespace

ChoiceLine::ChoiceLine(const QString& name, QWidget* parent) : QComboBox(parent) {
  setAccessibleName(name);
  setFont(face(15));
  setFrame(false);
  setMinimumHeight(height_of_a_line);
  setFocusPolicy(Qt::StrongFocus);
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
  setCursor(Qt::PointingHandCursor);
  const Tokens& t = tokens();
  view()->setFont(face(15));
  view()->setStyleSheet(QStringLiteral("QAbstractItemView { background: %1; color: %2; selection-background-color: %3; "
                                       "selection-color: %4; border: 1px solid %5; outline: 0; }")
                            .arg(t.sheet.name(), t.ink.name(), t.action.name(), t.on_action.name(), t.line.name()));
}

QSize ChoiceLine::sizeHint() const {
  int widest = 40;
  for (int i = 0; i < count(); ++i) widest = std::max(widest, fontMetrics().horizontalAdvance(itemText(i)));
  return {std::min(widest, longest) + arrow_room + 6, height_of_a_line};
}

QSize ChoiceLine::minimumSizeHint() const {
  return {std::min(sizeHint().width(), 60), height_of_a_line};
}

void ChoiceLine::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Space:
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_F4:
    case Qt::Key_Up:
    case Qt::Key_Down:
      showPopup();
      event->accept();
      return;
    default:
      event->ignore();
  }
}

void ChoiceLine::wheelEvent(QWheelEvent* event) {
  event->ignore();
}

void ChoiceLine::paintEvent(QPaintEvent*) {
  const Tokens& t = tokens();
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  const QRect room = rect().adjusted(2, 0, -arrow_room, -2);
  p.setPen(isEnabled() ? t.ink : t.soft_ink);
  p.setFont(font());
  p.drawText(room, Qt::AlignVCenter | Qt::AlignLeft,
             fontMetrics().elidedText(currentText(), Qt::ElideRight, room.width()));
  const QPointF middle(width() - arrow_room / 2.0, height() / 2.0);
  QPainterPath arrow;
  arrow.moveTo(middle + QPointF(-4, -2));
  arrow.lineTo(middle + QPointF(0, 2));
  arrow.lineTo(middle + QPointF(4, -2));
  p.setPen(QPen(t.soft_ink, 1.4));
  p.drawPath(arrow);
  p.setRenderHint(QPainter::Antialiasing, false);
  p.setPen(hasFocus() ? QPen(t.action, 2) : QPen(t.line, 1));
  p.drawLine(0, height() - 1, width(), height() - 1);
}

DotTick::DotTick(const QString& text, QWidget* parent) : QCheckBox(text, parent) {
  setFont(face(15));
  setMinimumHeight(height_of_a_line);
  setCursor(Qt::PointingHandCursor);
}

void DotTick::paintEvent(QPaintEvent*) {
  const Tokens& t = tokens();
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  const QRectF dot(2, height() / 2.0 - 6, 12, 12);
  p.setPen(QPen(isChecked() ? t.ink : t.soft_ink, 1.3));
  p.setBrush(isChecked() ? QBrush(t.ink) : QBrush(Qt::NoBrush));
  p.drawEllipse(dot);
  QFont f = font();
  f.setWeight(isChecked() ? QFont::DemiBold : QFont::Normal);
  p.setFont(f);
  p.setPen(t.ink);
  p.drawText(rect().adjusted(22, 0, 0, 0), Qt::AlignVCenter | Qt::AlignLeft,
             QFontMetrics(f).elidedText(text(), Qt::ElideRight, width() - 22));
  if (!hasFocus()) return;
  p.setPen(QPen(t.action, 2));
  p.setBrush(Qt::NoBrush);
  p.drawEllipse(dot.adjusted(-2.5, -2.5, 2.5, 2.5).intersected(QRectF(rect()).adjusted(1, 1, -1, -1)));
}

}  // namespace likeleaf::ui
