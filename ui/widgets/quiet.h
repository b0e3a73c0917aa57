#pragma once
// Small parts of the taster's screens.
#include <QFont>
#include <QPushButton>
#include <QString>

class QLabel;
class QLineEdit;

namespace likeleaf::ui {

/// A button that Space does not press: in Taste, Space is the tap of the finish and nothing else. Enter presses it.
class QuietButton final : public QPushButton {
  Q_OBJECT
 public:
  enum class Look { filled, outlined, bare };
  QuietButton(const QString& text, Look look, QWidget* parent);

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void keyReleaseEvent(QKeyEvent* event) override;
};

QLabel* plain_label(const QString& text, const QFont& font, const QColor& color, QWidget* parent);
QLineEdit* underlined_edit(const QString& hint, QWidget* parent);
/// "0:48" for what is left, never under zero.
QString left_text(std::int64_t milliseconds);

}  // namespace likeleaf::ui
