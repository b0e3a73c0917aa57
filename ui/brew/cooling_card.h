#pragma once
#include <QFrame>
#include <vector>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/domain/bench_order.h"

class QLabel;

namespace likeleaf::ui {

/// The brews that cool or wait in the bath, with their newest readings.
class CoolingCard final : public QFrame {
  Q_OBJECT
 public:
  explicit CoolingCard(const Style& style, QWidget* parent = nullptr);
  void show_cooling(const Plan& plan, const std::vector<const Brew*>& brews, const Moment& now);

 private:
  const Style& style_;
  QLabel* lines_;
  QLabel* foot_;
};

}  // namespace likeleaf::ui
