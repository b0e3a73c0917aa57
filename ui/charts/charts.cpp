#include "ui/charts/charts.h"

#include <QAreaSeries>
#include <QBuffer>
#include <QCategoryAxis>
#include <QChart>
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
#include <algorithm>
#include <cmath>

namespace likeleaf::ui {
namespace {

using evidence::Word;
using report::Axis;
using report::Figure;

template <class... F>
struct Overload : F... {
  using F::operator()...;
};
template <class... F>
Overload(F...) -> Overload<F...>;

constexpr double row_height = 28;
constexpr double frame_height = 92;  // ticks, ends of the axis, margins
constexpr int label_width = 150;     // rows are named by our own text: an axis cannot set some names bold

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

// A chart being built: its two axes stand before any series, and series paint in the order added.
struct Canvas {
  QChart* chart;
  QCategoryAxis* x;
  QCategoryAxis* y;

  void add(QAbstractSeries* series) const {
    chart->addSeries(series);
    series->attachAxis(x);
    series->attachAxis(y);
  }
  void segment(double x0, double y0, double x1, double y1, const QColor& color, double width) const {
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
  auto* x = new QCategoryAxis;
  x->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  x->setStartValue(axis.low);
  x->setRange(axis.low, axis.high);
  for (const auto& tick : axis.ticks) x->append(text(tick.label), tick.at);
  x->setGridLineVisible(false);
  x->setLinePenColor(t.line);
  x->setLabelsColor(t.soft_ink);
  x->setLabelsFont(face(12));
  auto* y = new QCategoryAxis;
  y->setLabelsPosition(QCategoryAxis::AxisLabelsPositionOnValue);
  y->setStartValue(-0.6);
  y->setRange(-0.6, rows - 0.4);
  y->setGridLineVisible(false);
  y->setLineVisible(false);
  y->setLabelsVisible(false);
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

void draw_row(const Canvas& c, const report::IntervalRow& row, double at, const Axis& axis, const Tokens& t) {
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
      if (!row.interval) c.segment(est, at - 0.12, est, at + 0.12, ink, 9);
      break;
    case Word::depends:
      c.dot(est, at, split_fill(t), t.ink, 13);
      break;
    case Word::open:
      c.dot(est, at, t.sheet, t.ink, 13);
      break;
    case Word::noted:
      c.segment(est, at - 0.14, est, at + 0.14, ink, 1.8);
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
  c.segment(0, -0.6, 0, n - 0.4, t.line.darker(120), 1.2);
  for (int i = 0; i < n; ++i)
    if (rows[i]) draw_row(c, *rows[i], n - 1 - i, plot.axis, t);
  return c.chart;
}

QChart* make(const report::PairedPlot& plot, const Tokens& t) {
  const int n = static_cast<int>(plot.rows.size());
  const Canvas c = canvas(plot.axis, n, t);
  for (int i = 0; i < n; ++i) {
    const auto& row = plot.rows[i];
    const double at = n - 1 - i, a = clamped(row.a, plot.axis), b = clamped(row.b, plot.axis);
    c.segment(a, at, b, at, t.line.darker(115), 3);
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
};

std::vector<RowName> row_names(const Figure& figure) {
  std::vector<RowName> out;
  std::visit(Overload{[&](const report::IntervalPlot& p) {
                        bool noted = false;
                        for (const auto& r : p.rows) {
                          if (!r.deciding && !noted && !out.empty())
                            out.push_back({QStringLiteral("also noted"), false, true});
                          noted = noted || !r.deciding;
                          out.push_back({text(r.label), r.deciding, !r.deciding});
                        }
                      },
                      [&](const report::PairedPlot& p) {
                        for (const auto& r : p.rows) out.push_back({text(r.label), false, false});
                      },
                      [&](const report::RegisterPlot& p) {
                        for (const auto& r : p.rows) out.push_back({text(r.label), false, false});
                      }},
             figure.data);
  return out;
}

struct Ends {
  QString low, middle, high;
  bool shapes = false;  ///< the two levels' shapes stand before their names
};

Ends ends_of(const Figure& figure) {
  return std::visit(Overload{[](const report::IntervalPlot& p) {
                               return Ends{text(p.axis.low_end), text(p.axis.middle), text(p.axis.high_end), false};
                             },
                             [](const report::PairedPlot& p) {
                               return Ends{text("● " + p.a_label), {}, text("◆ " + p.b_label), true};
                             },
                             [](const report::RegisterPlot& p) {
                               return Ends{text("upper bar: " + p.a_label), {}, text("lower bar: " + p.b_label), true};
                             }},
                    figure.data);
}

QString title_of(const Figure& figure) {
  return std::visit([](const auto& p) { return text(p.title); }, figure.data);
}

}  // namespace

QSizeF figure_size(const Figure& figure, double width) {
  const double each = std::holds_alternative<report::PairedPlot>(figure.data) ? 25 : row_height;
  return {width, frame_height + each * std::max<double>(1, static_cast<double>(row_names(figure).size()))};
}

void paint_figure(QPainter& painter, const Figure& figure, const QRectF& target, QSizeF size, const Tokens& t) {
  QGraphicsScene scene;
  scene.setSceneRect(QRectF(QPointF(), size));
  QChart* chart = std::visit([&](const auto& plot) { return make(plot, t); }, figure.data);
  scene.addItem(chart);
  constexpr double title_height = 28, ends_height = 26;
  chart->setPos(0, title_height);
  chart->resize(size.width(), size.height() - title_height - ends_height);
  const auto put = [&](const QString& s, const QFont& font, const QColor& color) {
    auto* item = scene.addSimpleText(s, font);
    item->setBrush(color);
    return item;
  };
  put(title_of(figure), face(14, Weight::semi_bold), t.ink)->setPos(8, 4);
  const QRectF plot = chart->plotArea().translated(0, title_height);
  const auto names = row_names(figure);
  for (std::size_t i = 0; i < names.size(); ++i) {
    auto* item = put(names[i].name, face(13, names[i].strong ? Weight::semi_bold : Weight::regular),
                     names[i].soft ? t.soft_ink : t.ink);
    // Row i stands at n − 1 − i on an axis from −0.6 to n − 0.4.
    const double share = (0.6 + static_cast<double>(i)) / (static_cast<double>(names.size()) + 0.2);
    const QRectF box = item->boundingRect();
    item->setPos(plot.left() - 12 - box.width(), plot.top() + plot.height() * share - box.height() / 2);
  }
  const double y = size.height() - ends_height;
  const Ends ends = ends_of(figure);
  auto* low = put(ends.low, face(12, Weight::semi_bold), t.level_a_text);
  low->setPos(plot.left() - (ends.shapes ? 0 : 8), y);
  auto* high = put(ends.high, face(12, Weight::semi_bold), t.level_b_text);
  high->setPos(
      ends.shapes ? plot.left() + low->boundingRect().width() + 24 : plot.right() - high->boundingRect().width() + 8,
      y);
  if (!ends.middle.isEmpty()) {
    auto* middle = put(ends.middle, face(12), t.soft_ink);
    const auto& axis = std::get<report::IntervalPlot>(figure.data).axis;
    const double zero = plot.left() + plot.width() * (0 - axis.low) / (axis.high - axis.low);
    middle->setPos(zero - middle->boundingRect().width() / 2, y);
  }
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
    generator.setTitle(title_of(figure));
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
