#pragma once
#include <QWidget>
#include <vector>

#include "core/base/style.h"
#include "core/session/session.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;
class QVBoxLayout;

namespace likeleaf::ui {

/// Before the key is open: portions weighed and ticked, brews by number and place alone, and the deliberate reveal.
class PreparePage final : public QWidget {
  Q_OBJECT
 public:
  PreparePage(Session& session, const Style& style, QWidget* parent = nullptr);
  void refresh(int sitting);
  /// A refusal or what happened to the key; empty hides it.
  void say(const QString& sentence);

 signals:
  void key_wanted(const QString& preparer);  ///< id text
  void without_key_wanted();

 private:
  void fill_lots(const Trial& trial);
  void ask(bool asking);
  Session& session_;
  const Style& style_;
  QLabel* places_;
  QLabel* message_;
  QWidget* asking_;
  QComboBox* who_;
  QPushButton* ask_;
  QPushButton* open_;
  QPushButton* plain_;
  QPushButton* not_yet_;
  QVBoxLayout* lots_;
  std::vector<std::pair<IdOf<Lot>, QCheckBox*>> ticks_;
};

}  // namespace likeleaf::ui
