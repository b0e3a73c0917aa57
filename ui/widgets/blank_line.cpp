#include "ui/widgets/blank_line.h"

#include <QEvent>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>
#include <QVariant>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

BlankLine::BlankLine(const QString& name, const QString& placeholder, QWidget* parent)
    : QWidget(parent), line_(new QLineEdit(this)), message_(new QLabel(this)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 0, 0, 0);
  down->setSpacing(2);
  line_->setFrame(false);
  line_->setFont(face(15, Weight::semi_bold));
  line_->setMinimumHeight(30);
  line_->setPlaceholderText(placeholder);
  line_->setAccessibleName(name);
  line_->installEventFilter(this);
  message_->setFont(face(15));
  message_->setWordWrap(true);
  message_->setTextFormat(Qt::PlainText);
  QPalette amber = message_->palette();
  amber.setColor(QPalette::WindowText, tokens().caution);
  message_->setPalette(amber);
  message_->hide();
  down->addWidget(line_);
  down->addWidget(message_);
  setFocusProxy(line_);
  restyle();
  connect(line_, &QLineEdit::editingFinished, this, &BlankLine::finish);
  connect(line_, &QLineEdit::textEdited, this, &BlankLine::typing);
}

BlankLine::~BlankLine() {
  // The base class takes the focus from the line while it goes, and a line that loses it is finished.
  line_->disconnect(this);
}

void BlankLine::set_value(const QString& value, bool even_while_writing) {
  const bool writing = line_->hasFocus() && line_->text() != standing_ && !finishing_;
  standing_ = value;
  if (!writing || even_while_writing) {
    if (line_->text() != value) {
      line_->setText(value);
      if (!line_->hasFocus()) line_->setCursorPosition(0);
    }
    line_->setModified(false);
  }
}

QString BlankLine::value() const {
  return line_->text();
}

void BlankLine::set_message(const QString& message) {
  message_text_ = message;
  show_words();
}

QString BlankLine::message() const {
  return message_text_;
}

void BlankLine::set_note(const QString& note) {
  note_ = note;
  show_words();
}

void BlankLine::show_words() {
  const QString& said = message_text_.isEmpty() ? note_ : message_text_;
  if (said == said_) return;
  said_ = said;
  message_->setText(said);
  if (!place_) {
    message_->setVisible(!said.isEmpty());
  } else if (const QVariant own = QVariant::fromValue<QObject*>(this);
             !said.isEmpty() || place_->property("speaker") == own) {
    place_->setProperty("speaker", own);
    place_->setText(said);
    place_->setVisible(!said.isEmpty());
  }
  line_->setAccessibleDescription(said);
}

void BlankLine::set_wanted(bool wanted) {
  if (wanted_ == wanted) return;
  wanted_ = wanted;
  restyle();
}

void BlankLine::set_quiet(bool quiet) {
  quiet_ = quiet;
  restyle();
}

void BlankLine::set_read_only(bool read_only) {
  line_->setReadOnly(read_only);
  restyle();
}

void BlankLine::finish() {
  // Enter and the loss of focus that follows it are one act; so is a message that moves the focus.
  if (finishing_ || line_->isReadOnly() || line_->text() == standing_) return;
  finishing_ = true;
  emit typed(line_->text());
  finishing_ = false;
}

bool BlankLine::eventFilter(QObject* watched, QEvent* event) {
  if (watched == line_ && event->type() == QEvent::KeyPress &&
      static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape && line_->text() != standing_) {
    line_->setText(standing_);
    set_message({});
    return true;
  }
  if (watched == line_ && (event->type() == QEvent::FocusIn || event->type() == QEvent::FocusOut)) restyle();
  return QWidget::eventFilter(watched, event);
}

void BlankLine::restyle() {
  const Tokens& t = tokens();
  QPalette p = line_->palette();
  p.setColor(QPalette::Base, Qt::transparent);
  // Not by the style sheet: that would thin the placeholder to half, under what can be read.
  p.setColor(QPalette::Text, t.ink);
  p.setColor(QPalette::PlaceholderText, t.soft_ink);
  line_->setPalette(p);
  const QString rule = line_->isReadOnly() ? QStringLiteral("1px solid transparent")
                       : line_->hasFocus() ? QStringLiteral("2px solid %1").arg(t.action.name())
                       : wanted_           ? QStringLiteral("1px dashed %1").arg(t.caution.name())
                                           : QStringLiteral("1px solid %1").arg((quiet_ ? t.line : t.ink).name());
  line_->setStyleSheet(
      QStringLiteral("QLineEdit { background: transparent; border: none; border-bottom: %1; padding: 2px; }")
          .arg(rule));
}

}  // namespace likeleaf::ui
