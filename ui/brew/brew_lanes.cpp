#include "ui/brew/brew_lanes.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "core/wording/brew_text.h"
#include "ui/brew/lanes_access.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr double label_width = 168, axis_height = 34, least_right_room = 96;

const char* part_name(CoursePart part) {
  switch (part) {
    case CoursePart::pour:
      return "pour";
    case CoursePart::steep:
      return "steep";
    case CoursePart::drain:
      return "drain";
    case CoursePart::chill:
      return "chill";
    case CoursePart::hold:
      break;
  }
  return "hold";
}

QColor mixed(const QColor& a, const QColor& b, double share) {
  return QColor::fromRgbF(static_cast<float>(a.redF() * share + b.redF() * (1 - share)),
                          static_cast<float>(a.greenF() * share + b.greenF() * (1 - share)),
                          static_cast<float>(a.blueF() * share + b.blueF() * (1 - share)));
}

/// Relative luminance and the contrast of two colours as WCAG 2.1 defines them.
double luminance(const QColor& c) {
  const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
  return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}
double contrast(const QColor& a, const QColor& b) {
  const double x = luminance(a), y = luminance(b);
  return (std::max(x, y) + 0.05) / (std::min(x, y) + 0.05);
}

/// Ink thins from pour to hold; what is only planned is paler still.
QColor shade(CoursePart part, bool planned) {
  const Tokens& t = tokens();
  static constexpr double share[] = {0.72, 1.0, 0.52, 0.26, 0.13};
  return mixed(t.ink, t.sheet, share[static_cast<int>(part)] * (planned ? 0.45 : 1.0));
}

}  // namespace

BrewLanes::BrewLanes(QWidget* parent) : QWidget(parent) {
  LanesAccess::install();
  setObjectName(QStringLiteral("lanes"));
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName(QStringLiteral("Brews of this sitting"));
}

void BrewLanes::show_board(LaneBoard board, IdOf<Brew> current, bool choosable) {
  const bool other_size = board.lanes.size() != board_.lanes.size();
  board_ = std::move(board);
  current_ = current;
  choosable_ = choosable;
  QStringList words;
  for (const auto& lane : board_.lanes) words << lane.said;
  for (const auto& mark : board_.marks) words << mark.text;
  const QString description = words.join(QStringLiteral("; "));
  if (description != accessibleDescription()) setAccessibleDescription(description);
  // The words of the last mark have their place at the right of the lanes.
  right_room_ = least_right_room;
  const QFontMetrics metrics(face(15, Weight::semi_bold));
  for (const auto& mark : board_.marks)
    right_room_ = std::max(right_room_, 20.0 + metrics.horizontalAdvance(mark.text));
  if (other_size) updateGeometry();
  update();
}

QString BrewLanes::current_said() const {
  const auto found = std::ranges::find(board_.lanes, current_, &Lane::brew);
  return found == board_.lanes.end() ? QString() : found->said;
}

QSize BrewLanes::sizeHint() const {
  return {900, static_cast<int>(axis_height) + 30 * std::max<int>(2, static_cast<int>(board_.lanes.size())) + 10};
}
QSize BrewLanes::minimumSizeHint() const {
  return {500, static_cast<int>(axis_height) + 22 * std::max<int>(2, static_cast<int>(board_.lanes.size())) + 10};
}

double BrewLanes::x_of(std::int64_t ms) const {
  return label_width +
         (width() - label_width - right_room_) * static_cast<double>(ms) / static_cast<double>(board_.end);
}
double BrewLanes::lane_height() const {
  return std::min(42.0,
                  (height() - axis_height - 8) / static_cast<double>(std::max<std::size_t>(1, board_.lanes.size())));
}

void BrewLanes::paint_axis(QPainter& p) const {
  const Tokens& t = tokens();
  static constexpr std::int64_t steps[] = {30'000, 60'000, 120'000, 300'000, 600'000, 900'000, 1'800'000, 3'600'000};
  std::int64_t step = steps[0];
  for (const auto s : steps) {
    step = s;
    if (board_.end / s <= 9) break;
  }
  while (board_.end / step > 12) step *= 2;
  p.setFont(face(15));
  for (std::int64_t at = 0; at <= board_.end; at += step) {
    const double x = x_of(at);
    p.setPen(t.line);
    p.drawLine(QPointF(x, axis_height - 4), QPointF(x, height() - 4));
    p.setPen(t.soft_ink);
    p.drawText(QRectF(x - 50, 2, 100, 24), Qt::AlignCenter, QString::fromStdString(wording::clock_words(Duration(at))));
  }
}

void BrewLanes::paint_lane(QPainter& p, int row) const {
  const Tokens& t = tokens();
  const auto& lane = board_.lanes[static_cast<std::size_t>(row)];
  const double h = lane_height(), top = axis_height + row * h, bar = std::max(12.0, h - 9);
  const bool bold = lane.brew == current_;
  p.setFont(face(15, bold ? Weight::bold : Weight::regular));
  p.setPen(t.ink);
  p.drawText(QRectF(0, top, label_width - 14, h), Qt::AlignRight | Qt::AlignVCenter, lane.label);
  p.setFont(face(bar < 18 ? 13 : 15));
  for (const auto& s : lane.segments) {
    const QRectF box(x_of(s.from), top + (h - bar) / 2, std::max(1.5, x_of(s.to) - x_of(s.from) - 1), bar);
    const QColor fill = shade(s.part, s.planned);
    p.setPen(Qt::NoPen);
    p.setBrush(fill);
    p.drawRoundedRect(box, 2, 2);
    QString name = s.part == CoursePart::hold ? board_.hold : QString::fromLatin1(part_name(s.part));
    if (p.fontMetrics().horizontalAdvance(name) + 8 > box.width()) name = QString::fromLatin1(part_name(s.part));
    if (p.fontMetrics().horizontalAdvance(name) + 8 > box.width() || bar < 13) continue;
    p.setPen(contrast(t.ink, fill) >= contrast(t.sheet, fill) ? t.ink : t.sheet);
    p.drawText(box, Qt::AlignCenter, name);
  }
}

void BrewLanes::paintEvent(QPaintEvent*) {
  const Tokens& t = tokens();
  QPainter p(this);
  p.setRenderHint(QPainter::Antialiasing);
  paint_axis(p);
  for (int row = 0; row < static_cast<int>(board_.lanes.size()); ++row) paint_lane(p, row);
  const double h = lane_height();
  p.setFont(face(15, Weight::semi_bold));
  for (const auto& mark : board_.marks) {
    const double x = x_of(mark.at), top = axis_height + (mark.lane_from + 0.3) * h,
                 bottom = axis_height + (mark.lane_to + 0.7) * h;
    p.setPen(QPen(t.action, 3));
    p.drawLine(QPointF(x, top), QPointF(x, bottom));
    const double wide = p.fontMetrics().horizontalAdvance(mark.text);
    const bool left = x + 8 + wide > width();
    const QRectF box(left ? x - 8 - wide : x + 8, (top + bottom) / 2 - 11, wide + 2, 22);
    p.fillRect(box, QColor(t.sheet.red(), t.sheet.green(), t.sheet.blue(), 215));
    p.drawText(box, Qt::AlignVCenter, mark.text);
  }
  if (board_.now) {
    p.setPen(QPen(t.caution, 2));
    p.drawLine(QPointF(x_of(*board_.now), axis_height - 8), QPointF(x_of(*board_.now), height() - 4));
  }
  if (hasFocus()) {
    p.setPen(QPen(t.action, 2));
    p.setBrush(Qt::NoBrush);
    p.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
  }
}

void BrewLanes::choose(int row) {
  if (!choosable_ || row < 0 || row >= static_cast<int>(board_.lanes.size())) return;
  emit chosen(QString::fromStdString(board_.lanes[static_cast<std::size_t>(row)].brew.text()));
}

void BrewLanes::mousePressEvent(QMouseEvent* event) {
  if (event->button() == Qt::LeftButton && event->position().y() >= axis_height)
    choose(static_cast<int>((event->position().y() - axis_height) / lane_height()));
}

void BrewLanes::keyPressEvent(QKeyEvent* event) {
  const auto found = std::ranges::find(board_.lanes, current_, &Lane::brew);
  const int row = found == board_.lanes.end() ? -1 : static_cast<int>(found - board_.lanes.begin());
  if (event->key() == Qt::Key_Down)
    choose(std::min(row + 1, static_cast<int>(board_.lanes.size()) - 1));
  else if (event->key() == Qt::Key_Up)
    choose(std::max(row - 1, 0));
  else
    QWidget::keyPressEvent(event);
}

}  // namespace likeleaf::ui
