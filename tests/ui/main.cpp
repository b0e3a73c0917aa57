#include <gtest/gtest.h>

#include <QApplication>
#include <QTemporaryDir>
#include <clocale>

#include "ui/theme/theme.h"

int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  ::testing::InitGoogleTest(&argc, argv);
  // Settings that a test keeps go with it.
  const QTemporaryDir settings;
  qputenv("XDG_CONFIG_HOME", settings.path().toUtf8());
  QApplication application(argc, argv);
  std::setlocale(LC_NUMERIC, "C");
  // A caret that blinks would make two grabs of one screen differ by the moment.
  QApplication::setCursorFlashTime(0);
  likeleaf::ui::apply_theme(application, false);
  return RUN_ALL_TESTS();
}
