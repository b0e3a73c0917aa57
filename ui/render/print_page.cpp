#include "ui/render/print_page.h"

#include <algorithm>

namespace likeleaf::ui {

PrintPage::PrintPage(const Sheets& sheets, int pages, double margin, QString foot)
    : TypeSetter(sheets), sheets_(sheets), pages_(pages), foot_(std::move(foot)) {
  left = margin;
  right = page_width() - margin;
  top = margin;
  bottom = page_height() - 40;
  this->foot();
}

void PrintPage::foot() {
  const TextLook soft{10.5, Weight::regular, light_tokens().soft_ink, Qt::AlignLeft, 1.3};
  put(foot_, left, page_height() - 34, width() * 0.8, soft);
  TextLook number = soft;
  number.align = Qt::AlignRight;
  put(QStringLiteral("%1 of %2").arg(page_).arg(pages_), left, page_height() - 34, width(), number);
}

void PrintPage::next_page() {
  sheets_.next();
  ++page_;
  foot();
}

double PrintPage::height(const QString& text, double width, const TextLook& look) const {
  return lay(text, sized(look.size, look.weight), width, look.leading, look.align).height;
}

double PrintPage::put(const QString& text, double x, double y, double width, const TextLook& look) const {
  const Laid laid = lay(text, sized(look.size, look.weight), width, look.leading, look.align);
  draw(laid, x, y, look.color);
  return laid.height;
}

void PrintPage::rule(double x1, double y1, double x2, double y2, double thick, const QColor& color) {
  ink().setPen(QPen(color, thick));
  ink().drawLine(QPointF(x1, y1), QPointF(x2, y2));
}

void PrintPage::dashes(double x1, double y1, double x2, double y2) {
  QPen pen(light_tokens().soft_ink, 0.7);
  pen.setDashPattern({7, 5});
  ink().setPen(pen);
  ink().drawLine(QPointF(x1, y1), QPointF(x2, y2));
}

double PrintPage::tick(const QString& words, double x, double y, double size) {
  ink().setPen(QPen(light_tokens().ink, 0.9));
  ink().setBrush(Qt::NoBrush);
  ink().drawRect(QRectF(x, y + 2, size - 1, size - 1));
  if (words.isEmpty()) return size;
  const Laid laid = lay(words, sized(size), 4000, 1.3);
  draw(laid, x + size + 5, y, light_tokens().ink);
  return size + 5 + laid.width;
}

void PrintPage::cup(const QString& code, double x, double y, double radius) {
  const Tokens& t = light_tokens();
  ink().setBrush(Qt::NoBrush);
  ink().setPen(QPen(t.ink, 1.4));
  ink().drawEllipse(QPointF(x, y), radius, radius);
  ink().setPen(QPen(t.soft_ink, 0.6));
  ink().drawEllipse(QPointF(x, y), radius * 0.86, radius * 0.86);
  const double size = radius * 0.72;
  put(code, x - radius, y - size * 0.64, 2 * radius, {size, Weight::bold, t.ink, Qt::AlignHCenter, 1.3});
}

void paint_strips(PrintPage& page, const std::vector<Strip>& strips, double most_stretch,
                  const std::function<double()>& again) {
  std::size_t from = 0;
  double y = page.top;
  while (from < strips.size()) {
    // What fits on this page, then the room that is left is shared out.
    std::size_t to = from;
    double used = 0;
    int stretching = 0;
    while (to < strips.size()) {
      const Strip& s = strips[to];
      if (to > from && (s.new_page || y + used + s.height + s.keep_with_next > page.bottom)) break;
      used += s.height;
      stretching += s.stretches ? 1 : 0;
      ++to;
    }
    const double spare = std::max(0.0, page.bottom - y - used);
    const double share = stretching ? std::min(most_stretch, spare / stretching) : 0;
    for (; from < to; ++from) {
      strips[from].paint(y);
      y += strips[from].height + (strips[from].stretches ? share : 0);
    }
    if (from == strips.size()) break;
    page.next_page();
    y = page.top + again();
  }
}

}  // namespace likeleaf::ui
