#include "ui/widgets/clock_face.h"

#include <QPainter>
#include <QPainterPath>
#include <cmath>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

ClockFace::ClockFace(QWidget* parent, Qt::Alignment side) : QWidget(parent), side_(side) {
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
  p.setRenderHint(QPainter::Antialiasing);
  QFont font = face(84, Weight::semi_bold);
  // Hours do not fit at full size.
  const double wide = QFontMetricsF(font).horizontalAdvance(time_);
  if (wide > width()) font.setPixelSize(static_cast<int>(84 * width() / wide));
  // As outlines, unhinted, on whole pixels: large glyphs come out of Qt's cache with other edges than they went in
  // with, and two grabs of one screen must be the same.
  font.setHintingPreference(QFont::PreferNoHinting);
  const QFontMetricsF metrics(font);
  const double x = side_ & Qt::AlignLeft ? 0 : width() - metrics.horizontalAdvance(time_);
  QPainterPath outline;
  outline.addText(std::round(x), std::round((height() + metrics.capHeight()) / 2), font, time_);
  p.fillPath(outline, tokens().ink);
}

}  // namespace likeleaf::ui
