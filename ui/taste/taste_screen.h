#pragma once
// The taster's screen: what the port gives and nothing else.
#include <QWidget>
#include <memory>
#include <optional>

#include "core/base/clock.h"
#include "core/base/style.h"
#include "core/session/taster_port.h"

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QTimer;

namespace likeleaf::ui {

class GuessPage;
class PairPage;

/// One assessor's flight: state of the day once a sitting, warm-up, then pair after pair with rests between. Where one
/// stands is read from the book, so a screen that is opened again goes on where it was left.
class TasteScreen final : public QWidget {
  Q_OBJECT
 public:
  TasteScreen(std::unique_ptr<TasterPort> port, const Clock& clock, const Style& style, QWidget* parent = nullptr);
  ~TasteScreen() override;
  /// Reads the flight again: a pair may have been voided and brewed again.
  void refresh();

 signals:
  void flight_done();   ///< every pair of every sitting is locked
  void leave_wanted();  ///< the taster is done for now

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void showEvent(QShowEvent* event) override;

 private:
  QWidget* make_day();
  QWidget* make_pause();
  void show_day(int sitting);
  void keep_day();
  void show_pause(const QString& title, const QString& words, const QString& button);
  void show_rest();
  void onward();
  void focus_page();
  [[nodiscard]] std::optional<BlindServing> next() const;
  [[nodiscard]] std::optional<BlindServing> last_locked() const;

  std::unique_ptr<TasterPort> port_;
  const Clock& clock_;
  QStackedWidget* pages_;
  QWidget* day_;
  QLabel *day_title_, *day_message_;
  QCheckBox *cold_, *ate_, *swallows_;
  QLineEdit* day_note_;
  PairPage* pair_;
  GuessPage* guess_;
  QWidget* pause_;
  QLabel *pause_title_, *pause_words_, *pause_clock_;
  QPushButton* pause_button_;
  QTimer* tick_;
  int sitting_ = 0;                            ///< of the day page
  std::optional<IdOf<Serving>> rested_after_;  ///< the pair after which the rest was ended by the taster
  bool told_done_ = false;
};

}  // namespace likeleaf::ui
