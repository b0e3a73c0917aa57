#pragma once
#include <QScrollArea>
#include <QTimer>
#include <functional>
#include <memory>
#include <vector>

#include "ui/render/pdf.h"

class QLabel;

namespace likeleaf::ui {

inline constexpr int painting_slice_ms = 12;  ///< of painting before the window has its turn again

/// The pages of a report as they will be printed. They are painted between events, one block at a time, and only as far
/// down as they are looked at; what is not painted yet stands there as an empty sheet.
class PagePreview final : public QScrollArea {
  Q_OBJECT
 public:
  explicit PagePreview(QWidget* parent = nullptr);
  /// Starts anew; nothing empties it.
  void show_document(std::shared_ptr<const report::Document> document, Paper paper);
  /// Paints no more; the pages that are there stay.
  void stop();
  /// Something that is looked at waits to be painted.
  [[nodiscard]] bool working() const;
  [[nodiscard]] int painted() const { return painted_; }

 signals:
  /// Pages painted, of how many (0: they are being counted); said whenever either changes and when it rests.
  void progressed(int painted, int of);

 private:
  void tick();
  void make_sheets();
  void take_pages();
  [[nodiscard]] int looked_at() const;
  void go_on();

  std::shared_ptr<const report::Document> document_;
  std::unique_ptr<PageMaker> maker_;
  QSize sheet_;  ///< of one page, in pixels of the screen
  Paper paper_ = Paper::a4;
  std::vector<QLabel*> sheets_;
  int painted_ = 0;
  QTimer timer_;
};

}  // namespace likeleaf::ui
