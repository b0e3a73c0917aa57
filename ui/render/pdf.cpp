#include "ui/render/pdf.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QTextLayout>
#include <algorithm>
#include <functional>
#include <memory>
#include <utility>
#include <vector>

#include "ui/charts/charts.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

template <class... F>
struct Overload : F... {
  using F::operator()...;
};
template <class... F>
Overload(F...) -> Overload<F...>;

QString text(const std::string& s) {
  return QString::fromStdString(s);
}

// Where a flow paints: the painter stands on the first page already; next() puts it on a new one.
struct Sheets {
  QPainter& painter;
  double scale = 1;  ///< device pixels for one pixel of a 96-dpi page
  std::function<void()> next;
};

// Paints blocks down a page in 96-dpi pixels. Pages are counted by running the same flow once without ink: the painter
// then draws into a throw-away device, so that both runs break pages alike. Text is always measured on the writer, so
// that a page on screen breaks its lines where the printed one does.
class Flow {
 public:
  Flow(QPdfWriter& writer, Sheets sheets, const report::Document& document, int pages)
      : writer_(writer), sheets_(std::move(sheets)), document_(document), pages_(pages), painter_(sheets_.painter) {
    const double measured = writer.resolution() / 96.0;
    painter_.scale(sheets_.scale, sheets_.scale);
    const QRectF full(0, 0, writer.width() / measured, writer.height() / measured);
    left_ = 58;
    right_ = full.width() - 58;
    top_ = 92;
    bottom_ = full.height() - 78;
    foot_ = full.height() - 56;
    y_ = top_;
    start_page();
  }

  int run() {
    for (std::size_t i = 0; i < document_.blocks.size(); ++i) {
      keep_with_next_ =
          i + 1 < document_.blocks.size() && std::holds_alternative<report::Heading>(document_.blocks[i]) ? 120 : 0;
      std::visit([this](const auto& block) { paint(block); }, document_.blocks[i]);
    }
    return page_;
  }

 private:
  struct Laid {
    std::unique_ptr<QTextLayout> layout;
    double height = 0, width = 0;
  };

  Laid lay(const QString& s, const QFont& font, double width, double leading = 1.38,
           Qt::Alignment align = Qt::AlignLeft) {
    Laid out;
    out.layout = std::make_unique<QTextLayout>(s, font, &writer_);
    // Font metrics on the writer are in its own units; the layout is done at 96 dpi through a scaled font instead.
    QTextOption option(align);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    out.layout->setTextOption(option);
    const double k = writer_.resolution() / 96.0;
    out.layout->beginLayout();
    double y = 0;
    for (QTextLine line = out.layout->createLine(); line.isValid(); line = out.layout->createLine()) {
      line.setLineWidth(width * k);
      line.setPosition(QPointF(0, y));
      y += font.pixelSize() * leading;
      out.width = std::max(out.width, line.naturalTextWidth() / k);
    }
    out.layout->endLayout();
    out.height = y / k;
    return out;
  }

  QFont sized(double pixels, Weight weight = Weight::regular) const {
    QFont font = face(pixels, weight);
    font.setPixelSize(qRound(pixels * writer_.resolution() / 96.0));
    return font;
  }

  void draw(const Laid& laid, double x, double y, const QColor& color) {
    const double k = writer_.resolution() / 96.0;
    painter_.save();
    painter_.translate(x, y);
    painter_.scale(1 / k, 1 / k);
    painter_.setPen(color);
    laid.layout->draw(&painter_, QPointF(0, 0));
    painter_.restore();
  }

  // Long text breaks between lines only at a page's foot when it alone is longer than a page; else it moves as a whole.
  double put(const QString& s, const QFont& font, const QColor& color, double x, double width, double leading = 1.38) {
    const Laid laid = lay(s, font, width, leading);
    need(laid.height);
    draw(laid, x, y_, color);
    y_ += laid.height;
    return laid.height;
  }

  void need(double height) {
    if (y_ + height <= bottom_ || y_ <= top_ + 1) return;
    new_page();
  }

  void start_page() {
    const Tokens& t = light_tokens();
    const QFont small = sized(12.5);
    const Laid house = lay(text(document_.meta.house), small, right_ - left_);
    draw(house, left_, 48, t.soft_ink);
    const Laid label = lay(text(document_.meta.label), small, right_ - left_, 1.38, Qt::AlignRight);
    draw(label, left_, 48, t.soft_ink);
    painter_.setPen(QPen(t.line, 1));
    painter_.drawLine(QPointF(left_, foot_ - 8), QPointF(right_, foot_ - 8));
    const Laid foot = lay(text(document_.meta.foot), sized(11), right_ - left_);
    draw(foot, left_, foot_, t.soft_ink);
    const Laid number =
        lay(QStringLiteral("%1 of %2").arg(page_).arg(pages_), sized(11), right_ - left_, 1.38, Qt::AlignRight);
    draw(number, left_, foot_, t.soft_ink);
  }

  void new_page() {
    sheets_.next();
    ++page_;
    y_ = top_;
    start_page();
  }

  void paint(const report::Heading& h) {
    const double size = h.level == 1 ? 28 : h.level == 2 ? 16 : 14;
    y_ += y_ <= top_ + 1 ? 0 : h.level == 1 ? 4 : 14;
    need(keep_with_next_ + size);
    put(text(h.text), sized(size, h.level == 1 ? Weight::bold : Weight::semi_bold), light_tokens().ink, left_,
        right_ - left_, 1.2);
    y_ += h.level == 1 ? 12 : 4;
  }

  void paint(const report::Paragraph& p) {
    const Tokens& t = light_tokens();
    using Tone = report::Paragraph::Tone;
    const QColor color = p.tone == Tone::soft ? t.soft_ink : p.tone == Tone::caution ? t.caution : t.ink;
    put(text(p.text),
        sized(p.tone == Tone::lead      ? 16.5
              : p.tone == Tone::caution ? 12.5
                                        : 14),
        color, left_, right_ - left_);
    y_ += 8;
  }

  void numbered(const std::vector<std::string>& items, double x, double width, double size, double leading = 1.38,
                double gap = 4) {
    for (std::size_t i = 0; i < items.size(); ++i) {
      const Laid body = lay(text(items[i]), sized(size), width - 22, leading);
      need(body.height);
      draw(lay(QString::number(i + 1), sized(size, Weight::semi_bold), 20, leading), x, y_, light_tokens().ink);
      draw(body, x + 22, y_, light_tokens().ink);
      y_ += body.height + gap;
    }
  }

  void paint(const report::Steps& s) {
    numbered(s.items, left_, right_ - left_, 15);
    y_ += 6;
  }

  void paint(const report::Rule&) {
    y_ += 4;
    painter_.setPen(QPen(light_tokens().ink, 2));
    painter_.drawLine(QPointF(left_, y_), QPointF(right_, y_));
    y_ += 14;
  }

  void paint(const report::Aside& a) {
    const Tokens& t = light_tokens();
    const Laid title = lay(text(a.title), sized(14, Weight::semi_bold), right_ - left_ - 16);
    const Laid body = lay(text(a.text), sized(15.5), right_ - left_ - 16);
    need(title.height + body.height + 10);
    painter_.fillRect(QRectF(left_, y_, 3, title.height + body.height + 4), t.action);
    draw(title, left_ + 16, y_, t.ink);
    draw(body, left_ + 16, y_ + title.height + 2, t.ink);
    y_ += title.height + body.height + 16;
  }

  void paint(const report::Figure& f) {
    const double width = right_ - left_;
    const QSizeF size = figure_size(f, width);
    // A figure taller than what is left goes to the next page; taller than a page it is drawn smaller.
    const double room = bottom_ - top_ - 40;
    const double k = std::min(1.0, room / size.height());
    need(size.height() * k + (f.caption.empty() ? 0 : 30));
    Tokens paper = light_tokens();
    paper.sheet = Qt::white;
    paint_figure(painter_, f, QRectF(left_, y_, width * k, size.height() * k), size, paper);
    y_ += size.height() * k;
    if (!f.caption.empty()) put(text(f.caption), sized(11.5), light_tokens().soft_ink, left_, width);
    y_ += 10;
  }

  void paint(const report::Columns& c) {
    const Tokens& t = light_tokens();
    const double gap = 28, width = (right_ - left_ - gap) / 2;
    const double right_x = left_ + width + gap;
    // Height of both columns first: they stay together on one page.
    double left_height = 26, right_height = 26;
    constexpr double body = 13, small = 11.5, leading = 1.3;
    for (const auto& s : c.left_steps) left_height += lay(text(s), sized(body), width - 22, leading).height + 3;
    for (const auto& s : c.left_cautions) left_height += lay(text(s), sized(small), width, leading).height + 3;
    for (const auto& s : c.right_paragraphs) right_height += lay(text(s), sized(body), width, leading).height + 5;
    need(std::min(std::max(left_height, right_height), bottom_ - top_));
    const double start = y_;
    put(text(c.left_title), sized(14, Weight::semi_bold), t.ink, left_, width);
    y_ += 4;
    numbered(c.left_steps, left_, width, body, leading, 3);
    for (const auto& s : c.left_cautions) {
      put(text(s), sized(small), t.caution, left_, width, leading);
      y_ += 3;
    }
    const double left_end = y_;
    y_ = start;
    put(text(c.right_title), sized(14, Weight::semi_bold), t.ink, right_x, width);
    y_ += 4;
    for (const auto& s : c.right_paragraphs) {
      put(text(s), sized(body), t.ink, right_x, width, leading);
      y_ += 5;
    }
    y_ = std::max(left_end, y_) + 8;
  }

  std::vector<double> column_widths(const report::Table& table, double size) {
    const double total = right_ - left_;
    const std::size_t n = table.columns.size();
    std::vector<double> natural(n, 0), least(n, 0);
    const auto widest_word = [&](const QString& s) {
      double widest = 0;
      for (const auto& word : s.split(QLatin1Char(' '))) widest = std::max(widest, lay(word, sized(size), 4000).width);
      return widest;
    };
    for (std::size_t i = 0; i < n; ++i) {
      const auto take = [&](const std::string& cell) {
        natural[i] = std::max(natural[i], lay(text(cell), sized(size), 4000).width + 10);
        least[i] = std::max(least[i], std::min(widest_word(text(cell)), 150.0) + 10);
      };
      take(table.columns[i]);
      for (const auto& row : table.rows)
        if (i < row.size()) take(row[i]);
    }
    double sum = 0, sum_least = 0;
    for (std::size_t i = 0; i < n; ++i) sum += natural[i], sum_least += least[i];
    if (sum <= total) return natural;
    std::vector<double> out(n);
    const double spare = std::max(0.0, total - sum_least), wanted = std::max(1.0, sum - sum_least);
    for (std::size_t i = 0; i < n; ++i)
      out[i] = sum_least > total ? least[i] * total / sum_least : least[i] + (natural[i] - least[i]) * spare / wanted;
    return out;
  }

  void table_row(const std::vector<std::string>& cells, const report::Table& table, const std::vector<double>& widths,
                 double size, bool head) {
    const Tokens& t = light_tokens();
    std::vector<Laid> laid;
    double height = 0;
    for (std::size_t i = 0; i < cells.size() && i < widths.size(); ++i) {
      const bool right = i < table.numeric.size() && table.numeric[i];
      laid.push_back(lay(text(cells[i]), sized(size, head ? Weight::semi_bold : Weight::regular), widths[i] - 8, 1.3,
                         right ? Qt::AlignRight : Qt::AlignLeft));
      height = std::max(height, laid.back().height);
    }
    if (!head && y_ + height + 5 > bottom_) {
      new_page();
      table_row(table.columns, table, widths, size, true);
    }
    double x = left_;
    for (std::size_t i = 0; i < laid.size(); ++i) {
      draw(laid[i], x, y_ + 2, head ? t.soft_ink : t.ink);
      x += widths[i];
    }
    y_ += height + 5;
    painter_.setPen(QPen(t.line, 0.6));
    painter_.drawLine(QPointF(left_, y_), QPointF(right_, y_));
  }

  void paint(const report::Table& table) {
    const double size = table.columns.size() > 9 ? 9.5 : 11;
    need(90);
    if (!table.caption.empty()) {
      put(text(table.caption), sized(12.5, Weight::medium), light_tokens().ink, left_, right_ - left_);
      y_ += 2;
    }
    const auto widths = column_widths(table, size);
    table_row(table.columns, table, widths, size, true);
    for (const auto& row : table.rows) table_row(row, table, widths, size, false);
    y_ += 12;
  }

  void paint(const report::PageBreak&) {
    if (y_ > top_ + 1) new_page();
  }

  QPdfWriter& writer_;
  Sheets sheets_;
  const report::Document& document_;
  int pages_;
  QPainter& painter_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, foot_ = 0, y_ = 0, keep_with_next_ = 0;
  int page_ = 1;
};

void set_up(QPdfWriter& writer, const report::Document& document, Paper paper) {
  writer.setResolution(1200);
  writer.setPageSize(QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
  writer.setPageMargins(QMarginsF(0, 0, 0, 0));
  writer.setTitle(text(document.meta.title));
  writer.setCreator(text(document.meta.program));
}

QByteArray painted(const report::Document& document, Paper paper, int pages, int* counted) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  set_up(writer, document, paper);
  {
    QPainter painter(&writer);
    Flow flow(writer, {painter, writer.resolution() / 96.0, [&] { writer.newPage(); }}, document, pages);
    *counted = flow.run();
  }
  return bytes;
}

}  // namespace

QByteArray pdf_bytes(const report::Document& document, Paper paper) {
  load_fonts();
  int pages = 0;
  painted(document, paper, 0, &pages);
  return painted(document, paper, pages, &pages);
}

std::vector<QImage> page_images(const report::Document& document, Paper paper, double scale) {
  load_fonts();
  int pages = 0;
  painted(document, paper, 0, &pages);
  QByteArray unused;
  QBuffer buffer(&unused);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter measure(&buffer);
  set_up(measure, document, paper);
  const double k = scale * 96.0 / measure.resolution();
  const QSize size(qRound(measure.width() * k), qRound(measure.height() * k));
  std::vector<QImage> images;
  QImage page;
  QPainter painter;
  const auto begin = [&] {
    page = QImage(size, QImage::Format_RGB32);
    page.fill(Qt::white);
    painter.begin(&page);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing | QPainter::SmoothPixmapTransform);
  };
  begin();
  const auto next = [&] {
    painter.end();
    images.push_back(page);
    begin();
    painter.scale(scale, scale);
  };
  Flow(measure, {painter, scale, next}, document, pages).run();
  painter.end();
  images.push_back(page);
  return images;
}

}  // namespace likeleaf::ui
