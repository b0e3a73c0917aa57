#include "ui/taste/day_page.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/wording/errors.h"
#include "ui/theme/theme.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

DayPage::DayPage(TasterPort& port, const Clock& clock, QWidget* parent) : QWidget(parent), port_(port), clock_(clock) {
  const Tokens& t = tokens();
  auto* around = new QHBoxLayout(this);
  around->setContentsMargins(28, 44, 28, 28);
  auto* column = new QWidget(this);
  column->setMaximumWidth(760);
  around->addStretch(1);
  around->addWidget(column, 8);
  around->addStretch(1);
  auto* down = new QVBoxLayout(column);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(10);
  title_ = plain_label({}, face(22, Weight::semi_bold), t.ink, column);
  title_->setObjectName(QStringLiteral("day_title"));
  down->addWidget(title_);
  down->addWidget(plain_label(QStringLiteral("Asked once a sitting. Nothing here keeps you from tasting."), face(15),
                              t.soft_ink, column));
  down->addSpacing(6);
  const auto tick = [&](const QString& words, const char* name) {
    auto* box = new QCheckBox(words, column);
    box->setObjectName(QLatin1String(name));
    box->setAccessibleName(words);
    box->setFont(face(17));
    box->setMinimumHeight(44);
    box->setStyleSheet(QStringLiteral("QCheckBox{spacing:12px}QCheckBox::indicator{width:22px;height:22px}"));
    down->addWidget(box, 0, Qt::AlignLeft);
    return box;
  };
  cold_ = tick(QStringLiteral("I have a cold or a blocked nose"), "cold");
  ate_ = tick(QStringLiteral("I ate strong or spicy food within the hour"), "ate");
  swallows_ = tick(QStringLiteral("I swallow (otherwise: I spit)"), "swallows");
  note_ = underlined_edit(QStringLiteral("anything else today"), column);
  note_->setObjectName(QStringLiteral("day_note"));
  note_->setAccessibleName(QStringLiteral("Anything else today"));
  note_->setMaxLength(2000);
  note_->setMinimumHeight(40);
  down->addWidget(note_);
  message_ = plain_label({}, face(15), t.caution, column);
  message_->setObjectName(QStringLiteral("day_message"));
  message_->hide();
  down->addWidget(message_);
  down->addSpacing(18);
  // Told at the start, where it can still keep somebody from harm.
  if (!port_.setup().agreed_words.empty()) {
    auto* agreed =
        plain_label(QStringLiteral("Agreed in the open: %1").arg(QString::fromStdString(port_.setup().agreed_words)),
                    face(15), t.ink, column);
    agreed->setObjectName(QStringLiteral("agreed_words"));
    down->addWidget(agreed);
  }
  if (!port_.setup().allergens.empty()) {
    QStringList all;
    for (const auto& one : port_.setup().allergens) all << QString::fromStdString(one);
    auto* label = plain_label(QStringLiteral("On this table there is: %1. If that is not for you, do not taste.")
                                  .arg(all.join(QStringLiteral("; "))),
                              face(15, Weight::semi_bold), t.caution, column);
    label->setObjectName(QStringLiteral("day_allergens"));
    down->addWidget(label);
  }
  QStringList cautions;
  for (const auto& one : port_.setup().cautions) cautions << QString::fromStdString(one);
  auto* minded = plain_label(cautions.join(QLatin1Char('\n')), face(15), t.caution, column);
  minded->setObjectName(QStringLiteral("day_cautions"));
  down->addWidget(minded);
  down->addStretch(1);
  auto* begin = new QuietButton(QStringLiteral("Begin with the first pair"), QuietButton::Look::filled, column);
  begin->setObjectName(QStringLiteral("begin"));
  begin->setMinimumHeight(44);
  connect(begin, &QPushButton::clicked, this, &DayPage::keep);
  down->addWidget(begin, 0, Qt::AlignRight);
}

void DayPage::show_sitting(int sitting, int of) {
  if (sitting_ != sitting) {
    for (auto* box : {cold_, ate_, swallows_}) box->setChecked(false);
    note_->clear();
    message_->hide();
  }
  sitting_ = sitting;
  title_->setText(of > 1 ? QStringLiteral("How are you today? Sitting %1 of %2").arg(sitting).arg(of)
                         : QStringLiteral("How are you today?"));
  cold_->setFocus();
}

void DayPage::keep() {
  DayState state;
  state.sitting = sitting_;
  state.cold = cold_->isChecked();
  state.ate_lately = ate_->isChecked();
  state.swallows = swallows_->isChecked();
  state.note = note_->text().toStdString();
  state.noted = clock_.now();
  const auto done = port_.day_state(state);
  message_->setText(done ? QString() : QString::fromStdString(wording::sentence(done.error())));
  message_->setVisible(!done);
  if (done) emit kept();
}

void DayPage::keyPressEvent(QKeyEvent* event) {
  if ((event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) && !event->isAutoRepeat()) return keep();
  QWidget::keyPressEvent(event);
}

}  // namespace likeleaf::ui
