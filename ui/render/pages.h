#pragma once
// Pages painted in 96-dpi pixels, the same for a PDF, for pictures on the screen and for a printer.
#include <QByteArray>
#include <QColor>
#include <QFont>
#include <QImage>
#include <QString>
#include <functional>
#include <memory>
#include <vector>

#include "ui/render/paper.h"
#include "ui/theme/theme.h"

class QPainter;
class QPdfWriter;
class QPrinter;
class QTextLayout;

namespace likeleaf::ui {

/// Where pages are painted: the painter stands on the first page already; next() puts it on a new one. Text is always
/// measured on the writer, so that a page on screen breaks its lines where the printed one does.
struct Sheets {
  QPdfWriter& measure;
  QPainter& painter;
  double scale = 1;  ///< device pixels for one pixel of a 96-dpi page
  std::function<void()> next;
};
/// Paints all pages and gives their number; told how many there are in all (0 while that is being counted).
using PaintPages = std::function<int(const Sheets& sheets, int pages)>;

struct PageInfo {
  QString title, program;  ///< the PDF's own title and creator
  bool dated = true;       ///< without: the PDF does not tell when it was made, and equal pages are equal bytes
};

/// Resolution, paper, title and full page: both what is printed and what is only measured is set up so.
void set_up_pages(QPdfWriter& writer, const PageInfo& info, Paper paper);
QByteArray pages_pdf(const PageInfo& info, Paper paper, const PaintPages& paint);
struct PagePictures {
  std::vector<QImage> images;
  int count = 0;  ///< of all pages, also of those without a picture
};
/// At `scale` times 96 dpi, of the first `most` pages.
PagePictures pages_images(Paper paper, double scale, const PaintPages& paint, int most = 10'000);
/// Sets paper and full page on the printer. False when it cannot be written to.
bool pages_print(QPrinter& printer, const PageInfo& info, Paper paper, const PaintPages& paint);

/// Lays and draws text on a page; lengths are 96-dpi pixels.
class TypeSetter {
 public:
  struct Laid {
    std::unique_ptr<QTextLayout> layout;
    double height = 0, width = 0;
    Laid();
    Laid(Laid&&) noexcept;
    Laid& operator=(Laid&&) noexcept;
    ~Laid();
  };
  /// Scales the painter to pixels of the page.
  explicit TypeSetter(const Sheets& sheets);

  [[nodiscard]] double page_width() const;
  [[nodiscard]] double page_height() const;
  [[nodiscard]] Laid lay(const QString& text, const QFont& font, double width, double leading = 1.38,
                         Qt::Alignment align = Qt::AlignLeft) const;
  /// The face at a size in pixels of the page; only for lay().
  [[nodiscard]] QFont sized(double pixels, Weight weight = Weight::regular) const;
  void draw(const Laid& laid, double x, double y, const QColor& color) const;

 private:
  QPdfWriter& writer_;
  QPainter& painter_;
};

}  // namespace likeleaf::ui
