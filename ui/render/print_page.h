#pragma once
// What the painters of prints share: a page with margins and a foot, boxes to tick, lines to write on.
#include <QPainter>
#include <functional>
#include <string>
#include <vector>

#include "core/report/prints.h"
#include "core/report/taster_prints.h"
#include "ui/render/pages.h"

namespace likeleaf::ui {

struct TextLook {
  double size = 12;
  Weight weight = Weight::regular;
  QColor color = light_tokens().ink;
  Qt::Alignment align = Qt::AlignLeft;
  double leading = 1.3;
};

class PrintPage : public TypeSetter {
 public:
  /// `foot` stands on every page beside its number.
  PrintPage(const Sheets& sheets, int pages, double margin, QString foot);

  double left, right, top, bottom;  ///< where one may paint; bottom is above the foot
  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] QPainter& ink() { return sheets_.painter; }
  [[nodiscard]] int page() const { return page_; }
  void next_page();

  /// Height of the text in that width.
  [[nodiscard]] double height(const QString& text, double width, const TextLook& look) const;
  /// Paints it and gives its height.
  double put(const QString& text, double x, double y, double width, const TextLook& look) const;
  void rule(double x1, double y1, double x2, double y2, double thick = 0.8, const QColor& color = light_tokens().ink);
  void dashes(double x1, double y1, double x2, double y2);
  /// A square to tick, with words behind it; gives the width of both.
  double tick(const QString& words, double x, double y, double size = 12);
  /// A cup as seen from above with its code.
  void cup(const QString& code, double x, double y, double radius);

 private:
  void foot();
  const Sheets& sheets_;
  int pages_, page_ = 1;
  QString foot_;
};

/// One strip of a page: painted at a height, whole.
struct Strip {
  double height = 0;
  std::function<void(double y)> paint;
  bool stretches = false;     ///< takes a share of what room is left on the page
  bool new_page = false;      ///< begins one
  double keep_with_next = 0;  ///< height that has to fit below it
};
/// Paints strips down pages; `again` is called on each page that they run over to and gives the height it took.
void paint_strips(PrintPage& page, const std::vector<Strip>& strips, double most_stretch,
                  const std::function<double()>& again);

inline QString words_of(const std::string& text) {
  return QString::fromStdString(text);
}

int paint_labels(const Sheets& sheets, const report::CupLabels& labels, int pages);
int paint_trays(const Sheets& sheets, const report::TrayMap& map, int pages);
int paint_score_sheets(const Sheets& sheets, const report::ScoreSheets& all, int pages);
int paint_slips(const Sheets& sheets, const report::PortionSlips& slips, int pages);

}  // namespace likeleaf::ui
