#pragma once
// A report document painted as PDF: vector charts, text that stays text. Needs a QApplication (offscreen is enough).
#include <QByteArray>
#include <QImage>
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

}  // namespace likeleaf::ui
