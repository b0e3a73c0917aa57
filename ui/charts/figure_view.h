#pragma once
#include <QPixmap>
#include <QWidget>

#include "core/report/document.h"
#include "ui/widgets/path_prompt.h"

class QLabel;

namespace likeleaf::ui {

/// One figure with its caption, and under it what can be done with it: copy, save as SVG, PNG or CSV. The same acts are
/// in its context menu.
class FigureView final : public QWidget {
  Q_OBJECT
 public:
  /// `file_stem` begins the suggested file names: "trial-14-overview".
  FigureView(report::Figure figure, QString file_stem, PathPrompt prompt, QWidget* parent = nullptr);
  [[nodiscard]] const report::Figure& figure() const { return figure_; }

 private:
  QWidget* make_canvas();
  void copy();
  void save(const QString& ending);
  [[nodiscard]] QByteArray bytes_of(const QString& ending) const;

  report::Figure figure_;
  QString stem_;
  PathPrompt prompt_;
  QLabel* said_;
};

}  // namespace likeleaf::ui
