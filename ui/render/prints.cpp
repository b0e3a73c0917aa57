#include "ui/render/prints.h"

#include <type_traits>

#include "ui/render/pdf.h"
#include "ui/render/print_page.h"

namespace likeleaf::ui {
namespace {

template <class T>
PageInfo info_of(const T& print) {
  if constexpr (std::is_same_v<T, report::Document>)
    return {words_of(print.meta.title), words_of(print.meta.program), true};
  else
    return {words_of(print.title), QStringLiteral("Likeleaf"), false};
}

int paint(const Sheets& sheets, const report::CupLabels& print, int pages) {
  return paint_labels(sheets, print, pages);
}
int paint(const Sheets& sheets, const report::TrayMap& print, int pages) {
  return paint_trays(sheets, print, pages);
}
int paint(const Sheets& sheets, const report::ScoreSheets& print, int pages) {
  return paint_score_sheets(sheets, print, pages);
}
int paint(const Sheets& sheets, const report::PortionSlips& print, int pages) {
  return paint_slips(sheets, print, pages);
}
int paint(const Sheets& sheets, const report::Document& print, int pages) {
  return paint_document(sheets, print, pages);
}

template <class T>
PaintPages pages_of(const T& print) {
  return [&print](const Sheets& sheets, int pages) { return paint(sheets, print, pages); };
}

}  // namespace

QByteArray print_pdf(const Print& print, Paper paper) {
  return std::visit([&](const auto& p) { return pages_pdf(info_of(p), paper, pages_of(p)); }, print);
}

PagePictures print_images(const Print& print, Paper paper, double scale, int most) {
  return std::visit([&](const auto& p) { return pages_images(paper, scale, pages_of(p), most); }, print);
}

bool print_to(QPrinter& printer, const Print& print, Paper paper) {
  return std::visit([&](const auto& p) { return pages_print(printer, info_of(p), paper, pages_of(p)); }, print);
}

}  // namespace likeleaf::ui
