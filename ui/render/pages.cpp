#include "ui/render/pages.h"

#include <QBuffer>
#include <QPageLayout>
#include <QPageSize>
#include <QPainter>
#include <QPdfWriter>
#include <QPrinter>
#include <QTextLayout>
#include <algorithm>

namespace likeleaf::ui {
namespace {

QPageSize page_size(Paper paper) {
  return QPageSize(paper == Paper::a4 ? QPageSize::A4 : QPageSize::Letter);
}

QByteArray painted(const PageInfo& info, Paper paper, const PaintPages& paint, int pages, int* counted) {
  QByteArray bytes;
  QBuffer buffer(&bytes);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter writer(&buffer);
  set_up_pages(writer, info, paper);
  {
    QPainter painter(&writer);
    *counted = paint({writer, painter, writer.resolution() / 96.0, [&] { writer.newPage(); }}, pages);
  }
  return bytes;
}

/// The date is overwritten in place, since a PDF's table counts bytes.
void take_out_date(QByteArray& bytes) {
  const qsizetype entry = bytes.indexOf("/CreationDate (D:");
  if (entry < 0) return;
  const qsizetype from = entry + static_cast<qsizetype>(qstrlen("/CreationDate (D:"));
  const qsizetype to = bytes.indexOf(')', from);
  static constexpr const char* none = "20000101000000Z";
  for (qsizetype i = from; i < to; ++i) bytes[i] = i - from < 15 ? none[i - from] : ' ';
}

}  // namespace

void set_up_pages(QPdfWriter& writer, const PageInfo& info, Paper paper) {
  writer.setResolution(1200);
  writer.setPageSize(page_size(paper));
  writer.setPageMargins(QMarginsF(0, 0, 0, 0));
  writer.setTitle(info.title);
  writer.setCreator(info.program);
}

QByteArray pages_pdf(const PageInfo& info, Paper paper, const PaintPages& paint) {
  load_fonts();
  int pages = 0;
  painted(info, paper, paint, 0, &pages);
  QByteArray bytes = painted(info, paper, paint, pages, &pages);
  if (!info.dated) take_out_date(bytes);
  return bytes;
}

PagePictures pages_images(Paper paper, double scale, const PaintPages& paint, int most) {
  load_fonts();
  int pages = 0;
  painted({}, paper, paint, 0, &pages);
  QByteArray unused;
  QBuffer buffer(&unused);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter measure(&buffer);
  set_up_pages(measure, {}, paper);
  const double k = scale * 96.0 / measure.resolution();
  const QSize size(qRound(measure.width() * k), qRound(measure.height() * k));
  PagePictures out;
  out.count = pages;
  const int wanted = std::min(pages, most);
  QImage page;
  QPainter painter;
  // Pages past the wanted ones go onto a picture of one pixel.
  const auto begin = [&] {
    page = QImage(static_cast<int>(out.images.size()) < wanted ? size : QSize(1, 1), QImage::Format_RGB32);
    page.fill(Qt::white);
    painter.begin(&page);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing | QPainter::SmoothPixmapTransform);
  };
  const auto end = [&] {
    painter.end();
    if (static_cast<int>(out.images.size()) < wanted) out.images.push_back(page);
  };
  begin();
  const auto next = [&] {
    end();
    begin();
    painter.scale(scale, scale);
  };
  paint({measure, painter, scale, next}, pages);
  end();
  return out;
}

bool pages_print(QPrinter& printer, const PageInfo& info, Paper paper, const PaintPages& paint) {
  load_fonts();
  int pages = 0;
  painted(info, paper, paint, 0, &pages);
  QByteArray unused;
  QBuffer buffer(&unused);
  buffer.open(QIODevice::WriteOnly);
  QPdfWriter measure(&buffer);
  set_up_pages(measure, info, paper);
  printer.setDocName(info.title);
  printer.setPageSize(page_size(paper));
  printer.setPageOrientation(QPageLayout::Portrait);
  printer.setFullPage(true);
  QPainter painter;
  if (!painter.begin(&printer)) return false;
  bool all = true;
  paint({measure, painter, printer.resolution() / 96.0, [&] { all = printer.newPage() && all; }}, pages);
  return painter.end() && all;
}

TypeSetter::Laid::Laid() = default;
TypeSetter::Laid::Laid(Laid&&) noexcept = default;
TypeSetter::Laid& TypeSetter::Laid::operator=(Laid&&) noexcept = default;
TypeSetter::Laid::~Laid() = default;

TypeSetter::TypeSetter(const Sheets& sheets) : writer_(sheets.measure), painter_(sheets.painter) {
  painter_.scale(sheets.scale, sheets.scale);
}

double TypeSetter::page_width() const {
  return writer_.width() * 96.0 / writer_.resolution();
}

double TypeSetter::page_height() const {
  return writer_.height() * 96.0 / writer_.resolution();
}

TypeSetter::Laid TypeSetter::lay(const QString& text, const QFont& font, double width, double leading,
                                 Qt::Alignment align) const {
  Laid out;
  QString lines = text;
  lines.replace(QLatin1Char('\n'), QChar::LineSeparator);
  out.layout = std::make_unique<QTextLayout>(lines, font, &writer_);
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

QFont TypeSetter::sized(double pixels, Weight weight) const {
  QFont font = face(pixels, weight);
  font.setPixelSize(qRound(pixels * writer_.resolution() / 96.0));
  return font;
}

void TypeSetter::draw(const Laid& laid, double x, double y, const QColor& color) const {
  const double k = writer_.resolution() / 96.0;
  painter_.save();
  painter_.translate(x, y);
  painter_.scale(1 / k, 1 / k);
  painter_.setPen(color);
  laid.layout->draw(&painter_, QPointF(0, 0));
  painter_.restore();
}

}  // namespace likeleaf::ui
