#pragma once
// A choice written on paper: its words over a thin line, with a small arrow.
#include <QCheckBox>
#include <QComboBox>

namespace likeleaf::ui {

/// Arrow keys, Space and Enter open the list; there arrows move, Enter takes and Escape leaves. Nothing is changed by
/// walking over it: neither keys nor the wheel change a choice whose list is closed.
class ChoiceLine final : public QComboBox {
  Q_OBJECT
 public:
  explicit ChoiceLine(const QString& name, QWidget* parent = nullptr);
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override;

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;
  void paintEvent(QPaintEvent* event) override;
};

/// A tick that is a filled dot for yes and a ring for no.
class DotTick final : public QCheckBox {
  Q_OBJECT
 public:
  explicit DotTick(const QString& text, QWidget* parent = nullptr);

 protected:
  void paintEvent(QPaintEvent* event) override;
};

}  // namespace likeleaf::ui
