#pragma once
#include <QWidget>
#include <optional>

class QLabel;
class QPushButton;

namespace likeleaf::ui {

/// Across the window under its head while something typed is not on disk: what stands in the way, one button to try
/// again, and, when the window was to be closed, one to close it all the same. No dialog: work goes on under it.
class KeptStrip final : public QWidget {
  Q_OBJECT
 public:
  explicit KeptStrip(QWidget* parent = nullptr);
  /// `why` as a sentence. `closing`: the window was about to close.
  void show_not_kept(const QString& why, bool closing);
  void clear();

 signals:
  void retry_wanted();
  void close_wanted();

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QLabel* words_;
  QPushButton *retry_, *close_;
  std::optional<QString> said_;  ///< why it was not kept, as last said
};

}  // namespace likeleaf::ui
