#include "ui/paper/paper_cell.h"

#include <QKeyEvent>
#include <utility>

#include "ui/theme/theme.h"

namespace likeleaf::ui {

PaperCell::PaperCell(std::function<QString(const QString&)> take, QWidget* parent)
    : QLineEdit(parent), take_(std::move(take)) {
  setFrame(false);
  setFont(face(15));
  setFixedHeight(21);
  QPalette palette = this->palette();
  palette.setColor(QPalette::Text, tokens().ink);
  palette.setColor(QPalette::PlaceholderText, tokens().soft_ink);
  palette.setColor(QPalette::Disabled, QPalette::Text, tokens().soft_ink);
  palette.setColor(QPalette::Disabled, QPalette::PlaceholderText, tokens().soft_ink);
  setPalette(palette);
  setContextMenuPolicy(Qt::NoContextMenu);
}

void PaperCell::set_kept(const QString& text) {
  const bool typing = hasFocus() && this->text() != kept_ && !busy_;
  kept_ = text;
  if (typing || this->text() == text) return;
  setText(text);
  setCursorPosition(0);
  if (hasFocus()) selectAll();
}

bool PaperCell::commit() {
  if (busy_ || text() == kept_) return true;
  busy_ = true;
  const QString before = kept_;
  const QString sentence = take_(text());
  if (!sentence.isEmpty()) {
    kept_ = before;
    setText(kept_);
    if (hasFocus()) selectAll();
    emit refused(sentence);
  } else {
    // What was typed as "7." is shown as it was taken.
    if (text() != kept_) setText(kept_);
    setCursorPosition(0);
    emit accepted();
  }
  busy_ = false;
  return sentence.isEmpty();
}

void PaperCell::keyPressEvent(QKeyEvent* event) {
  const bool whole = !hasSelectedText() || selectedText() == text();
  switch (event->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
    case Qt::Key_Down:
      focusNextPrevChild(true);
      return;
    case Qt::Key_Up:
      focusNextPrevChild(false);
      return;
    case Qt::Key_Left:
    case Qt::Key_Right: {
      const int step = event->key() == Qt::Key_Right ? 1 : -1;
      const bool at_end = cursorPosition() == (step > 0 ? text().size() : 0) || selectedText() == text();
      if (!whole || !at_end) break;
      if (commit()) emit sideways(step);
      return;
    }
    case Qt::Key_Escape:
      if (text() == kept_) return event->ignore();
      setText(kept_);
      selectAll();
      return;
    default:
      break;
  }
  if (event->matches(QKeySequence::Undo)) {
    if (text() != kept_) {
      setText(kept_);
      selectAll();
    } else {
      emit undo_wanted();
    }
    return;
  }
  if (event->key() == Qt::Key_PageDown || event->key() == Qt::Key_PageUp) return event->ignore();
  QLineEdit::keyPressEvent(event);
}

bool PaperCell::focusNextPrevChild(bool next) {
  // Staying where the refusal stands is an answer too; and a box that is done for good (the guess) has already handed
  // the focus on when it was closed.
  return commit() && hasFocus() ? QLineEdit::focusNextPrevChild(next) : true;
}

void PaperCell::focusInEvent(QFocusEvent* event) {
  QLineEdit::focusInEvent(event);
  selectAll();
  emit focused();
}

void PaperCell::focusOutEvent(QFocusEvent* event) {
  commit();
  deselect();
  setCursorPosition(0);
  QLineEdit::focusOutEvent(event);
}

void PaperCell::mousePressEvent(QMouseEvent* event) {
  QLineEdit::mousePressEvent(event);
  emit pressed();
}

void PaperCell::hideEvent(QHideEvent* event) {
  commit();
  QLineEdit::hideEvent(event);
}

}  // namespace likeleaf::ui
