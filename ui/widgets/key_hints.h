#pragma once
#include <QWidget>
#include <utility>
#include <vector>

namespace likeleaf::ui {

/// "[0–9] score [.] half": each key in a small frame, what it does beside it.
class KeyHints final : public QWidget {
  Q_OBJECT
 public:
  using Hints = std::vector<std::pair<QString, QString>>;
  explicit KeyHints(QWidget* parent = nullptr);
  void set_hints(const Hints& hints);
  [[nodiscard]] QSize sizeHint() const override;
  [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  Hints hints_;
};

}  // namespace likeleaf::ui
