#pragma once
#include <QString>
#include <QWidget>
#include <optional>

#include "core/acts/unmask.h"
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
class ClockFace;
class NotePanel;
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
  QWidget* build_now();
  QWidget* build_next();
  QWidget* build_cooling();
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
  void show_now(const Trial& trial);
  void show_next(const Trial& trial);
  void show_cooling(const Trial& trial);
  void show_drift(const Trial& trial);
  /// The brew that the stamp belongs to; nullptr when all are ready.
  [[nodiscard]] const Brew* current(const Trial& trial) const;
  [[nodiscard]] const Brew* following(const Trial& trial, const Brew* now) const;
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

  QLabel* heading_;
  QLabel* empty_;
  QComboBox* sittings_;
  QPushButton* close_;
  QPushButton* prints_;
  PreparePage* prepare_;
  QWidget* bench_;
  QLabel* now_brew_ = nullptr;
  QLabel* now_act_ = nullptr;
  QLabel* now_hint_ = nullptr;
  QLabel* now_recipe_ = nullptr;
  ClockFace* face_ = nullptr;
  QLabel* face_of_ = nullptr;
  QLabel* next_head_ = nullptr;
  QLabel* next_act_ = nullptr;
  QLabel* recipe_ = nullptr;
  QLabel* caution_ = nullptr;
  QLabel* cooling_ = nullptr;
  QLabel* cooling_foot_ = nullptr;
  BrewLanes* lanes_ = nullptr;
  QPushButton* stamp_ = nullptr;
  QPushButton* undo_ = nullptr;
  QLabel* drift_ = nullptr;
  QLabel* refused_ = nullptr;
  NotePanel* note_ = nullptr;
  ServePanel* serve_ = nullptr;
  VoidPanel* void_ = nullptr;
  QTimer* timer_;
};

}  // namespace likeleaf::ui
