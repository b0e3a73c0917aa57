#pragma once
#include <QWidget>

#include "core/session/session.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class BlankLine;

/// A pair taken out with a reason, and what it is brewed again under.
class VoidPanel final : public QWidget {
  Q_OBJECT
 public:
  explicit VoidPanel(Session& session, QWidget* parent = nullptr);
  /// `who` is offered first.
  void refresh(int sitting, IdOf<Assessor> who);
  /// The keyboard goes to the pair.
  void begin();

 private:
  void take_out();
  Session& session_;
  QComboBox* pair_;
  QComboBox* who_;
  BlankLine* why_;
  QPushButton* take_;
  QLabel* list_;
};

}  // namespace likeleaf::ui
