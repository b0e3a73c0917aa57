#include "ui/theme/paper_style.h"

#include <QAbstractButton>
#include <QCheckBox>
#include <QPainter>
#include <QPainterPath>
#include <QStyleFactory>
#include <QStyleOption>
#include <algorithm>
#include <utility>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr double corner = 6;
constexpr int scroll_bar_width = 12, target = 36, chevron_room = 28;

bool has(const QStyleOption* option, QStyle::StateFlag flag) {
  return option->state.testFlag(flag);
}

/// Keyboard focus is shown always, focus by mouse only where one types.
bool shows_focus(const QStyleOption* option) {
  return has(option, QStyle::State_HasFocus) && has(option, QStyle::State_KeyboardFocusChange);
}

void outline(QPainter& p, const QRect& r, const QColor& color, double width, const QBrush& fill = Qt::NoBrush) {
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(width > 0 ? QPen(color, width) : QPen(Qt::NoPen));
  p.setBrush(fill);
  const double in = std::max(width / 2, 0.5);
  p.drawRoundedRect(QRectF(r).adjusted(in, in, -in, -in), corner, corner);
}

void underline(QPainter& p, const QRect& r, const QStyleOption* option) {
  const Tokens& t = tokens();
  const bool focus = has(option, QStyle::State_HasFocus), on = has(option, QStyle::State_Enabled);
  const int thick = focus ? 2 : 1;
  p.fillRect(QRect(r.left(), r.bottom() - thick + 1, r.width(), thick), focus ? t.action : on ? t.ink : t.line);
}

void chevron(QPainter& p, const QRectF& r, const QColor& color) {
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(color, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  p.setBrush(Qt::NoBrush);
  const QPointF c = r.center();
  p.drawPolyline(QPolygonF{c + QPointF(-4, -2), c + QPointF(0, 2), c + QPointF(4, -2)});
}

void button_panel(QPainter& p, const QStyleOptionButton& b) {
  const Tokens& t = tokens();
  const bool on = has(&b, QStyle::State_Enabled), filled = b.features.testFlag(QStyleOptionButton::DefaultButton);
  const bool pressed = has(&b, QStyle::State_Sunken) || has(&b, QStyle::State_On);
  if (b.features.testFlag(QStyleOptionButton::Flat)) {
    if (pressed || has(&b, QStyle::State_MouseOver)) outline(p, b.rect, t.band, 0, t.band);
  } else if (filled) {
    outline(p, b.rect, t.action, 0, on ? t.action : t.band);
  } else {
    const bool lit = on && (pressed || has(&b, QStyle::State_MouseOver));
    outline(p, b.rect, on ? t.action : t.line, 1, lit ? QBrush(t.band) : QBrush(Qt::NoBrush));
  }
}

void tick_box(QPainter& p, const QStyleOption& o) {
  const Tokens& t = tokens();
  const bool on = has(&o, QStyle::State_Enabled), ticked = has(&o, QStyle::State_On);
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(on ? t.ink : t.line, shows_focus(&o) ? 2.0 : 1.2));
  p.setBrush(ticked && on ? QBrush(t.action) : QBrush(Qt::NoBrush));
  const QRectF r = QRectF(o.rect).adjusted(1, 1, -1, -1);
  p.drawRoundedRect(r, 3, 3);
  if (!ticked) return;
  p.setPen(QPen(on ? t.on_action : t.line, 2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  const double u = r.width() / 10;
  p.drawPolyline(QPolygonF{r.topLeft() + QPointF(2.3 * u, 5.2 * u), r.topLeft() + QPointF(4.3 * u, 7.2 * u),
                           r.topLeft() + QPointF(7.8 * u, 2.9 * u)});
}

void round_mark(QPainter& p, const QStyleOption& o) {
  const Tokens& t = tokens();
  const bool on = has(&o, QStyle::State_Enabled);
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(QPen(on ? t.ink : t.line, shows_focus(&o) ? 2.0 : 1.2));
  p.setBrush(Qt::NoBrush);
  const QRectF r = QRectF(o.rect).adjusted(1, 1, -1, -1);
  p.drawEllipse(r);
  if (!has(&o, QStyle::State_On)) return;
  p.setPen(Qt::NoPen);
  p.setBrush(on ? t.action : t.line);
  const double in = r.width() * 0.25;
  p.drawEllipse(r.adjusted(in, in, -in, -in));
}

void scroll_bar(QPainter& p, const QStyleOptionSlider& bar, const QRect& handle) {
  if (bar.maximum <= bar.minimum) return;
  const Tokens& t = tokens();
  p.setRenderHint(QPainter::Antialiasing);
  p.setPen(Qt::NoPen);
  const bool lit = has(&bar, QStyle::State_MouseOver) || has(&bar, QStyle::State_Sunken);
  p.setBrush(lit ? t.soft_ink : t.line);
  const QRectF r = QRectF(handle).adjusted(3, 3, -3, -3);
  const double round = std::min(r.width(), r.height()) / 2;
  p.drawRoundedRect(r, round, round);
}

}  // namespace

PaperStyle::PaperStyle() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

void PaperStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                               const QWidget* widget) const {
  const Tokens& t = tokens();
  painter->save();
  switch (element) {
    case PE_PanelButtonCommand:
      if (const auto* b = qstyleoption_cast<const QStyleOptionButton*>(option)) button_panel(*painter, *b);
      break;
    case PE_FrameFocusRect:
      // A button with a sheet of its own has its own sign of focus; a row's is a thin line inside its band.
      if (!qobject_cast<const QAbstractButton*>(widget) || widget->styleSheet().isEmpty() ||
          qobject_cast<const QCheckBox*>(widget))
        outline(*painter, option->rect.adjusted(-2, 0, 2, 0), t.ink, has(option, State_Item) ? 1 : 2);
      break;
    case PE_FrameDefaultButton:
      break;  // the filled panel is sign enough
    case PE_PanelLineEdit:
    case PE_FrameLineEdit:
      if (const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option); frame && frame->lineWidth > 0)
        underline(*painter, option->rect, option);
      break;
    case PE_IndicatorCheckBox:
      tick_box(*painter, *option);
      break;
    case PE_IndicatorRadioButton:
      round_mark(*painter, *option);
      break;
    case PE_PanelItemViewItem:
      if (const auto* item = qstyleoption_cast<const QStyleOptionViewItem*>(option)) {
        const bool chosen = has(item, State_Selected);
        if (chosen || has(item, State_MouseOver)) painter->fillRect(item->rect, t.band);
        const bool first = item->index.column() <= 0;  // a row of cells has one edge
        if (chosen && first)
          painter->fillRect(QRect(item->rect.left(), item->rect.top(), 3, item->rect.height()), t.action);
      }
      break;
    default:
      QProxyStyle::drawPrimitive(element, option, painter, widget);
  }
  painter->restore();
}

void PaperStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                             const QWidget* widget) const {
  const Tokens& t = tokens();
  if (element == CE_PushButtonLabel) {
    if (const auto* b = qstyleoption_cast<const QStyleOptionButton*>(option)) {
      QStyleOptionButton mine = *b;
      const bool filled = b->features.testFlag(QStyleOptionButton::DefaultButton), on = has(b, State_Enabled);
      mine.palette.setColor(QPalette::ButtonText, !on ? t.soft_ink : filled ? t.on_action : t.action);
      QProxyStyle::drawControl(element, &mine, painter, widget);
      return;
    }
  }
  if (element == CE_ItemViewItem) {
    if (const auto* item = qstyleoption_cast<const QStyleOptionViewItem*>(option)) {
      QStyleOptionViewItem mine = *item;  // the chosen row is a band of paper, so its words stay in ink
      mine.palette.setColor(QPalette::HighlightedText, t.ink);
      mine.showDecorationSelected = true;
      QProxyStyle::drawControl(element, &mine, painter, widget);
      return;
    }
  }
  if (element == CE_ComboBoxLabel) {
    if (const auto* combo = qstyleoption_cast<const QStyleOptionComboBox*>(option); combo && !combo->editable) {
      const QRect r = subControlRect(CC_ComboBox, combo, SC_ComboBoxEditField, widget);
      painter->save();
      painter->setPen(has(combo, State_Enabled) ? t.ink : t.soft_ink);
      painter->drawText(r, Qt::AlignVCenter | Qt::AlignLeft,
                        combo->fontMetrics.elidedText(combo->currentText, Qt::ElideRight, r.width()));
      painter->restore();
      return;
    }
  }
  QProxyStyle::drawControl(element, option, painter, widget);
}

void PaperStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                                    const QWidget* widget) const {
  if (control == CC_ComboBox) {
    if (const auto* combo = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
      painter->save();
      if (combo->frame) underline(*painter, combo->rect, combo);
      const QRect arrow = subControlRect(CC_ComboBox, combo, SC_ComboBoxArrow, widget);
      chevron(*painter, arrow, has(combo, State_Enabled) ? tokens().soft_ink : tokens().line);
      painter->restore();
      return;
    }
  }
  if (control == CC_ScrollBar) {
    if (const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option)) {
      painter->save();
      scroll_bar(*painter, *bar, subControlRect(CC_ScrollBar, bar, SC_ScrollBarSlider, widget));
      painter->restore();
      return;
    }
  }
  QProxyStyle::drawComplexControl(control, option, painter, widget);
}

int PaperStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
  switch (metric) {
    case PM_ScrollBarExtent:
      return scroll_bar_width;
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight:
      return 20;
    case PM_CheckBoxLabelSpacing:
    case PM_RadioButtonLabelSpacing:
      return 10;
    case PM_ButtonShiftHorizontal:
    case PM_ButtonShiftVertical:
      return 0;
    default:
      return QProxyStyle::pixelMetric(metric, option, widget);
  }
}

QSize PaperStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                                   const QWidget* widget) const {
  QSize s = QProxyStyle::sizeFromContents(type, option, size, widget);
  if (type == CT_PushButton) s = {s.width() + 12, std::max(s.height(), target)};
  if (type == CT_ComboBox) s = {s.width() + 8, std::max(s.height(), target)};
  if (type == CT_ItemViewItem) s.setHeight(std::max(s.height(), 28));
  if (type == CT_LineEdit || type == CT_CheckBox || type == CT_RadioButton) s.setHeight(std::max(s.height(), 32));
  return s;
}

QRect PaperStyle::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl part,
                                 const QWidget* widget) const {
  if (control == CC_ScrollBar)
    if (const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option)) {
      // No arrows: the groove is the whole bar.
      const bool upright = bar->orientation == Qt::Vertical;
      const int length = upright ? bar->rect.height() : bar->rect.width();
      const auto range = static_cast<std::int64_t>(bar->maximum) - bar->minimum;
      const int handle =
          range > 0 ? std::clamp(static_cast<int>(std::int64_t{length} * bar->pageStep / (range + bar->pageStep)),
                                 std::min(32, length), length)
                    : length;
      const int start =
          sliderPositionFromValue(bar->minimum, bar->maximum, bar->sliderPosition, length - handle, bar->upsideDown);
      const auto piece = [&](int from, int to) {
        return visualRect(
            bar->direction, bar->rect,
            upright ? QRect(0, from, bar->rect.width(), to - from) : QRect(from, 0, to - from, bar->rect.height()));
      };
      switch (part) {
        case SC_ScrollBarAddLine:
        case SC_ScrollBarSubLine:
          return {};
        case SC_ScrollBarGroove:
          return bar->rect;
        case SC_ScrollBarSlider:
          return piece(start, start + handle);
        case SC_ScrollBarSubPage:
          return piece(0, start);
        case SC_ScrollBarAddPage:
          return piece(start + handle, length);
        default:
          break;
      }
    }
  if (control == CC_ComboBox)
    if (const auto* combo = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
      const QRect r = combo->rect;
      if (part == SC_ComboBoxArrow)
        return visualRect(combo->direction, r, QRect(r.right() - chevron_room + 1, r.top(), chevron_room, r.height()));
      if (part == SC_ComboBoxEditField)
        return visualRect(combo->direction, r, QRect(r.left() + 2, r.top(), r.width() - chevron_room - 2, r.height()));
    }
  return QProxyStyle::subControlRect(control, option, part, widget);
}

int PaperStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                          QStyleHintReturn* data) const {
  if (hint == SH_ComboBox_Popup) return 0;  // a list below the blank, not a menu over it
  return QProxyStyle::styleHint(hint, option, widget, data);
}

}  // namespace likeleaf::ui
