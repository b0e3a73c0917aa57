#pragma once
#include <QAccessibleWidget>

namespace likeleaf::ui {

class BrewLanes;

/// For screen readers the lanes are a list whose value is the lane of now; what all lanes hold is its description.
class LanesAccess final : public QAccessibleWidget {
 public:
  explicit LanesAccess(BrewLanes* lanes);
  [[nodiscard]] QString text(QAccessible::Text what) const override;
  /// Makes Qt ask for it; once is enough.
  static void install();
};

}  // namespace likeleaf::ui
