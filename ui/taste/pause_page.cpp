#include "ui/taste/pause_page.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/theme/theme.h"
#include "ui/widgets/clock_face.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

PausePage::PausePage(QWidget* parent) : QWidget(parent) {
  const Tokens& t = tokens();
  setFocusPolicy(Qt::ClickFocus);
  auto* around = new QHBoxLayout(this);
  around->setContentsMargins(28, 64, 28, 28);
  auto* column = new QWidget(this);
  column->setMaximumWidth(760);
  around->addStretch(1);
  around->addWidget(column, 8);
  around->addStretch(1);
  auto* down = new QVBoxLayout(column);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(14);
  title_ = plain_label({}, face(22, Weight::semi_bold), t.ink, column);
  title_->setObjectName(QStringLiteral("pause_title"));
  clock_ = new ClockFace(column, Qt::AlignLeft);
  clock_->setFixedHeight(96);
  clock_->setObjectName(QStringLiteral("pause_clock"));
  words_ = plain_label({}, face(17), t.soft_ink, column);
  words_->setObjectName(QStringLiteral("pause_words"));
  for (QWidget* one : std::initializer_list<QWidget*>{title_, clock_, words_}) down->addWidget(one);
  down->addStretch(1);
  look_row_ = new QWidget(column);
  looks_ = new QHBoxLayout(look_row_);
  looks_->setContentsMargins(0, 0, 0, 0);
  looks_->setSpacing(4);
  look_label_ = plain_label(QStringLiteral("Look at a locked sheet:"), face(15), t.soft_ink, look_row_);
  look_label_->setWordWrap(false);
  looks_->addWidget(look_label_);
  looks_->addStretch(1);
  down->addWidget(look_row_);
  auto* across = new QHBoxLayout;
  across->setSpacing(12);
  const auto button = [&](const QString& text, QuietButton::Look look, const char* name) {
    auto* one = new QuietButton(text, look, column);
    one->setObjectName(QLatin1String(name));
    one->setMinimumHeight(44);
    return one;
  };
  leave_ = button(QStringLiteral("Leave the table"), QuietButton::Look::outlined, "leave");
  early_ = button(QStringLiteral("End the rest now"), QuietButton::Look::outlined, "rest_early");
  onward_ = button({}, QuietButton::Look::filled, "next");
  across->addStretch(1);
  for (auto* one : {leave_, early_, onward_}) across->addWidget(one);
  down->addLayout(across);
  connect(leave_, &QPushButton::clicked, this, &PausePage::leave_wanted);
  connect(early_, &QPushButton::clicked, this, &PausePage::onward);
  connect(onward_, &QPushButton::clicked, this, [this] {
    if (leave_->isHidden())
      emit leave_wanted();
    else
      emit onward();
  });
}

void PausePage::show_locked(const QStringList& locked) {
  look_row_->setVisible(!locked.isEmpty());
  if (locked == locked_) return;
  locked_ = locked;
  while (looks_->count() > 2) {
    auto* item = looks_->takeAt(1);
    delete item->widget();
    delete item;
  }
  for (int i = 0; i < locked.size(); ++i) {
    auto* one = new QuietButton(locked[i], QuietButton::Look::link, look_row_);
    one->setObjectName(QStringLiteral("look_%1").arg(i));
    one->setAccessibleName(QStringLiteral("Look at the locked sheet of %1").arg(locked[i]));
    one->setMinimumHeight(44);
    // Queued: looking may take this very button away.
    connect(
        one, &QPushButton::clicked, this, [this, i] { emit look_wanted(i); }, Qt::QueuedConnection);
    looks_->insertWidget(1 + i, one);
  }
}

void PausePage::show_words(const Words& words) {
  rests_ = false;
  over_.reset();
  title_->setText(words.title);
  setAccessibleName(words.title);
  words_->setText(words.text);
  clock_->hide();
  early_->hide();
  const bool ends = words.onward.isEmpty();
  onward_->setText(ends ? leave_->text() : words.onward);
  leave_->setVisible(!ends);
  onward_->show();
  show_locked(words.locked);
  take_focus();
}

void PausePage::show_rest(std::int64_t left_ms, const QStringList& locked) {
  const bool over = left_ms <= 0;
  rests_ = true;
  title_->setText(QStringLiteral("Rest"));
  setAccessibleName(QStringLiteral("Rest"));
  clock_->show_time(left_text(left_ms));
  clock_->show();
  words_->setText(over ? QStringLiteral("Rested. Take the next pair when it stands in front of you.")
                       : QStringLiteral("Rinse with water and wait until the mouth is clean."));
  show_locked(locked);
  if (over_ == over) return;
  over_ = over;
  onward_->setText(QStringLiteral("Next pair"));
  onward_->setVisible(over);
  early_->setVisible(!over);
  leave_->show();
  take_focus();
}

void PausePage::take_focus() {
  if (!onward_->isHidden())
    onward_->setFocus();
  else
    setFocus();  // Enter, pressed once too often, does not cut the rest short
}

void PausePage::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  // The screen looks at the clock once more: it may have run out since it was painted.
  if (enter && rests_ && !event->isAutoRepeat()) return emit asked();
  QWidget::keyPressEvent(event);
}

}  // namespace likeleaf::ui
