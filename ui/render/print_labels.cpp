// Cup labels, and the slips of a taster who brews for themself: cells with lines to cut along.
#include <algorithm>

#include "ui/render/print_page.h"

namespace likeleaf::ui {
namespace {

constexpr double mm = 96 / 25.4;

/// Cells of one size, row by row, over as many pages as are needed; gives the cell's top left corner.
class Cells {
 public:
  Cells(PrintPage& page, double from, double width, double height)
      : page_(page),
        from_(from),
        columns_(std::max(1, static_cast<int>(page.width() / width))),
        rows_(std::max(1, static_cast<int>((page.bottom - from) / height))),
        width_(page.width() / columns_),
        height_(height) {}

  [[nodiscard]] int in_a_page() const { return columns_ * rows_; }
  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] QPointF corner(int i) const {
    const int column = i % columns_, row = i / columns_;
    return {page_.left + column * width_, from_ + row * height_};
  }
  /// Lines around the first `count` cells.
  void cut_lines(int count) {
    const int rows = (count + columns_ - 1) / columns_;
    for (int row = 0; row <= rows; ++row) {
      // A last row that is not full has lines around its own cells alone.
      const int last = row == rows ? count - (rows - 1) * columns_ : columns_;
      const double y = from_ + row * height_;
      page_.dashes(page_.left, y, page_.left + std::min(last, columns_) * width_, y);
    }
    for (int column = 0; column <= std::min(count, columns_); ++column) {
      const bool in_last = column <= count - (rows - 1) * columns_;
      page_.dashes(page_.left + column * width_, from_, page_.left + column * width_,
                   from_ + (in_last ? rows : rows - 1) * height_);
    }
  }

 private:
  PrintPage& page_;
  double from_;
  int columns_, rows_;
  double width_, height_;
};

constexpr double head_height = 34;

void head(PrintPage& page, const QString& title, const QString& hint) {
  const double wide = 190;
  page.put(title, page.left, page.top - 6, wide, {15, Weight::semi_bold});
  page.put(hint, page.left + wide, page.top - 4, page.width() - wide,
           {11, Weight::regular, light_tokens().soft_ink, Qt::AlignRight, 1.25});
}

}  // namespace

int paint_labels(const Sheets& sheets, const report::CupLabels& labels, int pages) {
  PrintPage page(sheets, pages, 10 * mm, {});
  const bool small = labels.under_the_cup;
  Cells cells(page, page.top + head_height, (small ? 30 : 37.9) * mm, (small ? 20 : 29.8) * mm);
  const double code = small ? 34 : 56;
  bool begun = false;
  for (const auto& sitting : labels.sittings)
    for (std::size_t from = 0; from < sitting.size(); from += static_cast<std::size_t>(cells.in_a_page())) {
      if (begun) page.next_page();
      begun = true;
      head(page, words_of(labels.title), words_of(labels.hint));
      const int count = std::min(cells.in_a_page(), static_cast<int>(sitting.size() - from));
      cells.cut_lines(count);
      for (int i = 0; i < count; ++i) {
        const auto& label = sitting[from + static_cast<std::size_t>(i)];
        const QPointF at = cells.corner(i);
        page.put(words_of(label.code), at.x(), at.y() + (small ? 8 : 12), cells.width(),
                 {code, Weight::bold, light_tokens().ink, Qt::AlignHCenter, 1.2});
        page.put(words_of(label.whose), at.x() + 4, at.y() + (small ? 54 : 86), cells.width() - 8,
                 {small ? 10.0 : 11.0, Weight::regular, light_tokens().soft_ink, Qt::AlignHCenter, 1.2});
      }
    }
  if (!begun) page.put(QStringLiteral("No cups here."), page.left, page.top, page.width(), {});
  return page.page();
}

int paint_slips(const Sheets& sheets, const report::PortionSlips& slips, int pages) {
  PrintPage page(sheets, pages, 10 * mm, QStringLiteral("holds the key: do not read before brewing"));
  // Name on top, recipe in the middle, an empty flap below it to fold up over the recipe.
  const double name = 17 * mm, recipe = 29 * mm, flap = 30 * mm;
  Cells cells(page, page.top + 52, 90 * mm, name + recipe + flap);
  const auto count = static_cast<int>(slips.slips.size());
  for (int from = 0; from < count || from == 0; from += cells.in_a_page()) {
    if (from > 0) page.next_page();
    page.put(words_of(slips.title), page.left, page.top - 6, 150, {15, Weight::semi_bold});
    page.put(words_of(slips.hint), page.left + 150, page.top - 4, page.width() - 150,
             {11, Weight::regular, light_tokens().soft_ink, Qt::AlignLeft, 1.25});
    const int here = std::min(cells.in_a_page(), count - from);
    if (here > 0) cells.cut_lines(here);
    for (int i = 0; i < here; ++i) {
      const auto& slip = slips.slips[static_cast<std::size_t>(from) + static_cast<std::size_t>(i)];
      const QPointF at = cells.corner(i);
      const double x = at.x() + 14, wide = cells.width() - 28;
      page.put(words_of(slip.brew), x, at.y() + 8, wide, {24, Weight::bold});
      page.put(words_of(slip.portion), x, at.y() + 40, wide, {13, Weight::regular, light_tokens().soft_ink});
      double y = at.y() + name + 4;
      for (const auto& line : slip.inside) y += page.put(words_of(line), x, y, wide, {14, Weight::medium});
      const double fold = at.y() + name + recipe;
      page.rule(x, fold, x + 40, fold, 0.6, light_tokens().soft_ink);
      page.rule(x + wide - 40, fold, x + wide, fold, 0.6, light_tokens().soft_ink);
      page.put(QStringLiteral("fold up here, over the recipe, and tape"), x, fold - 8, wide,
               {10.5, Weight::regular, light_tokens().soft_ink, Qt::AlignHCenter, 1.3});
      // Hatched, so that the recipe does not show through the folded paper.
      page.ink().save();
      page.ink().setClipRect(QRectF(x, fold + 10, wide, flap - 22));
      for (double d = -flap; d < wide; d += 5) {
        page.rule(x + d, fold + flap, x + d + flap, fold, 1.1, light_tokens().soft_ink);
        page.rule(x + d, fold, x + d + flap, fold + flap, 1.1, light_tokens().soft_ink);
      }
      page.ink().restore();
    }
  }
  return page.page();
}

}  // namespace likeleaf::ui
