#pragma once
// A report document painted as PDF: vector charts, text that stays text. Needs a QApplication (offscreen is enough).
#include <QByteArray>
#include <QImage>
#include <memory>
#include <vector>

#include "core/report/document.h"
#include "ui/render/paper.h"

namespace likeleaf::ui {

struct Sheets;

/// Paints the document onto pages and gives their number.
int paint_document(const Sheets& sheets, const report::Document& document, int pages);
/// The whole PDF in memory; the caller writes it with exchange/atomic_file. Never fails: what does not fit moves on.
QByteArray pdf_bytes(const report::Document& document, Paper paper);
/// The same pages as pictures for the screen, at `scale` times 96 dpi; lines and pages break as in the PDF.
std::vector<QImage> page_images(const report::Document& document, Paper paper, double scale);

/// The same, a block at a time, so that the window can go on between two steps. Pages are counted first, then painted.
/// Lives on the GUI thread; destroying it stops.
class PageMaker {
 public:
  enum class Out { images, pdf };
  /// `scale` is that of page_images, and means nothing to a PDF.
  PageMaker(std::shared_ptr<const report::Document> document, Paper paper, Out out, double scale = 1);
  ~PageMaker();
  /// Does one block; false once all is done.
  bool step();
  /// How many pages there are; 0 while they are being counted.
  [[nodiscard]] int pages() const;
  /// From 0 to 1.
  [[nodiscard]] double share() const;
  /// The pages that were finished since the last call.
  std::vector<QImage> take_images();
  /// The PDF once all is done; empty before.
  QByteArray take_pdf();

 private:
  struct Inner;
  std::unique_ptr<Inner> inner_;
};

}  // namespace likeleaf::ui
