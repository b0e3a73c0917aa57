#pragma once
// The only home of Qt Charts: chart-neutral figures of core become charts. A chart lives on the GUI thread.
#include <QByteArray>
#include <QSizeF>
#include <QString>
#include <memory>

#include "core/report/document.h"
#include "ui/theme/theme.h"

class QPainter;
class QRectF;

namespace likeleaf::ui {

/// Size in 96-dpi pixels that shows every row of the figure at a given width.
QSizeF figure_size(const report::Figure& figure, double width);
/// Paints the figure as vectors into `target`; `size` is the chart's own size in 96-dpi pixels.
void paint_figure(QPainter& painter, const report::Figure& figure, const QRectF& target, QSizeF size,
                  const Tokens& tokens);
/// One self-contained `<svg>` element, text kept as text.
QByteArray figure_svg(const report::Figure& figure, double width, const Tokens& tokens);
/// A picture at `scale` times 96 dpi.
QByteArray figure_png(const report::Figure& figure, double width, double scale, const Tokens& tokens);

}  // namespace likeleaf::ui
