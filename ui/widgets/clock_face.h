#pragma once
#include <QString>
#include <QWidget>

namespace likeleaf::ui {

/// A clock to be read at two metres: "0:11" in 84 px; what it shows is its accessible name.
class ClockFace final : public QWidget {
  Q_OBJECT
 public:
  explicit ClockFace(QWidget* parent = nullptr, Qt::Alignment side = Qt::AlignRight);
  /// Repaints only when the words change.
  void show_time(const QString& time);
  [[nodiscard]] const QString& time() const { return time_; }
  [[nodiscard]] QSize sizeHint() const override { return {250, 96}; }
  [[nodiscard]] QSize minimumSizeHint() const override { return {120, 96}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QString time_;
  Qt::Alignment side_;
};

}  // namespace likeleaf::ui
