#pragma once
// How controls are drawn: flat on paper, blanks with a line under them, thin scroll bars. Sizes and behaviour stay
// Fusion's; only painting and a few measures are ours, so that a screen needs no style sheet for a plain control.
#include <QProxyStyle>

namespace likeleaf::ui {

class PaperStyle final : public QProxyStyle {
  Q_OBJECT
 public:
  PaperStyle();

  void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
  void drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                   const QWidget* widget) const override;
  void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                          const QWidget* widget) const override;
  int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override;
  QSize sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                         const QWidget* widget) const override;
  QRect subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                       const QWidget* widget) const override;
  int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                QStyleHintReturn* data) const override;
};

}  // namespace likeleaf::ui
