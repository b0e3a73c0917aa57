#include "ui/charts/charts.h"

#include <QAreaSeries>
#include <QBuffer>
#include <QChart>
#include <QFontMetricsF>
#include <QGraphicsScene>
#include <QGraphicsSimpleTextItem>
#include <QImage>
#include <QLegend>
#include <QLineSeries>
#include <QLinearGradient>
#include <QPainter>
#include <QRegularExpression>
#include <QScatterSeries>
#include <QSvgGenerator>
#include <QValueAxis>
#include <algorithm>
#include <cmath>

#include "core/base/overload.h"
#include "core/base/terminal_text.h"

namespace likeleaf::ui {
namespace {

using evidence::Word;
using report::Axis;
using report::Figure;

constexpr double row_height = 28, part_height = 24, paired_height = 25;
constexpr double title_height = 28, tick_height = 24, ends_height = 24;
constexpr double frame_height = title_height + tick_height + ends_height + 16;
// Rows, ticks and ends are our own text: an axis of the library cannot set some names bold, and shortens ticks to dots
// where it thinks that they do not fit.
constexpr int label_width = 150;
constexpr double small = 13;  // the smallest text of a chart

// A control character in a name makes a picture that no reader of XML takes.
QString picture_text(const std::string& s) {
  return QString::fromStdString(terminal_line(s));
}

// A chart being built: its two axes stand before any series, and series paint in the order added.
struct Canvas {
  QChart* chart;
  QValueAxis* x;
  QValueAxis* y;

  void add(QAbstractSeries* series) const {
    chart->addSeries(series);
    series->attachAxis(x);
    series->attachAxis(y);
  }
  void segment(double x0, double y0, double x1, double y1, const QColor& color, double width) const {
    if (x0 == x1 && y0 == y1) return;  // a line of no length is a broken path in a PDF
    QPen pen(color, width);
    pen.setCapStyle(Qt::FlatCap);
    auto* s = new QLineSeries;
    s->append(x0, y0);
    s->append(x1, y1);
    s->setPen(pen);
    add(s);
  }
  void band(double x0, double x1, double y0, double y1, const QColor& fill) const {
    auto* upper = new QLineSeries(chart);
    auto* lower = new QLineSeries(chart);
    upper->append(x0, y1);
    upper->append(x1, y1);
    lower->append(x0, y0);
    lower->append(x1, y0);
    auto* area = new QAreaSeries(upper, lower);
    area->setBrush(fill);
    area->setPen(Qt::NoPen);
    add(area);
  }
  void dot(double at, double y_at, const QBrush& fill, const QColor& edge, double size,
           QScatterSeries::MarkerShape shape = QScatterSeries::MarkerShapeCircle) const {
    auto* s = new QScatterSeries;
    s->append(at, y_at);
    s->setMarkerShape(shape);
    s->setMarkerSize(size);
    s->setBrush(fill);
    s->setPen(QPen(edge, 2));
    add(s);
  }
};

Canvas canvas(const Axis& axis, int rows, const Tokens& t) {
  auto* chart = new QChart;
  chart->setAnimationOptions(QChart::NoAnimation);
  chart->setBackgroundRoundness(0);
  chart->setBackgroundBrush(t.sheet);
  chart->setBackgroundPen(Qt::NoPen);
  chart->legend()->hide();
  chart->setMargins(QMargins(label_width, 4, 14, 4));
  const auto bare = [](double low, double high) {
    auto* one = new QValueAxis;
    one->setRange(low, high);
    one->setGridLineVisible(false);
    one->setLabelsVisible(false);
    one->setLineVisible(false);
    return one;
  };
  auto* x = bare(axis.low, axis.high);
  auto* y = bare(-0.6, rows - 0.4);
  chart->addAxis(x, Qt::AlignBottom);
  chart->addAxis(y, Qt::AlignLeft);
  return {chart, x, y};
}

double clamped(double v, const Axis& axis) {
  return std::clamp(v, axis.low, axis.high);
}

QBrush split_fill(const Tokens& t) {
  QLinearGradient g(0, 0, 1, 0);
  g.setCoordinateMode(QGradient::ObjectMode);
  g.setColorAt(0, t.ink);
  g.setColorAt(0.499, t.ink);
  g.setColorAt(0.501, t.sheet);
  g.setColorAt(1, t.sheet);
  return g;
}

// `tick` is half the height of an upright, in rows: a chart of one row must not make a pole of it.
void draw_row(const Canvas& c, const report::IntervalRow& row, double at, const Axis& axis, double tick,
              const Tokens& t) {
  const QColor ink = row.deciding ? t.ink : t.soft_ink;
  const bool bar = row.word == Word::held;
  if (row.interval) {
    const double low = clamped(row.interval->low, axis), high = clamped(row.interval->high, axis);
    c.segment(low, at, high, at, ink, bar ? 9 : row.deciding ? 2 : 1.4);
  }
  const double est = clamped(row.estimate, axis);
  switch (row.word) {
    case Word::moved:
      c.dot(est, at, t.ink, t.ink, 13);
      break;
    case Word::held:
      if (!row.interval) c.segment(est, at - tick, est, at + tick, ink, 9);
      break;
    case Word::depends:
      c.dot(est, at, split_fill(t), t.ink, 13);
      break;
    case Word::open:
      c.dot(est, at, t.sheet, t.ink, 13);
      break;
    case Word::noted:
      c.segment(est, at - tick, est, at + tick, ink, 1.8);
      break;
  }
}

QChart* make(const report::IntervalPlot& plot, const Tokens& t) {
  // Deciding rows, a line "also noted", then the rest.
  std::vector<const report::IntervalRow*> rows;
  bool noted = false;
  for (const auto& row : plot.rows) {
    if (!row.deciding && !noted && !rows.empty()) rows.push_back(nullptr);
    noted = noted || !row.deciding;
    rows.push_back(&row);
  }
  const int n = static_cast<int>(rows.size());
  const Canvas c = canvas(plot.axis, n, t);
  if (plot.one_margin)
    c.band(clamped(-plot.rows.front().margin, plot.axis), clamped(plot.rows.front().margin, plot.axis), -0.6, n - 0.4,
           t.band);
  else
    for (int i = 0; i < n; ++i)
      if (rows[i] && rows[i]->deciding)
        c.band(clamped(-rows[i]->margin, plot.axis), clamped(rows[i]->margin, plot.axis), n - 1 - i - 0.45,
               n - 1 - i + 0.45, t.band);
  QColor zero = t.soft_ink;  // between the band and the ink, on light and on dark paper
  zero.setAlpha(110);
  c.segment(0, -0.6, 0, n - 0.4, zero, 1.2);
  for (int i = 0; i < n; ++i)
    if (rows[i]) draw_row(c, *rows[i], n - 1 - i, plot.axis, std::min(0.14, 0.03 * n), t);
  return c.chart;
}

QChart* make(const report::PairedPlot& plot, const Tokens& t) {
  const int n = static_cast<int>(plot.rows.size());
  const Canvas c = canvas(plot.axis, n, t);
  for (int i = 0; i < n; ++i) {
    const auto& row = plot.rows[i];
    const double at = n - 1 - i, a = clamped(row.a, plot.axis), b = clamped(row.b, plot.axis);
    QColor between = t.soft_ink;
    between.setAlpha(110);
    c.segment(a, at, b, at, between, 3);
    c.dot(a, at, t.level_a, t.level_a, 11);
    c.dot(b, at, t.level_b, t.level_b, 11, QScatterSeries::MarkerShapeRotatedRectangle);
  }
  return c.chart;
}

QChart* make(const report::RegisterPlot& plot, const Tokens& t) {
  const int n = static_cast<int>(plot.rows.size());
  const Canvas c = canvas(plot.axis, n, t);
  for (int i = 0; i < n; ++i) {
    const double at = n - 1 - i;
    c.band(0, clamped(plot.rows[i].a, plot.axis), at + 0.03, at + 0.3, t.level_a);
    c.band(0, clamped(plot.rows[i].b, plot.axis), at - 0.3, at - 0.03, t.level_b);
  }
  return c.chart;
}

struct RowName {
  QString name;
  bool strong = false, soft = false;
  QString part;  ///< stands beside the chart when set; the name then stands once for all its parts
};

std::vector<RowName> interval_names(const report::IntervalPlot& plot) {
  std::vector<RowName> out;
  bool noted = false;
  for (const auto& r : plot.rows) {
    if (!r.deciding && !noted && !out.empty()) out.push_back({QStringLiteral("also noted"), false, true, {}});
    noted = noted || !r.deciding;
    const bool again = !r.part.empty() && &r != &plot.rows.front() && (&r - 1)->label == r.label;
    out.push_back({again ? QString() : picture_text(r.label), r.deciding, !r.deciding, picture_text(r.part)});
  }
  return out;
}

std::vector<RowName> row_names(const Figure& figure) {
  std::vector<RowName> out;
  std::visit(Overload{[&](const report::IntervalPlot& p) { out = interval_names(p); },
                      [&](const auto& p) {
                        for (const auto& r : p.rows) out.push_back({picture_text(r.label), false, false, {}});
                      }},
             figure.data);
  return out;
}

struct Ends {
  QString low, middle, high;
  bool shapes = false;  ///< the two levels' shapes stand before their names
};

Ends ends_of(const Figure& figure) {
  return std::visit(
      Overload{
          [](const report::IntervalPlot& p) {
            return Ends{picture_text(p.axis.low_end), picture_text(p.axis.middle), picture_text(p.axis.high_end),
                        false};
          },
          [](const report::PairedPlot& p) {
            return Ends{picture_text("● " + p.a_label), {}, picture_text("◆ " + p.b_label), true};
          },
          [](const report::RegisterPlot& p) {
            return Ends{picture_text("upper bar: " + p.a_label), {}, picture_text("lower bar: " + p.b_label), true};
          }},
      figure.data);
}

QString title_of(const Figure& figure) {
  return std::visit([](const auto& p) { return picture_text(p.title); }, figure.data);
}

}  // namespace

QSizeF figure_size(const Figure& figure, double width) {
  const auto names = row_names(figure);
  const bool parts = std::ranges::any_of(names, [](const RowName& n) { return !n.part.isEmpty(); });
  const double each = std::holds_alternative<report::PairedPlot>(figure.data) ? paired_height
                      : parts                                                 ? part_height
                                                                              : row_height;
  return {width, frame_height + each * std::max<double>(1, static_cast<double>(names.size()))};
}

namespace {

// Everything around the plot that is written, in the scene's own pixels.
class Lettering {
 public:
  Lettering(QGraphicsScene& scene, const QRectF& plot, double width, const Tokens& t)
      : scene_(scene), plot_(plot), width_(width), t_(t) {}

  void title(const QString& words) { put(words, face(14, Weight::semi_bold), t_.ink, width_ - 16)->setPos(8, 4); }

  void rows(const std::vector<RowName>& names) {
    for (std::size_t i = 0; i < names.size(); ++i) {
      const RowName& row = names[i];
      const QFont font = face(small, row.strong ? Weight::semi_bold : Weight::regular);
      const QColor color = row.soft ? t_.soft_ink : t_.ink;
      // Row i stands at n − 1 − i on an axis from −0.6 to n − 0.4.
      const double share = (0.6 + static_cast<double>(i)) / (static_cast<double>(names.size()) + 0.2);
      const double middle = plot_.top() + plot_.height() * share;
      const QString& beside = row.part.isEmpty() ? row.name : row.part;
      const auto set = [&](QGraphicsSimpleTextItem* item, double x) {
        item->setPos(x, middle - item->boundingRect().height() / 2);
      };
      auto* item = put(beside, row.part.isEmpty() ? font : face(small), color, label_width - 20);
      set(item, plot_.left() - 12 - item->boundingRect().width());
      if (row.part.isEmpty() || row.name.isEmpty()) continue;
      set(put(row.name, font, color, label_width - 28 - item->boundingRect().width()), 8);
    }
  }

  void ticks(const Axis& axis) {
    const double y = plot_.bottom();
    const QPen pen(t_.line, 1);
    scene_.addLine(plot_.left(), y, plot_.right(), y, pen);
    for (const auto& tick : axis.ticks) {
      if (tick.at < axis.low || tick.at > axis.high) continue;
      const double x = at(axis, tick.at);
      scene_.addLine(x, y, x, y + 4, pen);
      auto* item = put(picture_text(tick.label), face(small), t_.soft_ink, width_);
      item->setPos(x - item->boundingRect().width() / 2, y + 5);
    }
  }

  void ends(const Ends& ends, const Axis& axis) {
    const double y = plot_.bottom() + tick_height;
    const double from = ends.shapes ? plot_.left() : plot_.left() - 12, to = std::min(plot_.right() + 12, width_ - 2);
    const QFont strong = face(small, Weight::semi_bold);
    const double zero = at(axis, std::clamp(0.0, axis.low, axis.high));
    const double middle_width = QFontMetricsF(face(small)).horizontalAdvance(ends.middle);
    // Long names of levels give way to the middle, never run into it.
    const double left_room = ends.shapes ? (to - from) / 2 - 12 : zero - middle_width / 2 - 10 - from;
    const double right_room = ends.shapes ? (to - from) / 2 - 12 : to - zero - middle_width / 2 - 10;
    auto* low = put(ends.low, strong, t_.level_a_text, left_room);
    low->setPos(from, y);
    auto* high = put(ends.high, strong, t_.level_b_text, right_room);
    high->setPos(ends.shapes ? from + low->boundingRect().width() + 24 : to - high->boundingRect().width(), y);
    if (ends.middle.isEmpty()) return;
    auto* middle = put(ends.middle, face(small), t_.soft_ink, width_);
    middle->setPos(zero - middle->boundingRect().width() / 2, y);
  }

 private:
  [[nodiscard]] double at(const Axis& axis, double value) const {
    return plot_.left() + plot_.width() * (value - axis.low) / (axis.high - axis.low);
  }
  QGraphicsSimpleTextItem* put(const QString& words, const QFont& font, const QColor& color, double room) {
    auto* item =
        scene_.addSimpleText(QFontMetricsF(font).elidedText(words, Qt::ElideRight, std::max(room, 20.0)), font);
    item->setBrush(color);
    return item;
  }

  QGraphicsScene& scene_;
  QRectF plot_;
  double width_;
  const Tokens& t_;
};

}  // namespace

void paint_figure(QPainter& painter, const Figure& figure, const QRectF& target, QSizeF size, const Tokens& t) {
  QGraphicsScene scene;
  scene.setSceneRect(QRectF(QPointF(), size));
  QChart* chart = std::visit([&](const auto& plot) { return make(plot, t); }, figure.data);
  scene.addItem(chart);
  chart->setPos(0, title_height);
  chart->resize(size.width(), size.height() - title_height - tick_height - ends_height);
  Lettering lettering(scene, chart->plotArea().translated(0, title_height), size.width(), t);
  const Axis& axis = std::visit([](const auto& p) -> const Axis& { return p.axis; }, figure.data);
  lettering.title(title_of(figure));
  lettering.rows(row_names(figure));
  lettering.ticks(axis);
  lettering.ends(ends_of(figure), axis);
  scene.setBackgroundBrush(t.sheet);
  scene.render(&painter, target, scene.sceneRect());
}

QByteArray figure_svg(const Figure& figure, double width, const Tokens& t) {
  const QSizeF size = figure_size(figure, width);
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  {
    QSvgGenerator generator;
    generator.setOutputDevice(&buffer);
    generator.setSize(size.toSize());
    generator.setViewBox(QRectF(QPointF(), size));
    generator.setResolution(96);
    generator.setTitle(title_of(figure).toHtmlEscaped());  // the library escapes what is painted, not this
    QPainter painter(&generator);
    paint_figure(painter, figure, QRectF(QPointF(), size), size, t);
  }
  // The generator writes a group for every state it passes through, most of them empty, and knows only our own face.
  QString svg = QString::fromUtf8(bytes.mid(std::max<qsizetype>(0, bytes.indexOf("<svg"))));
  static const QRegularExpression empty_group(QStringLiteral("<g [^>]*>\\s*</g>\\s*"));
  svg.remove(empty_group);
  svg.replace(QStringLiteral("font-family=\"Likeleaf Sans\""),
              QStringLiteral("font-family=\"Likeleaf Sans, Inter, Noto Sans, sans-serif\""));
  return svg.toUtf8();
}

QByteArray figure_png(const Figure& figure, double width, double scale, const Tokens& t) {
  const QSizeF size = figure_size(figure, width);
  QImage image((size * scale).toSize(), QImage::Format_ARGB32_Premultiplied);
  image.fill(t.sheet);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  paint_figure(painter, figure, QRectF(QPointF(), QSizeF(image.size())), size, t);
  painter.end();
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  image.save(&buffer, "PNG");
  return bytes;
}

}  // namespace likeleaf::ui
