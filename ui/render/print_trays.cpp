// The tray map: for each serving moment and taster two cups as they stand, and which of them is sipped first.
#include <algorithm>

#include "ui/render/print_page.h"

namespace likeleaf::ui {
namespace {

constexpr double tray_margin = 52, moment_width = 92, row_height = 92;
constexpr std::size_t most_columns = 6;

void first_mark(PrintPage& page, double x, double y) {
  const Tokens& t = light_tokens();
  page.ink().setPen(Qt::NoPen);
  page.ink().setBrush(t.ink);
  page.ink().drawEllipse(QPointF(x, y), 8, 8);
  page.put(QStringLiteral("1"), x - 8, y - 7.5, 16, {11.5, Weight::bold, Qt::white, Qt::AlignHCenter, 1.3});
}

void paint_cell(PrintPage& page, const report::TrayCups& cups, bool free, double x, double y, double width) {
  const double radius = std::min(26.0, (width - 22) / 4);
  const double middle = x + width / 2, apart = radius + 4, at = y + row_height / 2;
  if (free) {
    page.put(words_of(cups.left + " and " + cups.right), x, at - 12, width,
             {18, Weight::bold, light_tokens().ink, Qt::AlignHCenter});
    return;
  }
  page.cup(words_of(cups.left), middle - apart, at, radius);
  page.cup(words_of(cups.right), middle + apart, at, radius);
  const double first = cups.first == Side::left ? middle - apart : middle + apart;
  first_mark(page, first, at - radius - 2);
}

double head(PrintPage& page, const report::TrayMap& map, const report::TraySitting& sitting, std::size_t from,
            std::size_t to) {
  double y = page.top;
  y += page.put(words_of(map.title) + QStringLiteral(" · sitting\u00A0%1").arg(sitting.sitting), page.left, y,
                page.width(), {26, Weight::bold, light_tokens().ink, Qt::AlignLeft, 1.2}) +
       6;
  for (const auto& hint : map.hints)
    y += page.put(words_of(hint), page.left, y, page.width(), {13, Weight::regular}) + 3;
  y += 10;
  const double width = (page.width() - moment_width) / static_cast<double>(to - from);
  for (std::size_t i = from; i < to; ++i) {
    const double x = page.left + moment_width + static_cast<double>(i - from) * width;
    page.put(words_of(sitting.tasters[i]), x, y, width, {17, Weight::semi_bold, light_tokens().ink, Qt::AlignHCenter});
    if (!map.sides_free)
      page.put(QStringLiteral("left    right"), x, y + 22, width,
               {11, Weight::regular, light_tokens().soft_ink, Qt::AlignHCenter});
  }
  y += map.sides_free ? 28 : 42;
  page.rule(page.left, y, page.right, y, 1.2);
  return y;
}

}  // namespace

int paint_trays(const Sheets& sheets, const report::TrayMap& map, int pages) {
  PrintPage page(sheets, pages, tray_margin, QStringLiteral("codes alone, no key"));
  bool begun = false;
  for (const auto& sitting : map.sittings) {
    const std::size_t columns = std::min(most_columns, std::max<std::size_t>(1, sitting.tasters.size()));
    for (std::size_t from = 0; from < sitting.tasters.size(); from += columns) {
      const std::size_t to = std::min(sitting.tasters.size(), from + columns);
      if (begun) page.next_page();
      begun = true;
      double y = head(page, map, sitting, from, to);
      const double width = (page.width() - moment_width) / static_cast<double>(to - from);
      for (const auto& row : sitting.rows) {
        if (y + row_height > page.bottom) {
          page.next_page();
          y = head(page, map, sitting, from, to);
        }
        page.put(words_of(row.moment), page.left, y + row_height / 2 - 11, moment_width - 8, {16, Weight::semi_bold});
        for (std::size_t i = from; i < to; ++i)
          if (i < row.cups.size() && row.cups[i])
            paint_cell(page, *row.cups[i], map.sides_free,
                       page.left + moment_width + static_cast<double>(i - from) * width, y, width);
        y += row_height;
        page.rule(page.left, y, page.right, y, 0.8, light_tokens().line);
      }
      y += 14;
      const TextLook caution{12.5, Weight::regular, light_tokens().caution};
      for (const auto& one : map.cautions) {
        const double height = page.height(words_of(one), page.width(), caution);
        if (y + height > page.bottom) {
          page.next_page();
          y = page.top;
        }
        y += page.put(words_of(one), page.left, y, page.width(), caution) + 3;
      }
    }
  }
  if (!begun) page.put(QStringLiteral("No pairs here."), page.left, page.top, page.width(), {});
  return page.page();
}

}  // namespace likeleaf::ui
