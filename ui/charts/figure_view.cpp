#include "ui/charts/figure_view.h"

#include <QApplication>
#include <QClipboard>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QMimeData>
#include <QPainter>
#include <QVBoxLayout>
#include <cmath>

#include "ui/charts/charts.h"
#include "ui/widgets/paper_parts.h"

namespace likeleaf::ui {
namespace {

constexpr double export_width = 760;
constexpr double png_scale = 2;

// The picture alone. A chart takes tens of milliseconds to make, so it is painted once for each size.
class FigureCanvas final : public QWidget {
 public:
  FigureCanvas(const report::Figure& figure, QWidget* parent) : QWidget(parent), figure_(figure) {
    setMinimumSize(420, static_cast<int>(std::ceil(figure_size(figure, 420).height())));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Expanding);
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    const double ratio = devicePixelRatioF();
    const QSize wanted = (QSizeF(size()) * ratio).toSize();
    if (picture_.size() != wanted) {
      picture_ = QPixmap(wanted);
      picture_.setDevicePixelRatio(ratio);
      picture_.fill(tokens().sheet);
      QPainter inside(&picture_);
      inside.setRenderHint(QPainter::Antialiasing);
      paint_figure(inside, figure_, QRectF(rect()), QSizeF(size()), tokens());
    }
    QPainter(this).drawPixmap(0, 0, picture_);
  }

 private:
  const report::Figure& figure_;
  QPixmap picture_;
};

}  // namespace

FigureView::FigureView(report::Figure figure, QString file_stem, PathPrompt prompt, QWidget* parent)
    : QWidget(parent), figure_(std::move(figure)), stem_(std::move(file_stem)), prompt_(std::move(prompt)) {
  setObjectName(QStringLiteral("figure"));
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  down->addWidget(make_canvas(), 1);
  down->addWidget(label(QString::fromStdString(figure_.caption), face(13), tokens().soft_ink, this));
  auto* acts = new QHBoxLayout;
  acts->setSpacing(14);
  auto* copy_act = quiet_button(QStringLiteral("Copy"), QStringLiteral("copy_figure"), this);
  copy_act->setAccessibleName(QStringLiteral("Copy this chart"));
  connect(copy_act, &QPushButton::clicked, this, &FigureView::copy);
  acts->addWidget(copy_act);
  for (const char* ending : {"svg", "png", "csv"}) {
    const QString name = QString::fromLatin1(ending);
    auto* act = quiet_button(name.toUpper() + QStringLiteral("…"), QStringLiteral("save_") + name, this);
    act->setAccessibleName(QStringLiteral("Save this chart as ") + name.toUpper());
    connect(act, &QPushButton::clicked, this, [this, name] { save(name); });
    acts->addWidget(act);
  }
  said_ = label({}, face(15), tokens().soft_ink, this);
  said_->setObjectName(QStringLiteral("figure_said"));
  acts->addWidget(said_, 1);
  down->addLayout(acts);
}

QWidget* FigureView::make_canvas() {
  auto* canvas = new FigureCanvas(figure_, this);
  canvas->setObjectName(QStringLiteral("canvas"));
  canvas->setAccessibleName(std::visit([](const auto& p) { return QString::fromStdString(p.title); }, figure_.data));
  canvas->setAccessibleDescription(QString::fromStdString(figure_.alt));
  canvas->setContextMenuPolicy(Qt::CustomContextMenu);
  connect(canvas, &QWidget::customContextMenuRequested, this, [this, canvas](const QPoint& at) {
    QMenu menu(this);
    menu.addAction(QStringLiteral("Copy"), this, &FigureView::copy);
    for (const char* ending : {"svg", "png", "csv"}) {
      const QString name = QString::fromLatin1(ending);
      menu.addAction(QStringLiteral("Save as %1…").arg(name.toUpper()), this, [this, name] { save(name); });
    }
    menu.exec(canvas->mapToGlobal(at));
  });
  return canvas;
}

QByteArray FigureView::bytes_of(const QString& ending) const {
  if (ending == QLatin1String("svg")) return figure_svg(figure_, export_width, light_tokens());
  if (ending == QLatin1String("png")) return figure_png(figure_, export_width, png_scale, light_tokens());
  return QByteArray::fromStdString(std::visit([](const auto& p) { return report::csv(p); }, figure_.data));
}

void FigureView::copy() {
  // A picture for a document, the numbers for a spreadsheet: the place of pasting takes what it can.
  auto* both = new QMimeData;
  both->setImageData(QImage::fromData(bytes_of(QStringLiteral("png"))));
  both->setText(QString::fromUtf8(bytes_of(QStringLiteral("csv"))));
  QApplication::clipboard()->setMimeData(both);
  said_->setText(QStringLiteral("Copied."));
}

void FigureView::save(const QString& ending) {
  const QString path =
      prompt_(stem_ + QLatin1Char('.') + ending, QStringLiteral("%1 (*.%2)").arg(ending.toUpper(), ending));
  if (path.isEmpty()) return;
  said_->setText(save_said(path, bytes_of(ending)));
}

}  // namespace likeleaf::ui
