#include "ui/widgets/verdict_mark.h"

#include <QPainter>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

VerdictMark::VerdictMark(evidence::Word word, QWidget* parent) : QWidget(parent), word_(word) {
  setFixedSize(sizeHint());
  static constexpr const char* names[] = {"Moved", "Held", "Depends", "Open", "Also noted"};
  setAccessibleName(QString::fromLatin1(names[static_cast<int>(word)]));
}

void VerdictMark::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  const Tokens& t = tokens();
  const QRectF dot(5, 5, 12, 12);
  p.setPen(QPen(t.ink, 1.6));
  switch (word_) {
    case evidence::Word::moved:
      p.setBrush(t.ink);
      p.drawEllipse(dot);
      break;
    case evidence::Word::held:
      p.fillRect(QRectF(1, 8, 20, 7), t.ink);
      break;
    case evidence::Word::depends:
      p.drawEllipse(dot);
      p.setBrush(t.ink);
      p.drawPie(dot, 90 * 16, 180 * 16);
      break;
    case evidence::Word::open:
      p.drawEllipse(dot);
      break;
    case evidence::Word::noted:
      p.setPen(QPen(t.soft_ink, 1.6));
      p.drawLine(QPointF(11, 6), QPointF(11, 16));
      break;
  }
}

}  // namespace likeleaf::ui
