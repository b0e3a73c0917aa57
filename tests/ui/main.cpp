#include <gtest/gtest.h>

#include <QApplication>
#include <clocale>

#include "ui/theme/theme.h"

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  ::testing::InitGoogleTest(&argc, argv);
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  // A caret that blinks would make two grabs of one screen differ by the moment.
  QApplication::setCursorFlashTime(0);
  likeleaf::ui::apply_theme(application, false);
  return RUN_ALL_TESTS();
}
