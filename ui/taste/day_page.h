#pragma once
// Once a sitting: how the taster is today, and what to mind at this table.
#include <QWidget>

#include "core/session/taster_port.h"

class QCheckBox;
class QLabel;
class QLineEdit;

namespace likeleaf::ui {

class DayPage final : public QWidget {
  Q_OBJECT
 public:
  DayPage(TasterPort& port, const Clock& clock, QWidget* parent);
  /// The questions of one sitting; what was ticked for another is forgotten.
  void show_sitting(int sitting, int of);

 signals:
  void kept();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void keep();

  TasterPort& port_;
  const Clock& clock_;
  int sitting_ = 0;
  QLabel *title_, *message_;
  QCheckBox *cold_, *ate_, *swallows_;
  QLineEdit* note_;
};

}  // namespace likeleaf::ui
