#pragma once
#include <QString>
#include <QWidget>
#include <optional>

#include "core/acts/key_vault.h"
#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/session/session.h"

class QComboBox;
class QLabel;
class QPushButton;
class QScrollArea;
class QTimer;

namespace likeleaf::ui {

class BrewLanes;
class CoolingCard;
class DriftLine;
class NextCard;
class NotePanel;
class NowCard;
class PreparePage;
class ServePanel;
class VoidPanel;

/// The preparer's screen. Until the key is opened on purpose it shows numbers and places alone. The pass lapses, and
/// that is logged, when the view is hidden or closed. Delete it, or hide it, before the session goes or takes another
/// trial. `clock` only moves the display: stamps take the session's time.
class BrewScreen final : public QWidget {
  Q_OBJECT
 public:
  BrewScreen(Session& session, const Clock& clock, const Style& style, QWidget* parent = nullptr);
  ~BrewScreen() override;
  /// Reads the trial on the bench again.
  void refresh();
  /// What the clocks show now; the timer calls it.
  void tick();
  [[nodiscard]] bool key_open() const { return pass_.has_value(); }
  void close_key();

 signals:
  /// Labels, tray map and the preparer's sheet of this sitting.
  void prints_wanted(int sitting);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  enum class Panel { note, serve, taking_out };
  void build_top();
  QWidget* build_foot();
  void hear(const Notice& notice);
  void open_key(const QString& preparer);
  void show_pages();
  void fill_sittings(const Trial& trial);
  void stamp();
  void undo_stamp();
  void choose(const QString& brew);
  void show_panel(Panel panel);
  void show_board();
  /// The stamp belongs to the current brew; nullptr when all are ready.
  void show_stamp(const Plan& plan, const Brew* current);
  [[nodiscard]] bool brewing() const { return pass_.has_value() || without_key_; }

  Session& session_;
  const Clock& clock_;
  const Style& style_;
  Subscription changes_;
  std::optional<PreparerPass> pass_;
  bool without_key_ = false;  ///< self-blinded: the only preparer tastes
  IdOf<Trial> trial_;
  int sitting_ = 1;
  IdOf<Brew> chosen_;  ///< empty: the brew of now

  QLabel* heading_ = nullptr;
  QLabel* empty_ = nullptr;
  QComboBox* sittings_ = nullptr;
  QPushButton* close_ = nullptr;
  QPushButton* prints_ = nullptr;
  PreparePage* prepare_ = nullptr;
  QWidget* bench_ = nullptr;
  NowCard* now_ = nullptr;
  NextCard* next_ = nullptr;
  CoolingCard* cooling_ = nullptr;
  BrewLanes* lanes_ = nullptr;
  QPushButton* stamp_ = nullptr;
  QPushButton* undo_ = nullptr;
  DriftLine* drift_ = nullptr;
  QLabel* refused_ = nullptr;
  NotePanel* note_ = nullptr;
  ServePanel* serve_ = nullptr;
  VoidPanel* void_ = nullptr;
  QTimer* timer_ = nullptr;
};

}  // namespace likeleaf::ui
