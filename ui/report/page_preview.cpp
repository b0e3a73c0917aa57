#include "ui/report/page_preview.h"

#include <QElapsedTimer>
#include <QLabel>
#include <QScrollBar>
#include <QVBoxLayout>
#include <algorithm>
#include <utility>

#include "core/report/document.h"
#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr double preview_scale = 0.95;  // an A4 page then stands about 750 pixels wide
constexpr int gap = 16;

}  // namespace

PagePreview::PagePreview(QWidget* parent) : QScrollArea(parent) {
  setWidgetResizable(true);
  setFrameShape(QFrame::NoFrame);
  timer_.setInterval(0);
  connect(&timer_, &QTimer::timeout, this, &PagePreview::tick);
  connect(verticalScrollBar(), &QScrollBar::valueChanged, this, &PagePreview::go_on);
  connect(verticalScrollBar(), &QScrollBar::rangeChanged, this, &PagePreview::go_on);
}

void PagePreview::show_document(std::shared_ptr<const report::Document> document, Paper paper) {
  timer_.stop();
  maker_.reset();
  sheets_.clear();
  painted_ = 0;
  document_ = std::move(document);
  paper_ = paper;
  delete takeWidget();
  if (!document_) return;
  maker_ = std::make_unique<PageMaker>(document_, paper_, PageMaker::Out::images, preview_scale * devicePixelRatioF());
  emit progressed(0, 0);
  timer_.start();
}

void PagePreview::stop() {
  timer_.stop();
  maker_.reset();
  emit progressed(painted_, static_cast<int>(sheets_.size()));
}

bool PagePreview::working() const {
  return maker_ && (sheets_.empty() || painted_ < looked_at());
}

void PagePreview::go_on() {
  if (working() && !timer_.isActive()) timer_.start();
}

void PagePreview::tick() {
  QElapsedTimer slice;
  slice.start();
  bool more = true;
  while (more && slice.elapsed() < painting_slice_ms) more = maker_->step();
  if (sheets_.empty() && maker_->pages() > 0) make_sheets();
  take_pages();
  if (!more) maker_.reset();
  if (!working()) timer_.stop();
  emit progressed(painted_, static_cast<int>(sheets_.size()));
}

void PagePreview::make_sheets() {
  const QSizeF points = paper_ == Paper::a4 ? QSizeF(595, 842) : QSizeF(612, 792);
  sheet_ = (points * 96.0 / 72.0 * preview_scale).toSize();
  auto* holder = new QWidget;
  auto* down = new QVBoxLayout(holder);
  down->setContentsMargins(0, 0, 12, 20);
  down->setSpacing(gap);
  const int pages = maker_->pages();
  for (int i = 0; i < pages; ++i) {
    auto* sheet = new QLabel(holder);
    sheet->setFixedSize(sheet_);
    sheet->setAutoFillBackground(true);
    QPalette white = sheet->palette();
    white.setColor(QPalette::Window, Qt::white);
    sheet->setPalette(white);
    sheet->setObjectName(QStringLiteral("page"));
    sheet->setAccessibleName(QStringLiteral("Page %1 of %2").arg(i + 1).arg(pages));
    down->addWidget(sheet, 0, Qt::AlignHCenter);
    sheets_.push_back(sheet);
  }
  // The whole text is read on the first page; the others are pictures of it.
  sheets_.front()->setAccessibleDescription(QString::fromStdString(report::to_text(*document_)));
  down->addStretch(1);
  setWidget(holder);
}

void PagePreview::take_pages() {
  for (auto& image : maker_->take_images()) {
    if (painted_ >= static_cast<int>(sheets_.size())) break;
    QPixmap picture = QPixmap::fromImage(std::move(image));
    picture.setDevicePixelRatio(devicePixelRatioF());
    sheets_[static_cast<std::size_t>(painted_++)]->setPixmap(picture);
  }
}

int PagePreview::looked_at() const {
  const int bottom = verticalScrollBar()->value() + viewport()->height();
  const int seen = bottom / std::max(1, sheet_.height() + gap) + 1;
  return std::min(static_cast<int>(sheets_.size()), seen + 1);  // one page ahead
}

}  // namespace likeleaf::ui
