#pragma once
// Pairs on their way to the table: served now, how warm at first sip, or taken out with a reason.
#include <QWidget>

#include "core/base/style.h"
#include "core/session/session.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class BlankLine;

class ServePanel final : public QWidget {
  Q_OBJECT
 public:
  ServePanel(Session& session, const Clock& clock, const Style& style, QWidget* parent = nullptr);
  /// `keyed`: brews of a pair may be named.
  void refresh(int sitting, bool keyed);

 private:
  [[nodiscard]] std::optional<ServedPair> served() const;
  void show_values();
  void serve_now();
  [[nodiscard]] QString not_ready(const Trial& trial, IdOf<Pair> pair) const;
  void put(bool left, const QString& typed);
  Session& session_;
  const Clock& clock_;
  const Style& style_;
  QComboBox* pair_;
  QPushButton* now_;
  BlankLine* left_;
  BlankLine* right_;
  QLabel* when_;
  QLabel* refused_;
  bool keyed_ = false;
  QLabel* caution_;
};

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
