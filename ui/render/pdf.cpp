#include "ui/render/pdf.h"

#include <QBuffer>
#include <QPainter>
#include <QPdfWriter>
#include <algorithm>
#include <utility>
#include <vector>

#include "core/base/overload.h"
#include "ui/charts/charts.h"
#include "ui/render/pages.h"
#include "ui/theme/theme.h"
#include "ui/widgets/qt_text.h"

namespace likeleaf::ui {

// Paints blocks down a page in 96-dpi pixels. Pages are counted by running the same flow once before, so that both runs
// must break pages alike.
class DocumentFlow : TypeSetter {
 public:
  DocumentFlow(const Sheets& sheets, const report::Document& document, int pages)
      : TypeSetter(sheets), sheets_(sheets), document_(document), pages_(pages), painter_(sheets.painter) {
    left_ = 58;
    right_ = page_width() - 58;
    top_ = 92;
    bottom_ = page_height() - 78;
    foot_ = page_height() - 56;
    y_ = top_;
    start_page();
  }

  int run() {
    while (step()) continue;
    return page_;
  }

  /// Paints one block; false when none is left.
  bool step() {
    if (at_ >= document_.blocks.size()) return false;
    keep_with_next_ =
        at_ + 1 < document_.blocks.size() && std::holds_alternative<report::Heading>(document_.blocks[at_]) ? 120 : 0;
    std::visit([this](const auto& block) { paint(block); }, document_.blocks[at_++]);
    return at_ < document_.blocks.size();
  }
  /// The page that is painted on now, from 1.
  [[nodiscard]] int page() const { return page_; }
  [[nodiscard]] std::size_t blocks_done() const { return at_; }

 private:
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
    if (!document_.meta.mark.empty()) {
      // White on ink, so that it stays plain on any printer.
      painter_.fillRect(QRectF(0, 0, page_width(), 34), t.ink);
      draw(lay(text(document_.meta.mark), sized(15, Weight::bold), right_ - left_), left_, 7, Qt::white);
    }
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
              : p.tone == Tone::caution ? 13
                                        : 14),
        color, left_, right_ - left_);
    y_ += 8;
  }

  void numbered(const std::vector<std::string>& items, double x, double width, double size, double leading = 1.38,
                double gap = 4) {
    const double indent = items.size() > 9 ? 30 : 22;
    for (std::size_t i = 0; i < items.size(); ++i) {
      const Laid body = lay(text(items[i]), sized(size), width - indent, leading);
      need(body.height);
      draw(lay(QString::number(i + 1), sized(size, Weight::semi_bold), indent - 2, leading), x, y_, light_tokens().ink);
      draw(body, x + indent, y_, light_tokens().ink);
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
    const double size = table.bench ? 12.5 : table.columns.size() > 9 ? 9.5 : 11;
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

  void paint(const report::PageBreak& turn) {
    if (y_ > top_ + 1) new_page();
    if (!turn.right_hand || page_ % 2 == 1) return;
    put(QStringLiteral("This page is left empty, so that the sheet after it can be taken off."), sized(12.5),
        light_tokens().soft_ink, left_, right_ - left_);
    new_page();
  }

  const Sheets& sheets_;
  const report::Document& document_;
  int pages_;
  QPainter& painter_;
  double left_ = 0, right_ = 0, top_ = 0, bottom_ = 0, foot_ = 0, y_ = 0, keep_with_next_ = 0;
  int page_ = 1;
  std::size_t at_ = 0;
};

namespace {

PaintPages document_pages(const report::Document& document) {
  return [&document](const Sheets& sheets, int pages) { return paint_document(sheets, document, pages); };
}

}  // namespace

int paint_document(const Sheets& sheets, const report::Document& document, int pages) {
  return DocumentFlow(sheets, document, pages).run();
}

QByteArray pdf_bytes(const report::Document& document, Paper paper) {
  return pages_pdf({text(document.meta.title), text(document.meta.program)}, paper, document_pages(document));
}

struct PageMaker::Inner {
  Inner(std::shared_ptr<const report::Document> given, Paper on, Out as, double pixels)
      : document(std::move(given)), paper(on), out(as), scale(pixels) {
    load_fonts();
    begin_on_writer(0);
  }

  void begin_on_writer(int of) {
    end();
    bytes.clear();
    buffer.open(QIODevice::WriteOnly);
    writer = std::make_unique<QPdfWriter>(&buffer);
    set_up_pages(*writer, {text(document->meta.title), text(document->meta.program)}, paper);
    painter = std::make_unique<QPainter>(writer.get());
    sheets =
        std::make_unique<Sheets>(Sheets{*writer, *painter, writer->resolution() / 96.0, [this] { writer->newPage(); }});
    flow = std::make_unique<DocumentFlow>(*sheets, *document, of);
  }

  void begin_on_images(int of) {
    end();
    buffer.open(QIODevice::WriteOnly);
    writer = std::make_unique<QPdfWriter>(&buffer);
    set_up_pages(*writer, {}, paper);
    painter = std::make_unique<QPainter>();
    begin_image();
    sheets = std::make_unique<Sheets>(Sheets{*writer, *painter, scale, [this] {
                                               painter->end();
                                               images.push_back(image);
                                               begin_image();
                                               painter->scale(scale, scale);
                                             }});
    flow = std::make_unique<DocumentFlow>(*sheets, *document, of);
  }

  void begin_image() {
    const double k = scale * 96.0 / writer->resolution();
    image = QImage(QSize(qRound(writer->width() * k), qRound(writer->height() * k)), QImage::Format_RGB32);
    image.fill(Qt::white);
    painter->begin(&image);
    painter->setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing | QPainter::SmoothPixmapTransform);
  }

  // The flow refers to the sheets, these to the painter, that to the writer, and that to the buffer.
  void end() {
    flow.reset();
    sheets.reset();
    painter.reset();
    writer.reset();
    buffer.close();
  }

  bool step() {
    if (done) return false;
    if (flow->step()) return true;
    if (pages == 0) {
      pages = flow->page();
      out == Out::pdf ? begin_on_writer(pages) : begin_on_images(pages);
      return true;
    }
    if (out == Out::images) {
      painter->end();
      images.push_back(image);
    }
    end();
    done = true;
    return false;
  }

  std::shared_ptr<const report::Document> document;
  Paper paper;
  Out out;
  double scale;
  QByteArray bytes;
  QBuffer buffer{&bytes};
  std::unique_ptr<QPdfWriter> writer;
  std::unique_ptr<QPainter> painter;
  std::unique_ptr<Sheets> sheets;
  std::unique_ptr<DocumentFlow> flow;
  QImage image;
  std::vector<QImage> images;
  int pages = 0;
  bool done = false;
};

PageMaker::PageMaker(std::shared_ptr<const report::Document> document, Paper paper, Out out, double scale)
    : inner_(std::make_unique<Inner>(std::move(document), paper, out, scale)) {}
PageMaker::~PageMaker() {
  inner_->end();
}

bool PageMaker::step() {
  return inner_->step();
}
int PageMaker::pages() const {
  return inner_->pages;
}
double PageMaker::share() const {
  if (inner_->done) return 1;
  const double all = std::max<double>(1, static_cast<double>(inner_->document->blocks.size()));
  return (static_cast<double>(inner_->flow->blocks_done()) / all + (inner_->pages > 0 ? 1 : 0)) / 2;
}
std::vector<QImage> PageMaker::take_images() {
  return std::exchange(inner_->images, {});
}
QByteArray PageMaker::take_pdf() {
  return inner_->done ? std::exchange(inner_->bytes, {}) : QByteArray();
}

std::vector<QImage> page_images(const report::Document& document, Paper paper, double scale) {
  return pages_images(paper, scale, document_pages(document)).images;
}

}  // namespace likeleaf::ui
