#include "ui/widgets/tap_timer.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QTimer>
#include <QVBoxLayout>

#include "core/domain/attribute.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {
namespace {

QString minutes(std::int64_t seconds) {
  return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

}  // namespace

TapTimer::TapTimer(const Clock& clock, QWidget* parent) : QWidget(parent), clock_(clock) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(4);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  button_ = new QuietButton(QStringLiteral("mouth empty"), QuietButton::Look::outlined, this);
  button_->setObjectName(QStringLiteral("tap"));
  time_ = plain_label({}, face(22, Weight::semi_bold), tokens().ink, this);
  time_->setWordWrap(false);
  line_ = underlined_edit(QStringLiteral("or seconds"), this);
  line_->setObjectName(QStringLiteral("finish_typed"));
  line_->setMaximumWidth(104);
  line_->setMaxLength(40);
  across->addWidget(button_);
  across->addWidget(time_);
  across->addStretch(1);
  across->addWidget(line_);
  down->addLayout(across);
  tick_ = new QTimer(this);
  tick_->setInterval(200);
  connect(tick_, &QTimer::timeout, this, &TapTimer::show_now);
  connect(button_, &QPushButton::clicked, this, &TapTimer::tap);
  connect(line_, &QLineEdit::editingFinished, this, &TapTimer::typed);
  show_now();
}

void TapTimer::set_name(const QString& name) {
  line_->setAccessibleName(name + QStringLiteral(", in seconds"));
  button_->setAccessibleDescription(name);
  setAccessibleName(name);
}

QString TapTimer::text_of(const Mark& mark) {
  if (const auto* time = std::get_if<FinishTime>(&mark)) {
    if (time->cut_off()) return QString::fromStdString(mark_text(mark)) + QStringLiteral("\u00A0s");
    return minutes(time->seconds());
  }
  return QString::fromStdString(mark_text(mark));
}

void TapTimer::set_mark(const std::optional<Mark>& mark) {
  mark_ = mark;
  if (mark_) reset();
  if (!line_->hasFocus() || !mark_) line_->setText(mark_ ? QString::fromStdString(mark_text(*mark_)) : QString());
  show_now();
}

void TapTimer::reset() {
  since_.reset();
  tick_->stop();
  show_now();
}

void TapTimer::tap() {
  if (mark_) return;
  if (!since_) {
    since_ = clock_.now();
    tick_->start();
    show_now();
    return;
  }
  // A time from 3 to 120 s is kept in whole seconds, rounded to the nearest; what lies outside is kept as such.
  const auto gone = elapsed(*since_, clock_.now()).count();
  emit mark_wanted(Mark(FinishTime::from_seconds(static_cast<int>(std::min<std::int64_t>((gone + 500) / 1000, 600)))));
}

void TapTimer::show_now() {
  button_->setVisible(!mark_);
  button_->setText(since_ ? QStringLiteral("all gone") : QStringLiteral("mouth empty"));
  if (mark_)
    time_->setText(text_of(*mark_));
  else
    time_->setText(minutes(since_ ? elapsed(*since_, clock_.now()).count() / 1000 : 0));
}

void TapTimer::typed() {
  const QString now = line_->text().trimmed();
  const QString kept = mark_ ? QString::fromStdString(mark_text(*mark_)) : QString();
  if (now == kept) return;
  if (now.isEmpty()) {
    emit mark_wanted(std::nullopt);
    return;
  }
  const auto mark = parse_mark(Scale::seconds, now.toStdString(), "finish length");
  if (mark) {
    emit mark_wanted(*mark);
    return;
  }
  line_->setText(kept);
  emit refused(mark.error());
}

}  // namespace likeleaf::ui
