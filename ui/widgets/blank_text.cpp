#include "ui/widgets/blank_text.h"

#include <QAbstractTextDocumentLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QTextEdit>
#include <QVBoxLayout>
#include <QVariant>
#include <cmath>

#include "ui/theme/theme.h"

namespace likeleaf::ui {
namespace {

constexpr int least_height = 25;

}  // namespace

BlankText::BlankText(const QString& name, const QString& placeholder, QWidget* parent)
    : QWidget(parent), page_(new QTextEdit(this)), words_(new QLabel(this)) {
  auto* down = new QVBoxLayout(this);
  down->setContentsMargins(0, 3, 0, 2);  // words level with a BlankLine’s, and room for the line under them
  down->setSpacing(4);
  page_->setAcceptRichText(false);
  page_->setTabChangesFocus(true);
  page_->setFrameShape(QFrame::NoFrame);
  page_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  page_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  page_->setLineWrapMode(QTextEdit::WidgetWidth);
  page_->setWordWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
  page_->document()->setDocumentMargin(2);
  page_->setFont(face(15, Weight::semi_bold));
  page_->setPlaceholderText(placeholder);
  page_->setAccessibleName(name);
  page_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
  page_->setMinimumWidth(60);
  page_->installEventFilter(this);
  QPalette clear = page_->palette();
  clear.setColor(QPalette::Base, Qt::transparent);
  page_->setPalette(clear);
  page_->viewport()->setAutoFillBackground(false);
  words_->setFont(face(15));
  words_->setWordWrap(true);
  words_->setTextFormat(Qt::PlainText);
  QPalette amber = words_->palette();
  amber.setColor(QPalette::WindowText, tokens().caution);
  words_->setPalette(amber);
  words_->hide();
  down->addWidget(page_);
  down->addWidget(words_);
  setFocusProxy(page_);
  connect(page_->document()->documentLayout(), &QAbstractTextDocumentLayout::documentSizeChanged, this,
          [this] { fit(); });
  fit();
}

void BlankText::fit() {
  const int wanted = std::max(least_height, static_cast<int>(std::ceil(page_->document()->size().height())) + 2);
  if (page_->height() == wanted && page_->minimumHeight() == wanted) return;
  page_->setFixedHeight(wanted);
}

void BlankText::set_value(const QString& value, bool even_while_writing) {
  const bool writing = page_->hasFocus() && page_->toPlainText() != standing_ && !finishing_;
  standing_ = value;
  if (writing && !even_while_writing) return;
  if (page_->toPlainText() != value) page_->setPlainText(value);
  page_->document()->setModified(false);
}

QString BlankText::value() const {
  return page_->toPlainText();
}

void BlankText::set_message(const QString& message) {
  message_text_ = message;
  show_words();
}

void BlankText::set_note(const QString& note) {
  note_ = note;
  show_words();
}

void BlankText::show_words() {
  const QString& said = message_text_.isEmpty() ? note_ : message_text_;
  if (said == said_) return;
  said_ = said;
  words_->setText(said);
  if (!place_) {
    words_->setVisible(!said.isEmpty());
  } else if (const QVariant own = QVariant::fromValue<QObject*>(this);
             !said.isEmpty() || place_->property("speaker") == own) {
    place_->setProperty("speaker", own);
    place_->setText(said);
    place_->setVisible(!said.isEmpty());
  }
  page_->setAccessibleDescription(said);
}

void BlankText::set_wanted(bool wanted) {
  wanted_ = wanted;
  update();
}

void BlankText::set_read_only(bool read_only) {
  page_->setReadOnly(read_only);
  // Nothing to write: nothing to stop at on the way through the page.
  page_->setFocusPolicy(read_only ? Qt::ClickFocus : Qt::StrongFocus);
  update();
}

void BlankText::finish() {
  if (finishing_ || page_->isReadOnly() || page_->toPlainText() == standing_) return;
  finishing_ = true;
  emit typed(page_->toPlainText());
  finishing_ = false;
}

bool BlankText::eventFilter(QObject* watched, QEvent* event) {
  if (watched != page_) return QWidget::eventFilter(watched, event);
  if (event->type() == QEvent::FocusIn || event->type() == QEvent::FocusOut) {
    update();
    if (event->type() == QEvent::FocusOut) finish();
  }
  if (event->type() == QEvent::KeyPress) {
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (enter && !(key->modifiers() & Qt::ShiftModifier)) {
      finish();
      return true;
    }
    if (key->key() == Qt::Key_Escape && page_->toPlainText() != standing_) {
      page_->setPlainText(standing_);
      set_message({});
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void BlankText::paintEvent(QPaintEvent*) {
  if (page_->isReadOnly()) return;
  const Tokens& t = tokens();
  QPainter p(this);
  const int y = page_->geometry().bottom() + 2;
  const bool here = page_->hasFocus();
  p.setPen(here ? QPen(t.action, 2) : wanted_ ? QPen(t.caution, 1, Qt::DashLine) : QPen(t.line, 1));
  p.drawLine(0, y, width(), y);
}

}  // namespace likeleaf::ui
