#include "ui/widgets/key_hints.h"

#include <QPainter>
#include <QStringList>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr int beside_cap = 7, after_word = 13, in_cap = 7, high = 24;

int cap_width(const QString& cap) {
  return QFontMetrics(face(13, Weight::medium)).horizontalAdvance(cap) + 2 * in_cap;
}

int word_width(const QString& word) {
  return QFontMetrics(face(15)).horizontalAdvance(word);
}

}  // namespace

KeyHints::KeyHints(QWidget* parent) : QWidget(parent) {
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void KeyHints::set_hints(const Hints& hints) {
  if (hints == hints_) return;
  hints_ = hints;
  QStringList said;
  for (const auto& [cap, word] : hints_) said << cap + QLatin1Char(' ') + word;
  setAccessibleName(QStringLiteral("Keys: ") + said.join(QStringLiteral(", ")));
  updateGeometry();
  update();
}

QSize KeyHints::sizeHint() const {
  int wide = 0;
  for (const auto& [cap, word] : hints_) wide += cap_width(cap) + beside_cap + word_width(word) + after_word;
  return {wide, high};
}

void KeyHints::paintEvent(QPaintEvent*) {
  const Tokens& t = tokens();
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  double x = 0.5;
  for (const auto& [cap, word] : hints_) {
    const int wide = cap_width(cap);
    const QRectF frame(x, (height() - 20) / 2.0 + 0.5, wide, 19);
    p.setPen(QPen(t.line, 1));
    p.setBrush(t.sheet);
    p.drawRoundedRect(frame, 3, 3);
    p.setPen(t.soft_ink);
    p.setFont(face(13, Weight::medium));
    p.drawText(frame, Qt::AlignCenter, cap);
    x += wide + beside_cap;
    p.setFont(face(15));
    p.drawText(QRectF(x, 0, word_width(word) + 2, height()), Qt::AlignVCenter | Qt::AlignLeft, word);
    x += word_width(word) + after_word;
  }
}

}  // namespace likeleaf::ui
