#include "ui/widgets/clock_face.h"

#include <QPainter>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

ClockFace::ClockFace(QWidget* parent) : QWidget(parent) {
  setAccessibleName(QStringLiteral("clock"));
}

void ClockFace::show_time(const QString& time) {
  if (time == time_) return;
  time_ = time;
  setAccessibleName(QStringLiteral("clock ") + time);
  update();
}

void ClockFace::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.setPen(tokens().ink);
  QFont font = face(84, Weight::semi_bold);
  // Hours do not fit at full size.
  const double wide = QFontMetricsF(font).horizontalAdvance(time_);
  if (wide > width()) font.setPixelSize(static_cast<int>(84 * width() / wide));
  p.setFont(font);
  p.drawText(rect(), Qt::AlignRight | Qt::AlignVCenter, time_);
}

}  // namespace likeleaf::ui
