#include "ui/brew/brew_lanes.h"

#include <QAccessibleWidget>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "core/base/number_text.h"
#include "ui/brew/brew_model.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

/// For screen readers a list whose value is the lane of now; what all lanes hold is its description.
class LanesAccess final : public QAccessibleWidget {
 public:
  explicit LanesAccess(BrewLanes* lanes) : QAccessibleWidget(lanes, QAccessible::List) {}
  [[nodiscard]] QString text(QAccessible::Text what) const override {
    return what == QAccessible::Value ? static_cast<BrewLanes*>(widget())->current_said()
                                      : QAccessibleWidget::text(what);
  }
};

QAccessibleInterface* lanes_access(const QString&, QObject* object) {
  auto* lanes = dynamic_cast<BrewLanes*>(object);
  return lanes ? new LanesAccess(lanes) : nullptr;
}

constexpr double label_width = 168, axis_height = 34, least_right_room = 96;
constexpr std::int64_t stale = 2 * 3'600'000;  // a board looked at hours later is history: no line of now

const char* part_name(LanePart part) {
  switch (part) {
    case LanePart::pour:
      return "pour";
    case LanePart::steep:
      return "steep";
    case LanePart::drain:
      return "drain";
    case LanePart::chill:
      return "chill";
    case LanePart::hold:
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
QColor shade(LanePart part, bool planned) {
  const Tokens& t = tokens();
  static constexpr double share[] = {0.72, 1.0, 0.52, 0.26, 0.13};
  return mixed(t.ink, t.sheet, share[static_cast<int>(part)] * (planned ? 0.45 : 1.0));
}

struct Walk {
  const Plan& plan;
  UsualTimes usual;
  std::int64_t now;    ///< ms from the origin
  std::int64_t hold;   ///< longest hold
  std::int64_t hands;  ///< when the next pour can begin
  bool keyed;          ///< without the key a planned steep must not tell the level: the present way's is drawn for all
};

/// A lane's segments: stamped ones as they were, the rest as they usually go.
std::vector<LaneSegment> segments(const Brew& brew, const Moment* origin, Walk& walk) {
  std::vector<LaneSegment> out;
  std::int64_t at = walk.hands;
  bool still_stamped = true;
  const auto moment = [&](StampKind kind, int infusion) -> std::optional<std::int64_t> {
    const Stamp* s = origin ? standing_stamp(brew, kind, infusion) : nullptr;
    return s ? std::optional(elapsed(*origin, s->at).count()) : std::nullopt;
  };
  // Ends a part at its stamp, else where it usually ends, and not before now when it is under way.
  const auto part = [&](LanePart what, std::optional<std::int64_t> from, std::optional<std::int64_t> to,
                        std::int64_t usual) {
    const std::int64_t start = from.value_or(at);
    const bool planned = !to;
    std::int64_t end = to.value_or(start + usual);
    if (!to && from) end = std::max(end, walk.now);
    // What is under way is drawn as far as it is; the rest of it is still a plan.
    if (planned && from && walk.now > start && end > walk.now) {
      out.push_back({what, start, walk.now, false});
      out.push_back({what, walk.now, end, true});
    } else if (end > start) {
      out.push_back({what, start, end, planned && !(from && end <= walk.now)});
    }
    still_stamped = still_stamped && to.has_value();
    at = std::max(end, start);
  };
  const int count = infusion_count(walk.plan, brew);
  for (int i = 1; i <= count; ++i) {
    const auto ps = moment(StampKind::pour_start, i), pe = moment(StampKind::pour_end, i),
               ds = moment(StampKind::drain_start, i), de = moment(StampKind::drain_end, i);
    const std::int64_t steep =
        asked(walk.plan, ConstantKind::steep_time, walk.keyed ? brew.level : walk.plan.lever.reference(), i)
            .value_or(60'000);
    part(LanePart::pour, ps, pe, walk.usual.pour.count());
    part(LanePart::steep, pe, ds,
         std::max<std::int64_t>(1000, steep - walk.usual.pour.count() / 2 - walk.usual.drain.count() / 2));
    part(LanePart::drain, ds, de, walk.usual.drain.count());
  }
  walk.hands = std::max(walk.hands, at + walk.usual.between.count());
  part(LanePart::chill, moment(StampKind::chill_start, count), moment(StampKind::ready, count),
       walk.usual.chill.count());
  return out;
}

QString said(const QString& label, const Plan& plan, const Brew& brew) {
  const Stamp* last = last_stamp(brew);
  const auto next = next_act(plan, brew);
  QString words = label + QStringLiteral(": ") + (last ? phase_name(last).toLower() : QStringLiteral("not poured"));
  if (last) words += QStringLiteral(" since ") + QString::fromStdString(clock_text(last->at));
  if (next) words += QStringLiteral(", next ") + stamp_name(next->kind).toLower();
  return words;
}

std::int64_t longest_hold(const Plan& plan) {
  const Constant* held = find_constant(plan, ConstantKind::longest_hold);
  return held && held->target ? std::clamp<std::int64_t>(*held->target, 0, stale) : 600'000;
}

/// "lidded, 42 °C" where the plan holds brews so.
QString hold_name(const Plan& plan, const Style& style) {
  const Constant* held = find_constant(plan, ConstantKind::longest_hold);
  const Constant* warm = find_constant(plan, ConstantKind::tasting_temperature);
  if (!held || !warm || !warm->target) return QStringLiteral("hold");
  return QStringLiteral("lidded, ") + QString::fromStdString(temperature_text(Temperature(*warm->target), style));
}

const Moment* first_pour(const std::vector<const Brew*>& brews) {
  const Moment* first = nullptr;
  for (const auto* brew : brews)
    if (const Stamp* s = standing_stamp(*brew, StampKind::pour_start, 1); s && (!first || s->at < *first))
      first = &s->at;
  return first;
}

/// The hold of a pair's lanes ends when it is served; until then it is drawn to the moment when both could be.
void add_holds(const Trial& trial, int sitting, const Moment* origin, const Walk& walk, LaneBoard& board) {
  const auto row = [&](IdOf<Brew> id) {
    const auto found = std::ranges::find(board.lanes, id, &Lane::brew);
    return found == board.lanes.end() ? -1 : static_cast<int>(found - board.lanes.begin());
  };
  for (const auto& pair : pairs_of_sitting(trial, sitting)) {
    const auto keyed = resolve_pair(trial, pair.id);
    if (!keyed) continue;
    const int a = row(keyed->cup_a.brew), b = row(keyed->cup_b.brew);
    if (a < 0 || b < 0) continue;
    const auto served = trial.served.find(pair.id);
    const bool done = served != trial.served.end() && served->second.served && origin;
    const auto ready = [&](int r) {
      const auto& s = board.lanes[static_cast<std::size_t>(r)].segments;
      return s.empty() ? std::int64_t{0} : s.back().to;
    };
    std::int64_t at = std::max(ready(a), ready(b));
    if (done)
      at = elapsed(*origin, *served->second.served).count();
    else if (walk.now > at)
      at = std::min(walk.now, at + walk.hold);
    for (const int r : {a, b}) {
      auto& lane = board.lanes[static_cast<std::size_t>(r)];
      if (!lane.segments.empty() && lane.segments.back().part != LanePart::hold && at > ready(r))
        lane.segments.push_back({LanePart::hold, ready(r), at, !done});
    }
    board.marks.push_back({at, std::min(a, b), std::max(a, b),
                           (done ? QStringLiteral("served ") : QStringLiteral("serve ")) + pair.name});
  }
}

}  // namespace

LaneBoard lane_board(const Trial& trial, int sitting, const Moment& now, bool with_lot, const Style& style) {
  LaneBoard board;
  const Plan& plan = trial.sealed->plan;
  board.hold = hold_name(plan, style);
  const auto brews = brews_of_sitting(trial, sitting);
  const Moment* origin = first_pour(brews);
  const Brew* newest = last_stamped(brews);
  const bool live = !newest || elapsed(last_stamp(*newest)->at, now).count() < stale;
  std::int64_t now_ms = origin ? elapsed(*origin, now).count() : 0;
  if (!live) now_ms = elapsed(*origin, last_stamp(*newest)->at).count();
  Walk walk{plan, usual_times(trial), now_ms, longest_hold(plan), 0, with_lot};
  if (newest) walk.hands = now_ms;
  for (const auto* brew : brews) {
    Lane lane{brew->id, brew->number, QStringLiteral("brew %1").arg(brew->number), {}, {}};
    const Lot* lot = with_lot ? find_record(trial.sealed->registers.lots, brew->lot) : nullptr;
    if (lot) lane.label += QStringLiteral(" · ") + QString::fromStdString(lot->code);
    lane.said = said(lane.label, plan, *brew);
    lane.segments = segments(*brew, origin, walk);
    board.lanes.push_back(std::move(lane));
  }
  // Which brews meet at one table says what a pair is made of: only with the key.
  if (with_lot) add_holds(trial, sitting, origin, walk, board);
  if (live && origin) board.now = now_ms;
  board.end = live ? now_ms : 0;
  for (const auto& lane : board.lanes)
    for (const auto& s : lane.segments) board.end = std::max(board.end, s.to);
  board.end = std::max<std::int64_t>(board.end, 120'000);
  return board;
}

BrewLanes::BrewLanes(QWidget* parent) : QWidget(parent) {
  [[maybe_unused]] static const bool installed = (QAccessible::installFactory(lanes_access), true);
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
    p.drawText(QRectF(x - 50, 2, 100, 24), Qt::AlignCenter, clock_words(Duration(at)));
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
    QString name = s.part == LanePart::hold ? board_.hold : QString::fromLatin1(part_name(s.part));
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
