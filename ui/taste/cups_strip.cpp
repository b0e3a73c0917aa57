#include "ui/taste/cups_strip.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTimer>
#include <QVBoxLayout>

#include "ui/taste/cup_mark.h"
#include "ui/widgets/quiet.h"

namespace likeleaf::ui {

CupsStrip::CupsStrip(QWidget* parent) : QWidget(parent) {
  auto* across = new QHBoxLayout(this);
  across->setContentsMargins(28, 0, 28, 0);
  across->setSpacing(14);
  for (const Side side : {Side::left, Side::right}) parts(side).mark = new CupMark(this);
  steps_ = new QWidget(this);
  steps_->setFixedWidth(270);  // the cups do not move when the steps between them change
  auto* row = new QHBoxLayout(steps_);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(0);
  across->addStretch(1);
  across->addWidget(make_aside(Side::left));
  across->addWidget(parts(Side::left).mark);
  across->addWidget(steps_);
  across->addWidget(parts(Side::right).mark);
  across->addWidget(make_aside(Side::right));
  across->addStretch(1);
  setFixedHeight(88);
}

QWidget* CupsStrip::make_aside(Side side) {
  Parts& c = parts(side);
  const bool left = side == Side::left;
  const QString name = left ? QStringLiteral("left") : QStringLiteral("right");
  auto* aside = new QWidget(this);
  aside->setFixedWidth(230);
  auto* down = new QVBoxLayout(aside);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(2);
  c.fault = new QuietButton({}, QuietButton::Look::bare, aside);
  c.fault->setCheckable(true);
  c.fault->setObjectName(QStringLiteral("fault_") + name);
  c.fault->setToolTip(QStringLiteral("F: something is wrong with this cup"));
  c.sipped = new QuietButton(QStringLiteral("I sipped this one first"), QuietButton::Look::bare, aside);
  c.sipped->setObjectName(QStringLiteral("sipped_") + name);
  c.note = underlined_edit(QStringLiteral("what is wrong with it"), aside);
  c.note->setObjectName(QStringLiteral("fault_note_") + name);
  c.note->setMaxLength(2000);
  c.note->installEventFilter(this);
  c.message = plain_label({}, face(15), tokens().caution, aside);
  for (auto* button : {c.fault, c.sipped}) button->setMinimumHeight(36);
  const auto side_of = left ? Qt::AlignRight : Qt::AlignLeft;
  down->addStretch(1);
  down->addWidget(c.fault, 0, side_of);
  down->addWidget(c.sipped, 0, side_of);
  down->addWidget(c.note);
  down->addWidget(c.message);
  down->addStretch(1);
  connect(c.fault, &QPushButton::clicked, this, [this, side](bool on) {
    // A note without its fault would stay behind unseen.
    emit fault_wanted(side, on, on ? parts(side).note->text() : QString());
    if (on) begin_fault_note(side);
  });
  connect(c.sipped, &QPushButton::clicked, this, [this, side] { emit sipped_first_wanted(side); });
  connect(c.note, &QLineEdit::editingFinished, this, [this, side] { keep_note(side); });
  return aside;
}

void CupsStrip::keep_note(Side side) {
  Parts& c = parts(side);
  if (c.look.fault && c.note->text() != c.look.fault_note) emit fault_wanted(side, true, c.note->text());
}

void CupsStrip::begin_fault_note(Side side) {
  if (!parts(side).note->isHidden()) parts(side).note->setFocus();
}

void CupsStrip::set_cup(Side side, const Look& look) {
  Parts& c = parts(side);
  c.look = look;
  const QString name = QStringLiteral("cup ") + look.code;
  c.mark->set(look.code,
              QStringLiteral("%1, %2").arg(name, side == Side::left ? QStringLiteral("left") : QStringLiteral("right")),
              look.in_hand);
  c.fault->setVisible(look.asks_fault);
  c.fault->setChecked(look.fault);
  c.fault->setText(!look.fault                 ? QStringLiteral("fault in this cup")
                   : look.keep == Keep::failed ? QStringLiteral("! fault in this cup")
                                               : QStringLiteral("✓ fault in this cup"));
  c.fault->setAccessibleName(QStringLiteral("fault in ") + name);
  c.sipped->setVisible(look.asks_first);
  c.sipped->setAccessibleName(QStringLiteral("I sipped %1 first").arg(name));
  c.note->setVisible(look.asks_fault && look.fault);
  c.note->setAccessibleName(QStringLiteral("What is wrong with ") + name);
  if (!c.note->hasFocus() && c.note->text() != look.fault_note) c.note->setText(look.fault_note);
  soften(c.note, look.keep);
  if (!look.fault) set_fault_message(side, {});
}

void CupsStrip::set_fault_message(Side side, const QString& message) {
  parts(side).message->setText(message);
  parts(side).message->setVisible(!message.isEmpty());
  parts(side).note->setAccessibleDescription(message);
}

void CupsStrip::set_steps(const QStringList& names, int now) {
  qDeleteAll(buttons_);
  buttons_.clear();
  auto* row = static_cast<QHBoxLayout*>(steps_->layout());
  while (auto* item = row->takeAt(0)) delete item;
  row->addStretch(1);
  for (int i = 0; i < names.size(); ++i) {
    auto* button = new QuietButton(names[i], QuietButton::Look::bare, steps_);
    button->setFocusPolicy(Qt::NoFocus);  // Page Up and Enter walk the steps by keyboard
    button->setObjectName(QStringLiteral("step_%1").arg(i));
    button->setMinimumHeight(40);
    if (i == now) {
      button->setFont(face(15, Weight::bold));
      button->setStyleSheet(
          QStringLiteral(
              "QPushButton{background:transparent;color:%1;border:0;border-bottom:2px solid %2;padding:4px 8px}")
              .arg(tokens().ink.name(), tokens().action.name()));
      button->setAccessibleDescription(QStringLiteral("now"));
    }
    // Queued: the button goes with the steps that it changes.
    connect(
        button, &QPushButton::clicked, this, [this, i] { emit step_wanted(i); }, Qt::QueuedConnection);
    row->addWidget(button);
    buttons_.push_back(button);
  }
  row->addStretch(1);
}

bool CupsStrip::eventFilter(QObject* watched, QEvent* event) {
  // Enter in the note keeps it; it does not walk on to the next step.
  if (event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (key == Qt::Key_Return || key == Qt::Key_Enter)
      for (const Side side : {Side::left, Side::right})
        if (watched == parts(side).note) {
          keep_note(side);
          return true;
        }
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace likeleaf::ui
