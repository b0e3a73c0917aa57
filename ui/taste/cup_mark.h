#pragma once
// A cup as seen from above with its code, and the flight's places as dashes.
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

class Dashes final : public QWidget {
 public:
  explicit Dashes(QWidget* parent) : QWidget(parent) { setFixedHeight(12); }
  void set(int place, int of) {
    place_ = place;
    of_ = of;
    setFixedWidth(std::min(of, 12) * 26 + 16);
    update();
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const Tokens& t = tokens();
    QPainter p(this);
    p.setRenderHint(QPainter::Antialiasing);
    p.setPen(Qt::NoPen);
    double x = 0;
    const double each = (width() - 16.0) / std::max(1, of_);
    for (int i = 1; i <= of_; ++i) {
      const double wide = each - 8 + (i == place_ ? 14 : 0);
      p.setBrush(i < place_ ? t.ink : i == place_ ? t.action : t.line);
      p.drawRoundedRect(QRectF(x, 2, wide, 8), 4, 4);
      x += wide + 8;
    }
  }

 private:
  int place_ = 0, of_ = 1;
};

}  // namespace likeleaf::ui
