#pragma once
#include <QWidget>

#include "core/findings/attribute_finding.h"

namespace likeleaf::ui {

/// Filled dot, bar, split dot, hollow ring, or a short upright for also noted; its word is its accessible name.
class VerdictMark final : public QWidget {
  Q_OBJECT
 public:
  explicit VerdictMark(evidence::Word word, QWidget* parent = nullptr);
  [[nodiscard]] QSize sizeHint() const override { return {22, 22}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  evidence::Word word_;
};

}  // namespace likeleaf::ui
