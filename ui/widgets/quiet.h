#pragma once
// Small parts of the taster's screens.
#include <QFont>
#include <QPushButton>
#include <QString>

#include "ui/widgets/keep.h"

class QLabel;
class QLineEdit;

namespace likeleaf::ui {

/// A button that Space does not press: in Taste, Space is the tap of the finish and nothing else. Enter presses it.
class QuietButton final : public QPushButton {
  Q_OBJECT
 public:
  enum class Look { filled, outlined, bare, link };  ///< link: bare, in the action colour
  QuietButton(const QString& text, Look look, QWidget* parent);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
};

QLabel* plain_label(const QString& text, const QFont& font, const QColor& color, QWidget* parent);
QLineEdit* underlined_edit(const QString& hint, QWidget* parent);
/// Soft ink while what it shows is on its way to the disk, the caution colour and a described mark when it was refused.
void soften(QWidget* widget, Keep keep);
/// For setToolTip: shown as it stands, even where it looks like HTML (Qt would take it for that).
QString tip_text(const QString& text);
/// For the text of buttons and boxes: an & in a name is not the mark of a short cut.
QString button_text(QString text);
/// "0:48" for what is left, never under zero.
QString left_text(std::int64_t milliseconds);

}  // namespace likeleaf::ui
