#include "ui/window/stage_bar.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QToolButton>
#include <algorithm>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

// Name over a small line of state; the place one is at has a bar under it and bolder type.
class PlaceButton final : public QToolButton {
 public:
  PlaceButton(const QString& name, QWidget* parent) : QToolButton(parent), name_(name) {
    setObjectName(QStringLiteral("place_") + name.toLower());
    setCheckable(true);
    setAutoRaise(true);
    setFocusPolicy(Qt::TabFocus);
    set_line({});
  }
  void set_line(const QString& line) {
    line_ = line;
    setText(name_);
    setAccessibleName(line.isEmpty() ? name_ : name_ + QStringLiteral(", ") + line);
    updateGeometry();
    update();
  }
  [[nodiscard]] QSize sizeHint() const override {
    const int wide = std::max(QFontMetrics(face(16, Weight::semi_bold)).horizontalAdvance(name_),
                              QFontMetrics(face(13)).horizontalAdvance(line_));
    return {wide + 28, 56};
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter p(this);
    const Tokens& t = tokens();
    // A place that has nothing yet is fainter, but can still be read.
    QColor faint = t.soft_ink;
    faint.setAlphaF(0.55F);
    p.setPen(isChecked() ? t.ink : isEnabled() ? t.soft_ink : faint);
    p.setFont(face(16, isChecked() ? Weight::semi_bold : Weight::regular));
    p.drawText(QRect(14, 8, width() - 28, 22), Qt::AlignLeft | Qt::AlignVCenter, name_);
    p.setFont(face(13));
    if (isEnabled() && !isChecked()) p.setPen(t.soft_ink);
    p.drawText(QRect(14, 30, width() - 28, 18), Qt::AlignLeft | Qt::AlignVCenter, line_);
    if (isChecked()) p.fillRect(QRect(0, height() - 3, width(), 3), t.action);
    if (hasFocus()) {
      p.setPen(QPen(t.action, 1, Qt::DashLine));
      p.drawRect(rect().adjusted(3, 3, -4, -5));
    }
  }

 private:
  QString name_, line_;
};

}  // namespace

StageBar::StageBar(QWidget* parent) : QWidget(parent) {
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(0, 0, 0, 0);
  across->setSpacing(6);
  const QStringList names{QStringLiteral("Trials"), QStringLiteral("Plan"),     QStringLiteral("Brew"),
                          QStringLiteral("Taste"),  QStringLiteral("Findings"), QStringLiteral("Report")};
  for (int i = 0; i < names.size(); ++i) {
    auto* b = new PlaceButton(names[i], this);
    b->setAutoExclusive(true);
    b->setShortcut(QKeySequence(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_1 + i)));
    b->setToolTip(b->shortcut().toString(QKeySequence::NativeText));
    connect(b, &QToolButton::clicked, this, [this, i] { emit chosen(static_cast<Place>(i)); });
    across->addWidget(b);
    buttons_.push_back(b);
  }
}

void StageBar::set_current(Place place) {
  buttons_[static_cast<std::size_t>(place)]->setChecked(true);
}

void StageBar::set_state(Place place, const QString& line, bool enabled) {
  auto* b = static_cast<PlaceButton*>(buttons_[static_cast<std::size_t>(place)]);
  b->set_line(line);
  b->setEnabled(enabled);
}

}  // namespace likeleaf::ui
