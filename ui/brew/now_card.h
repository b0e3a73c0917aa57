#pragma once
#include <QFrame>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/domain/bench_order.h"

class QLabel;

namespace likeleaf::ui {

class ClockFace;

/// The brew in hand, large: what is going on, what to pour or when to drain, and its clock.
class NowCard final : public QFrame {
  Q_OBJECT
 public:
  explicit NowCard(const Style& style, QWidget* parent = nullptr);
  void show_brew(const Trial& trial, const Brew& brew, const Moment& now, bool keyed);
  void show_all_ready(int sitting);

 private:
  void show_task(const BenchTask& task);
  const Style& style_;
  QLabel* brew_;
  QLabel* act_;
  QLabel* task_;
  QLabel* hint_;
  ClockFace* face_;
  QLabel* face_of_;
};

}  // namespace likeleaf::ui
