#include "ui/brew/lanes_access.h"

#include "ui/brew/brew_lanes.h"

namespace likeleaf::ui {
namespace {

QAccessibleInterface* make(const QString&, QObject* object) {
  auto* lanes = dynamic_cast<BrewLanes*>(object);
  return lanes ? new LanesAccess(lanes) : nullptr;
}

}  // namespace

LanesAccess::LanesAccess(BrewLanes* lanes) : QAccessibleWidget(lanes, QAccessible::List) {}

QString LanesAccess::text(QAccessible::Text what) const {
  return what == QAccessible::Value ? static_cast<BrewLanes*>(widget())->current_said() : QAccessibleWidget::text(what);
}

void LanesAccess::install() {
  [[maybe_unused]] static const bool installed = (QAccessible::installFactory(make), true);
}

}  // namespace likeleaf::ui
