#pragma once
// Score sheets that were written on paper, typed in: what the port gives and nothing else.
#include <QWidget>
#include <memory>
#include <optional>

#include "core/base/style.h"
#include "core/session/taster_port.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;

namespace likeleaf::ui {

class ComparePage;
class PaperGrid;

/// One assessor's sheets, one sitting at a time: first entry, second entry by somebody who does not see the first,
/// what differs, and the lock. Every box is in the book when it is left, so a screen that is opened again goes on.
class PaperScreen final : public QWidget {
  Q_OBJECT
 public:
  PaperScreen(std::unique_ptr<TasterPort> port, const Style& style, QWidget* parent = nullptr);
  ~PaperScreen() override;
  /// Reads the flight again: a pair may have been voided and brewed again.
  void refresh();

 signals:
  void leave_wanted();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  enum class Mode { first, second, compare };
  QWidget* make_head();
  QWidget* make_day();
  QWidget* make_foot();
  void show_sitting(int sitting);
  void set_mode(Mode mode);
  void show_now();
  void show_progress();
  void show_day();
  void show_undo();
  void order_tabs();
  void put_day();
  void say(const QString& words);
  void lock(std::optional<std::size_t> pair);
  bool name_before_lock(std::optional<std::size_t> pair, const QString& words, bool once);
  void undo();
  [[nodiscard]] std::vector<std::size_t> open_pairs() const;

  std::unique_ptr<TasterPort> port_;
  Style style_;
  std::vector<BlindServing> pairs_;  ///< of the sitting that is shown
  int sitting_ = 0;
  Mode mode_ = Mode::first;
  std::optional<std::size_t> hand_;        ///< the pair that was written on last: undo goes back in its sheet
  QString named_;                          ///< what was named before the lock that was asked for
  std::optional<std::size_t> named_pair_;  ///< for one pair; nothing: for the sitting
  QComboBox* sittings_ = nullptr;
  std::vector<QPushButton*> modes_;
  QLabel *progress_ = nullptr, *hint_ = nullptr, *message_ = nullptr;
  QWidget* message_area_ = nullptr;
  QStackedWidget* pages_ = nullptr;
  PaperGrid* grid_ = nullptr;
  ComparePage* compare_ = nullptr;
  QCheckBox *cold_ = nullptr, *ate_ = nullptr, *swallows_ = nullptr;
  QLineEdit* day_note_ = nullptr;
  QPushButton *undo_ = nullptr, *leave_ = nullptr, *lock_all_ = nullptr;
};

}  // namespace likeleaf::ui
