#include "ui/widgets/tap_timer.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QKeyEvent>
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
  down->setSpacing(2);
  auto* across = new QHBoxLayout;
  across->setSpacing(10);
  code_ = plain_label({}, face(15, Weight::semi_bold), tokens().ink, this);
  button_ = new QuietButton(QStringLiteral("mouth empty"), QuietButton::Look::outlined, this);
  button_->setObjectName(QStringLiteral("tap"));
  button_->setMinimumHeight(40);
  time_ = plain_label({}, face(22, Weight::semi_bold), tokens().ink, this);
  again_ = new QuietButton(QStringLiteral("start over"), QuietButton::Look::bare, this);
  again_->setObjectName(QStringLiteral("tap_again"));
  again_->setMinimumHeight(40);
  for (auto* label : {code_, time_}) label->setWordWrap(false);
  line_ = underlined_edit(QStringLiteral("or seconds"), this);
  line_->setObjectName(QStringLiteral("finish_typed"));
  line_->setFixedWidth(86);
  line_->setMaxLength(40);
  message_ = plain_label({}, face(15), tokens().caution, this);
  message_->hide();
  across->addWidget(code_);
  across->addWidget(button_);
  across->addWidget(time_);
  across->addWidget(again_);
  across->addStretch(1);
  across->addWidget(line_);
  down->addLayout(across);
  down->addWidget(message_);
  tick_ = new QTimer(this);
  tick_->setInterval(200);
  connect(tick_, &QTimer::timeout, this, &TapTimer::show_now);
  connect(button_, &QPushButton::clicked, this, &TapTimer::tap);
  connect(again_, &QPushButton::clicked, this, &TapTimer::start_over);
  connect(line_, &QLineEdit::editingFinished, this, &TapTimer::typed);
  for (QWidget* one : std::initializer_list<QWidget*>{button_, again_, line_}) one->installEventFilter(this);
  show_now();
}

void TapTimer::set_name(const QString& name, const QString& code) {
  line_->setAccessibleName(name + QStringLiteral(", in seconds"));
  button_->setAccessibleDescription(name);
  again_->setAccessibleDescription(name);
  setAccessibleName(name);
  code_->setText(code);
  code_->setVisible(!code.isEmpty());
}

QString TapTimer::text_of(const Mark& mark) {
  if (const auto* time = std::get_if<FinishTime>(&mark)) {
    if (time->cut_off()) return QString::fromStdString(mark_text(mark)) + QStringLiteral("\u00A0s");
    return minutes(time->seconds());
  }
  return QString::fromStdString(mark_text(mark));
}

void TapTimer::set_mark(const std::optional<Mark>& mark, Keep keep) {
  if (mark_ != mark) set_message({});
  mark_ = mark;
  keep_ = keep;
  if (mark_) reset();
  if (!line_->hasFocus() || !mark_) line_->setText(mark_ ? QString::fromStdString(mark_text(*mark_)) : QString());
  show_now();
}

void TapTimer::set_message(const QString& message) {
  message_->setText(message);
  message_->setVisible(!message.isEmpty());
  line_->setAccessibleDescription(message);
}

QString TapTimer::message() const {
  return message_->text();
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

void TapTimer::start_over() {
  if (since_) return reset();
  emit mark_wanted(std::nullopt);
}

void TapTimer::show_now() {
  button_->setVisible(!mark_);
  button_->setText(since_ ? QStringLiteral("all gone") : QStringLiteral("mouth empty"));
  again_->setVisible(mark_.has_value() || since_.has_value());
  if (mark_)
    time_->setText((keep_ == Keep::failed ? QStringLiteral("! ") : QString()) + text_of(*mark_));
  else
    time_->setText(minutes(since_ ? elapsed(*since_, clock_.now()).count() / 1000 : 0));
  soften(time_, mark_ ? keep_ : Keep::kept);
}

bool TapTimer::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::FocusIn) emit focused();
  if (event->type() == QEvent::KeyPress && watched != line_) {
    // On the button a number is a time that was taken by another clock.
    const QString typed = static_cast<QKeyEvent*>(event)->text();
    if (!typed.isEmpty() &&
        (typed.at(0).isDigit() || typed.at(0) == QLatin1Char('<') || typed.at(0) == QLatin1Char('>'))) {
      line_->setFocus(Qt::OtherFocusReason);
      line_->setText(typed);
      return true;
    }
    if (static_cast<QKeyEvent*>(event)->key() == Qt::Key_Backspace && (mark_ || since_)) {
      start_over();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
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
  // The old value is kept, and stands there again.
  line_->setText(kept);
  emit refused(mark.error());
}

}  // namespace likeleaf::ui
