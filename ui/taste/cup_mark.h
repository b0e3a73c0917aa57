#pragma once
// A cup as seen from above with its code.
#include <QPainter>
#include <QWidget>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

class CupMark final : public QWidget {
 public:
  explicit CupMark(QWidget* parent) : QWidget(parent) { setFixedSize(84, 84); }
  void set(const QString& code, const QString& name, bool in_hand) {
    code_ = code;
    in_hand_ = in_hand;
    setAccessibleName(name);
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const Tokens& t = tokens();
    QPainter p(this);
    p.setRenderHint(QPainter::Antialiasing);
    p.setPen(QPen(in_hand_ ? t.ink : t.soft_ink, in_hand_ ? 2.5 : 1.5));
    p.setBrush(t.sheet);
    p.drawEllipse(QRectF(rect()).adjusted(2, 2, -2, -2));
    p.setPen(QPen(t.line, 1.5));
    p.drawEllipse(QRectF(rect()).adjusted(10, 10, -10, -10));
    p.setPen(in_hand_ ? t.ink : t.soft_ink);
    p.setFont(face(24, Weight::bold));
    p.drawText(rect(), static_cast<int>(Qt::AlignCenter), code_);
  }

 private:
  QString code_;
  bool in_hand_ = false;
};

}  // namespace likeleaf::ui
