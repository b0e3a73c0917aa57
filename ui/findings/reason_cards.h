#pragma once
#include <QWidget>
#include <vector>

#include "core/wording/reasons.h"

class QGridLayout;
class QPushButton;

namespace likeleaf::ui {

/// "Why believe it": one row of cards, cautions always among them; the rest one press behind, named on the button.
class ReasonCards final : public QWidget {
  Q_OBJECT
 public:
  explicit ReasonCards(const std::vector<wording::Reason>& reasons, QWidget* parent = nullptr);

 private:
  void add(const wording::Reason& reason);

  QGridLayout* grid_;
  int at_ = 0;
};

}  // namespace likeleaf::ui
