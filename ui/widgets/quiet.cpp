#include "ui/widgets/quiet.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

QuietButton::QuietButton(const QString& text, Look look, QWidget* parent) : QPushButton(text, parent) {
  const Tokens& t = tokens();
  setFocusPolicy(Qt::TabFocus);  // a click must not take the focus from the scale that it is about
  const bool plain = look == Look::bare || look == Look::link;
  setFont(face(15, look == Look::bare ? Weight::regular : Weight::semi_bold));
  setCursor(Qt::PointingHandCursor);
  const QString back = look == Look::filled     ? t.action.name()
                       : look == Look::outlined ? t.sheet.name()
                                                : QStringLiteral("transparent");
  const QString ink = look == Look::filled ? t.on_action.name()
                      : look == Look::bare ? t.soft_ink.name()
                                           : t.action.name();
  const QString edge = plain ? QStringLiteral("transparent") : t.action.name();
  setStyleSheet(
      QStringLiteral("QPushButton{background:%1;color:%2;border:1px solid %3;border-radius:6px;padding:%4;outline:none}"
                     "QPushButton:checked{background:%5;color:%6}"
                     "QPushButton:focus{border:2px solid %6}"
                     "QPushButton:disabled{background:transparent;color:%7;border:1px solid %8}")
          .arg(back, ink, edge, plain ? QStringLiteral("4px 8px") : QStringLiteral("9px 15px"), t.band.name(),
               t.ink.name(), t.soft_ink.name(), t.line.name()));
}

void QuietButton::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space || event->key() == Qt::Key_Left || event->key() == Qt::Key_Right ||
      event->key() == Qt::Key_Up || event->key() == Qt::Key_Down)
    return event->ignore();
  if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) return click();
  QPushButton::keyPressEvent(event);
}

void QuietButton::keyReleaseEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Space) return event->ignore();
  QPushButton::keyReleaseEvent(event);
}

QLabel* plain_label(const QString& text, const QFont& font, const QColor& color, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setFont(font);
  label->setWordWrap(true);
  label->setTextFormat(Qt::PlainText);
  QPalette palette = label->palette();
  palette.setColor(QPalette::WindowText, color);
  label->setPalette(palette);
  return label;
}

QString tip_text(const QString& text) {
  return Qt::mightBeRichText(text) ? Qt::convertFromPlainText(text) : text;
}

QString button_text(QString text) {
  return text.replace(QLatin1Char('&'), QStringLiteral("&&"));
}

QLineEdit* underlined_edit(const QString& hint, QWidget* parent) {
  const Tokens& t = tokens();
  auto* edit = new QLineEdit(parent);
  edit->setFrame(false);
  edit->setFont(face(15));
  edit->setPlaceholderText(hint);
  edit->setStyleSheet(
      QStringLiteral("QLineEdit{background:transparent;border:0;border-bottom:1px solid %1;padding:3px 0}"
                     "QLineEdit:focus{border-bottom:2px solid %2}"
                     "QLineEdit:disabled{border-bottom:1px solid %3}")
          .arg(t.soft_ink.name(), t.action.name(), t.line.name()));
  return edit;
}

void soften(QWidget* widget, Keep keep) {
  const Tokens& t = tokens();
  const QColor ink = keep == Keep::kept ? t.ink : keep == Keep::waiting ? t.soft_ink : t.caution;
  QPalette palette = widget->palette();
  palette.setColor(QPalette::WindowText, ink);
  palette.setColor(QPalette::Text, ink);
  widget->setPalette(palette);
  constexpr const char* told = "not_kept";  // what else a widget says of itself is left alone
  if (keep == Keep::failed)
    widget->setAccessibleDescription(QStringLiteral("not kept yet"));
  else if (widget->property(told).toBool())
    widget->setAccessibleDescription({});
  widget->setProperty(told, keep == Keep::failed);
}

QString left_text(std::int64_t milliseconds) {
  const auto seconds = milliseconds <= 0 ? 0 : (milliseconds + 999) / 1000;
  return QStringLiteral("%1:%2").arg(seconds / 60).arg(seconds % 60, 2, 10, QLatin1Char('0'));
}

}  // namespace likeleaf::ui
