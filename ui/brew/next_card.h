#pragma once
#include <QFrame>
#include <vector>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/domain/bench_order.h"

class QLabel;

namespace likeleaf::ui {

/// What comes next, with what it needs and what can hurt.
class NextCard final : public QFrame {
  Q_OBJECT
 public:
  explicit NextCard(const Style& style, QWidget* parent = nullptr);
  /// `brews` of the sitting, `current` the one in hand or nullptr.
  void show_next(const Trial& trial, const std::vector<const Brew*>& brews, const Brew* current, const Moment& now,
                 bool keyed);

 private:
  const Style& style_;
  QLabel* head_;
  QLabel* act_;
  QLabel* recipe_;
  QLabel* caution_;
};

}  // namespace likeleaf::ui
