#pragma once
// Texts of core on Qt's side.
#include <QString>
#include <string>

namespace likeleaf::ui {

inline QString text(const std::string& s) {
  return QString::fromStdString(s);
}

}  // namespace likeleaf::ui
