#pragma once
#include <QWidget>

#include "core/base/style.h"
#include "core/session/session.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace likeleaf::ui {

class BlankLine;

/// A pair on its way to the table: served now, and how warm each cup was at first sip.
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

}  // namespace likeleaf::ui
