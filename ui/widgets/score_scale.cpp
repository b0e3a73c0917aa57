#include "ui/widgets/score_scale.h"

#include <QAccessibleWidget>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "core/domain/attribute.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr int top = 20;  ///< half points at the end of the scale

class ScaleAccess final : public QAccessibleWidget, public QAccessibleValueInterface {
 public:
  explicit ScaleAccess(ScoreScale* scale) : QAccessibleWidget(scale, QAccessible::Slider) {}
  void* interface_cast(QAccessible::InterfaceType type) override {
    if (type == QAccessible::ValueInterface) return static_cast<QAccessibleValueInterface*>(this);
    return QAccessibleWidget::interface_cast(type);
  }
  QString text(QAccessible::Text what) const override {
    return what == QAccessible::Value ? scale()->shown() : QAccessibleWidget::text(what);
  }
  QVariant currentValue() const override {
    const auto halves = scale()->halves();
    return halves ? QVariant(*halves / 2.0) : QVariant();
  }
  void setCurrentValue(const QVariant& value) override {
    bool number = false;
    const double points = value.toDouble(&number);
    if (number) scale()->ask_halves(static_cast<int>(std::lround(std::clamp(points, 0.0, 10.0) * 2)));
  }
  QVariant maximumValue() const override { return 10.0; }
  QVariant minimumValue() const override { return 0.0; }
  QVariant minimumStepSize() const override { return 0.5; }

 private:
  [[nodiscard]] ScoreScale* scale() const { return static_cast<ScoreScale*>(widget()); }
};

QAccessibleInterface* scale_access(const QString&, QObject* object) {
  auto* scale = qobject_cast<ScoreScale*>(object);
  return scale ? new ScaleAccess(scale) : nullptr;
}

double number_width(ScoreScale::Size size) {
  return size == ScoreScale::Size::band ? 44 : 66;
}

}  // namespace

ScoreScale::ScoreScale(Side side, QWidget* parent) : QWidget(parent), side_(side) {
  static const bool installed = (QAccessible::installFactory(scale_access), true);
  Q_UNUSED(installed)
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  set_size(Size::small);
}

void ScoreScale::set_name(const QString& name) {
  setAccessibleName(name);
}

void ScoreScale::set_size(Size size) {
  size_ = size;
  setFixedHeight(size == Size::large ? 64 : size == Size::band ? 32 : 36);
  update();
}

void ScoreScale::set_mark(const std::optional<Mark>& mark) {
  if (mark == mark_) return;
  mark_ = mark;
  QAccessibleValueChangeEvent event(this, shown());
  QAccessible::updateAccessibility(&event);
  update();
}

void ScoreScale::set_open(bool open, bool by_tab) {
  open_ = open;
  setFocusPolicy(!open ? Qt::NoFocus : by_tab ? Qt::StrongFocus : Qt::ClickFocus);
  setCursor(open ? Qt::PointingHandCursor : Qt::ArrowCursor);
  update();
}

void ScoreScale::set_veiled(bool veiled) {
  veiled_ = veiled;
  update();
}

QString ScoreScale::shown() const {
  if (!mark_ || veiled_) return QStringLiteral("–");
  return QString::fromStdString(mark_text(*mark_, decimal_mark_));
}

std::optional<int> ScoreScale::halves() const {
  if (!mark_ || veiled_) return std::nullopt;
  const auto* score = std::get_if<Score>(&*mark_);
  return score ? std::optional(score->halves()) : std::nullopt;
}

void ScoreScale::set_keep(Keep keep) {
  if (keep == keep_) return;
  keep_ = keep;
  setAccessibleDescription(keep == Keep::failed ? QStringLiteral("not kept yet") : QString());
  update();
}

void ScoreScale::set_ends(const QString& low, const QString& high) {
  low_ = low;
  high_ = high;
}

QRectF ScoreScale::track() const {
  const double number = number_width(size_);
  const double from = side_ == Side::left ? number : 0;
  return {from + 1, 2, width() - number - 2, height() - (size_ == Size::large ? 24.0 : 8.0)};
}

QPoint ScoreScale::place_of(int halves) const {
  const QRectF t = track();
  const double part = t.width() * halves / top;
  return {static_cast<int>(std::lround(side_ == Side::left ? t.right() - part : t.left() + part)), height() / 2};
}

void ScoreScale::paint_track(QPainter& p, const QRectF& line) const {
  const Tokens& t = tokens();
  const bool large = size_ == Size::large, band = size_ == Size::band;
  const auto at = [&](double halves) {
    const double part = line.width() * halves / top;
    return side_ == Side::left ? line.right() - part : line.left() + part;
  };
  const double band_top = height() / 2.0 - 5;
  if (band) {
    p.fillRect(QRectF(line.left(), band_top, line.width(), 10), t.band);
  } else {
    p.setPen(QPen(t.line, 1));
    p.drawLine(QPointF(line.left(), line.bottom()), QPointF(line.right(), line.bottom()));
    if (open_)
      for (int h = 0; h <= top; ++h)
        p.drawLine(QPointF(at(h), line.bottom()), QPointF(at(h), line.bottom() - (h % 2 ? 4 : 8)));
  }
  if (const auto now = halves(); now && *now > 0) {
    QColor ink = keep_ == Keep::kept ? t.ink : t.soft_ink;
    ink.setAlphaF(large ? 0.88F : 0.56F);
    const double thick = large ? 21 : band ? 10 : 11;
    const double y = band ? band_top : line.bottom() - thick - 9;
    p.setPen(Qt::NoPen);
    p.setBrush(ink);
    p.drawRoundedRect(QRectF(std::min(at(0), at(*now)), y, std::abs(at(*now) - at(0)), thick), 2, 2);
  }
  if (!large || !open_) return;
  p.setPen(t.soft_ink);
  p.setFont(face(13));
  const QRectF under(line.left(), line.bottom() + 3, line.width(), 18);
  const bool left = side_ == Side::left;
  p.drawText(under, static_cast<int>(left ? Qt::AlignRight : Qt::AlignLeft), low_);
  p.drawText(under, static_cast<int>(left ? Qt::AlignLeft : Qt::AlignRight), high_);
}

void ScoreScale::paint_number(QPainter& p, const QRectF& line) const {
  const Tokens& t = tokens();
  const bool large = size_ == Size::large, band = size_ == Size::band, left = side_ == Side::left;
  const auto aligned = static_cast<int>((left ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  const double number = number_width(size_) - 14, high = large ? height() - 16 : height() - 2;
  const QRectF words = left ? QRectF(0, 0, number, high) : QRectF(width() - number, 0, number, high);
  const bool seen = mark_ && !veiled_;
  const bool unscored = seen && std::holds_alternative<NoScore>(*mark_);
  p.setPen(!seen ? t.soft_ink : keep_ == Keep::failed ? t.caution : keep_ == Keep::waiting ? t.soft_ink : t.ink);
  p.setFont(!seen ? face(band ? 15 : 19) : large ? face(30, Weight::bold) : band ? face(15) : face(19, Weight::medium));
  p.drawText(words, aligned, unscored ? QStringLiteral("×") : shown());
  if (unscored && !band) {
    p.setFont(face(15));
    p.drawText(line.adjusted(4, 0, -4, -9), aligned, shown());
  }
  if (seen && keep_ == Keep::failed) {
    // Not by colour alone: a mark of its own at the outer edge.
    p.setFont(face(15, Weight::bold));
    p.drawText(QRectF(left ? 0 : width() - 8, 0, 8, high), Qt::AlignCenter, QStringLiteral("!"));
  }
  if (hasFocus()) p.fillRect(QRectF(words.left(), large ? high - 1 : height() - 3, words.width(), 3), t.action);
}

void ScoreScale::paintEvent(QPaintEvent*) {
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  const QRectF line = track();
  paint_track(p, line);
  paint_number(p, line);
}

void ScoreScale::ask_halves(int halves) {
  if (!open_) return;
  const auto score = Score::from_halves(halves);
  if (score && mark_ != std::optional<Mark>(*score)) emit mark_wanted(Mark(*score));
}

void ScoreScale::type_digit(int digit) {
  if (typed_.endsWith(QLatin1Char('.'))) {
    // "7.5" typed out in full is 7 and a half; "7.0" is 7; "7.3" is not on this scale.
    const int whole = typed_.chopped(1).toInt();
    if (digit == 5 || digit == 0) {
      ask_halves(whole * 2 + (digit == 5 ? 1 : 0));
      typed_.clear();
    } else {
      const QString wrong = typed_ + QString::number(digit);
      typed_.clear();
      emit refused(wrong);
    }
    return;
  }
  // After a 1 digits join: 1 and 0 is ten, 1 and 1 is eleven and not on this scale. After any other a digit corrects
  // it.
  if (typed_ == QStringLiteral("1")) {
    const QString joined = typed_ + QString::number(digit);
    if (digit == 0) {
      typed_ = joined;
      ask_halves(top);
    } else {
      typed_.clear();
      emit refused(joined);
    }
    return;
  }
  typed_ = QString::number(digit);
  ask_halves(digit * 2);
}

void ScoreScale::type_half() {
  if (typed_.endsWith(QLatin1Char('.'))) return;
  const int whole = typed_.isEmpty() ? halves().value_or(0) / 2 : typed_.toInt();
  if (whole >= 10) {
    emit refused(QStringLiteral("10.5"));
    return;
  }
  typed_ = QString::number(whole) + QLatin1Char('.');
  ask_halves(whole * 2 + 1);
}

void ScoreScale::keyPressEvent(QKeyEvent* event) {
  const QString text = event->text();
  const QChar key = text.isEmpty() ? QChar() : text.at(0).toLower();
  const auto unscored = [&](NoScore answer) {
    typed_.clear();
    emit mark_wanted(Mark(answer));
  };
  const bool plain = !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
  if (!open_ || !plain) return QWidget::keyPressEvent(event);
  if (key >= QLatin1Char('0') && key <= QLatin1Char('9')) return type_digit(key.digitValue());
  if (key == QLatin1Char('.') || key == QLatin1Char(',')) return type_half();
  if (key == QLatin1Char('c')) return unscored(NoScore::could_not_judge);
  if (key == QLatin1Char('n')) return unscored(NoScore::not_tasted);
  if (key == QLatin1Char('s')) return unscored(NoScore::spoilt);
  if (event->key() == Qt::Key_Backspace || event->key() == Qt::Key_Delete) {
    typed_.clear();
    emit mark_wanted(std::nullopt);
    return;
  }
  if (event->key() == Qt::Key_Up || event->key() == Qt::Key_Down) {
    typed_.clear();
    ask_halves(std::clamp(halves().value_or(0) + (event->key() == Qt::Key_Up ? 1 : -1), 0, top));
    return;
  }
  QWidget::keyPressEvent(event);
}

void ScoreScale::ask_at(double x) {
  const QRectF t = track();
  const double part = (side_ == Side::left ? t.right() - x : x - t.left()) / t.width();
  typed_.clear();
  ask_halves(std::clamp(static_cast<int>(std::lround(part * top)), 0, top));
}

void ScoreScale::mousePressEvent(QMouseEvent* event) {
  if (!open_ || event->button() != Qt::LeftButton) return event->ignore();
  ask_at(event->position().x());
}

void ScoreScale::mouseMoveEvent(QMouseEvent* event) {
  if (open_ && (event->buttons() & Qt::LeftButton)) ask_at(event->position().x());
}

void ScoreScale::wheelEvent(QWheelEvent* event) {
  if (!open_) return event->ignore();
  wheel_ += event->angleDelta().y();
  const int steps = wheel_ / 120;
  wheel_ -= steps * 120;
  event->accept();
  if (steps == 0) return;
  typed_.clear();
  if (focusPolicy() != Qt::NoFocus) setFocus(Qt::MouseFocusReason);
  ask_halves(std::clamp(halves().value_or(0) + steps, 0, top));
}

void ScoreScale::focusInEvent(QFocusEvent* event) {
  typed_.clear();
  QWidget::focusInEvent(event);
  update();
  emit focused();
}

void ScoreScale::focusOutEvent(QFocusEvent* event) {
  typed_.clear();
  QWidget::focusOutEvent(event);
  update();
}

}  // namespace likeleaf::ui
